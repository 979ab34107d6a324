/** A metric before and after in words: as many digits as show the difference, and no sign that has to be explained. */
import type { PredictedMetric } from '../dynamics/predict.ts';

export type Numbers = Pick<PredictedMetric, 'before' | 'after' | 'unit' | 'sides'>;

/** `21 → 16 mm below sag`, `2.1 mm below sag → 2.2 mm above sag`, `0.53 → 0.47 m/s` */
export function beforeAfter({ before, after, unit, sides }: Numbers): string {
  const digits = digitsFor(before, after);
  const shown = (x: number): string => {
    const text = (sides === undefined ? x : Math.abs(x)).toFixed(digits);
    return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
  };
  if (sides === undefined) return `${shown(before)} → ${shown(after)} ${unit}`;
  // What rounds to nothing is on neither side.
  const side = (x: number, other: number): string =>
    (Number(shown(x)) === 0 ? other : x) < 0 ? sides.minus : sides.plus;
  const [from, to] = [side(before, after), side(after, before)];
  return from === to
    ? `${shown(before)} → ${shown(after)} ${unit} ${to}`
    : `${shown(before)} ${unit} ${from} → ${shown(after)} ${unit} ${to}`;
}

/**
 * Decimals: a difference of 3 or more in a place is clear in that place, and small numbers keep a tenth; but no more
 * than three, nor more than four figures, of which nobody could measure the last.
 */
function digitsFor(before: number, after: number): number {
  if (Number.isInteger(before) && Number.isInteger(after)) return 0;
  const gap = Math.abs(after - before);
  const most = Math.max(Math.abs(before), Math.abs(after));
  const least = most < 10 ? 1 : 0;
  const place = Math.floor(Math.log10(Math.max(gap, 1e-3)));
  const wanted = Math.max(least, gap / 10 ** place < 3 ? 1 - place : -place);
  return Math.max(0, Math.min(3, 3 - Math.floor(Math.log10(Math.max(most, 1e-3))), wanted));
}
