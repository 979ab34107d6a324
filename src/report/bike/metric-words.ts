/** A change of a metric in words: how much of it, which way, and how it is now. */
import type { PredictedMetric } from '../../physics/predict.ts';

export type Numbers = Pick<PredictedMetric, 'before' | 'least' | 'most' | 'unit' | 'sides' | 'words'>;

/** `12 to 18 mm deeper, now 21 mm below sag`; `2 mm higher to 5 mm deeper` where nobody can say which way. */
export function changeWords(change: Numbers): string {
  const { least, most, unit, words } = change;
  const digits = digitsFor(Math.max(Math.abs(least), Math.abs(most)));
  const shown = (x: number): string => Math.abs(x).toFixed(digits);
  const now = `now ${nowWords(change, digits)}`;
  if (least < 0 && most > 0)
    return `${shown(least)} ${unit} ${words.down} to ${shown(most)} ${unit} ${words.up}, ${now}`;
  const [low, high] = most <= 0 ? [shown(most), shown(least)] : [shown(least), shown(most)];
  const range = low === high ? `about ${high}` : Number(low) === 0 ? `up to ${high}` : `${low} to ${high}`;
  if (Number(high) === 0) return `the same, ${nowWords(change, MOST_DECIMALS)}`;
  return `${range} ${unit} ${most <= 0 ? words.down : words.up}, ${now}`;
}

/** `21 mm below sag`, `0.53 m/s`: no sign that has to be explained. @param most decimals, those of what it is beside */
function nowWords({ before, unit, sides }: Omit<Numbers, 'least' | 'most' | 'words'>, most: number): string {
  const digits = Math.min(most, digitsFor(Math.abs(before)));
  if (sides === undefined) return `${before.toFixed(digits).replace('-', '−')} ${unit}`;
  const size = Math.abs(before).toFixed(digits);
  return Number(size) === 0 ? `0 ${unit}` : `${size} ${unit} ${before < 0 ? sides.minus : sides.plus}`;
}

/** Nobody could measure more of it. */
const MOST_DECIMALS = 3;

/** Two figures. */
function digitsFor(size: number): number {
  return size === 0 ? 0 : Math.max(0, Math.min(MOST_DECIMALS, 1 - Math.floor(Math.log10(size))));
}
