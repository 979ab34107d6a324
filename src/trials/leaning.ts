/**
 * What ratings show that bring no verdict. The verdict's words, the word in the log and the advice after it all go by this, so
 * that none of them calls useless what another names again.
 */
import type { Measured } from '../diagnosis/results.ts';
import { JUDGE, type JudgeNumbers } from './decide.ts';
import type { Effect, Judgement } from './judge.ts';

export type Leaning = 'better' | 'worse' | 'none';

/**
 * The side to which a trial is rated: the best of what was changed beyond its interval, in every single run and by as much as
 * is worth having, or by twice that where the ratings are clear; all of it worse. What belief in the step may have added is no gain.
 */
export function leaning({ effects }: Pick<Judgement, 'effects'>, numbers: JudgeNumbers = JUDGE): Leaning {
  const real = effects.filter(({ arm }) => arm !== 'sham');
  const [best] = real.toSorted((a, b) => b.difference - a.difference);
  if (best === undefined) return 'none';
  if (leansBetter(best, numbers)) return 'better';
  const { worth } = numbers;
  return real.every(
    ({ high, always, difference }) => high < 0 || (always === 'worse' && difference <= -worth),
  )
    ? 'worse'
    : 'none';
}

function leansBetter({ low, always, measured }: Effect, numbers: JudgeNumbers): boolean {
  return (
    low > 0 || (always === 'better' && measured.points >= numbers.worth) || isClearGain(measured, numbers)
  );
}

/** By thousandths, as the log keeps them: what it says of a trial is what its verdict said. */
function isClearGain({ points, error }: Measured, { worth, clear }: JudgeNumbers): boolean {
  return error <= clear && Math.round(points * 1000) >= 2000 * worth;
}

/**
 * Whether ratings that lean to no side show that the step does nothing worth having: clear ones, where the gain is too small to
 * be felt; others, where it is as unlikely as by equal ratings that are just clear.
 * @param points 1–7 scale, with the standard deviation `error`
 */
export function showsNone(measured: Measured, numbers: JudgeNumbers = JUDGE): boolean {
  const { points, error } = measured;
  const { worth, clear } = numbers;
  if (error <= clear) return !isClearGain(measured, numbers);
  return (worth - points) / error >= worth / clear;
}
