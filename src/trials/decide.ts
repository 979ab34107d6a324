/** From a posterior to a verdict. The thresholds were set by simulation: see tests/bench/trials.mjs. */
import { chanceAbove } from './chance.ts';
import type { NoisePrior, Posterior } from './model.ts';
import { limitsOf, type Arm, type ArmName, type Change } from './trial.ts';

/**
 * keep: stay on this arm; further: it is better and more of it looks better still; half: between the reference
 * and this arm; back: the reference, nothing tried is worth having; cannot-tell: too little was seen.
 */
export type Verdict = 'keep' | 'further' | 'half' | 'back' | 'cannot-tell';

export interface Decision {
  readonly verdict: Verdict;
  /** the arm kept, or the one toward which to go half the step */
  readonly arm: ArmName;
  /** where to put the adjuster now; for cannot-tell the reference */
  readonly set: number;
  /** for further: where the next trial should go */
  readonly next?: number;
}

export interface JudgeNumbers {
  /** chance that an arm is better than the reference, to keep it */
  readonly sure: number;
  /** error allowed when it is compared with the other arm, which holds whatever a rider feels about any change */
  readonly falseKeep: number;
  /** the smallest difference worth having, points of the 1–7 scale; judgement */
  readonly worth: number;
  /** a chance below this that an arm is worth having sends the rider back */
  readonly unlikely: number;
  /** chances asked for before a guess about a setting that nobody rode */
  readonly further: number;
  readonly half: number;
  /** what the interval of a difference covers */
  readonly cover: number;
  /** scatter of a run's score about the model, points; judgement (see `openingNoise` for what corrects it) */
  readonly noise: NoisePrior;
  /** scatter of a run's time, as a share of the mean time; judgement */
  readonly timeNoise: NoisePrior;
  /** blocks of further runs to look ahead */
  readonly mostBlocks: number;
}

export const JUDGE: JudgeNumbers = {
  sure: 0.97,
  falseKeep: 0.035,
  worth: 0.5,
  unlikely: 0.1,
  further: 0.7,
  half: 0.8,
  cover: 0.95,
  noise: { sd: 0.5, weight: 3 },
  timeNoise: { sd: 0.02, weight: 3 },
  mostBlocks: 6,
};

type Weights = Partial<Record<ArmName, number>>;

/** The verdict on arms whose effects have this posterior. */
export function decide(
  post: Posterior,
  arms: readonly [Arm, Arm, Arm],
  change: Change,
  numbers: JudgeNumbers,
): Decision {
  const [reference, first, second] = arms;
  const pair = [first, second] as const;
  const winner = pair.find((arm) => isClearlyBest(post, arm, arm === first ? second : first, numbers));
  if (winner !== undefined) return keepOrFurther(post, arms, winner, change, numbers);
  const half = halfStep(post, arms, change, numbers);
  if (half !== undefined) return half;
  const stay = { arm: 'reference', set: reference.set } as const;
  const real = pair.filter((arm) => arm.name !== 'sham' && runsOf(post, arm) > 0);
  const nothingWorth = real.every(
    (arm) => chanceAbove(post, { [arm.name]: 1 }, numbers.worth) < numbers.unlikely,
  );
  return { verdict: nothingWorth && real.length > 0 ? 'back' : 'cannot-tell', ...stay };
}

/**
 * Better than the reference, and better than the other arm, which was just as new to the rider.
 *
 * Two real arms are two chances to be fooled, a sham leaves one; and every block is another look at the same
 * question. The error allowed in the second comparison is shared out over both (Bonferroni), so that riding on
 * until something shows does not make a keep out of nothing. In the first comparison the error shrinks by √looks
 * only: the second mostly bites as well, and a full share finds clearly less of what is there (measured).
 */
function isClearlyBest(post: Posterior, arm: Arm, other: Arm, { sure, falseKeep }: JudgeNumbers): boolean {
  const looks = Math.min(runsOf(post, arm), runsOf(post, other));
  if (arm.name === 'sham' || looks === 0) return false;
  const candidates = other.name === 'sham' ? 1 : 2;
  return (
    chanceAbove(post, { [arm.name]: 1 }) >= 1 - (1 - sure) / Math.sqrt(looks) &&
    chanceAbove(post, { [arm.name]: 1, [other.name]: -1 }) >= 1 - falseKeep / (candidates * looks)
  );
}

function runsOf(post: Posterior, arm: Arm): number {
  return post.runs[post.arms.indexOf(arm.name)] ?? 0;
}

function keepOrFurther(
  post: Posterior,
  arms: readonly [Arm, Arm, Arm],
  winner: Arm,
  change: Change,
  numbers: JudgeNumbers,
): Decision {
  const kept = { verdict: 'keep', arm: winner.name, set: winner.set } as const;
  const curve = curveThrough(arms);
  if (curve === undefined) return kept;
  const offset = winner.set - arms[0].set;
  const { min, max } = limitsOf(change);
  const next = Math.min(max, Math.max(min, winner.set + offset));
  if (Math.abs(next - winner.set) < change.grain) return kept;
  const gain = minus(curve(next - arms[0].set), { [winner.name]: 1 });
  return chanceAbove(post, gain) >= numbers.further ? { ...kept, verdict: 'further', next } : kept;
}

/** Between the reference and one arm, when the curve through what was ridden peaks there. */
function halfStep(
  post: Posterior,
  arms: readonly [Arm, Arm, Arm],
  change: Change,
  numbers: JudgeNumbers,
): Decision | undefined {
  const curve = curveThrough(arms);
  if (curve === undefined || arms.slice(1).some((arm) => runsOf(post, arm) === 0)) {
    return undefined;
  }
  for (const arm of arms.slice(1)) {
    const offset = arm.set - arms[0].set;
    const by = Math.round(offset / 2 / change.grain) * change.grain;
    if (by === 0 || Math.abs(by) >= Math.abs(offset)) continue;
    const there = curve(by);
    const beatsReference = chanceAbove(post, there) >= numbers.half;
    const beatsWhole = chanceAbove(post, minus(there, { [arm.name]: 1 })) >= numbers.half;
    if (beatsReference && beatsWhole) return { verdict: 'half', arm: arm.name, set: arms[0].set + by };
  }
  return undefined;
}

/**
 * The parabola through the reference (0 at 0) and both arms, as weights of their effects at a distance from the
 * reference; undefined unless the arms lie on both sides of it.
 */
function curveThrough(arms: readonly [Arm, Arm, Arm]): ((x: number) => Weights) | undefined {
  const [reference, first, second] = arms;
  const a = first.set - reference.set;
  const b = second.set - reference.set;
  if (a * b >= 0) return undefined;
  return (x) => ({
    [first.name]: (x * (x - b)) / (a * (a - b)),
    [second.name]: (x * (x - a)) / (b * (b - a)),
  });
}

function minus(weights: Weights, taken: Weights): Weights {
  const result: Weights = { ...weights };
  for (const [arm, weight] of Object.entries(taken)) {
    result[arm as ArmName] = (result[arm as ArmName] ?? 0) - weight;
  }
  return result;
}
