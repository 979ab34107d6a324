/** From a posterior to a verdict. The thresholds were set by simulation: see tests/bench/trials.mjs. */
import type { Measured } from '../diagnosis/results.ts';
import { chanceAbove, chanceOf } from './chance.ts';
import { contrast, type NoisePrior, type Posterior } from './model.ts';
import type { NoiseNumbers } from './noise.ts';
import { earlierSittings, openShare } from './pooled.ts';
import { limitsOf, type Arm, type ArmName, type Chances, type Trial } from './trial.ts';

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
  /** kept because a gauge asked for it, and it was rated no worse */
  readonly byGauge?: true;
  /** for cannot-tell: the ratings scatter so much that one block decides nothing */
  readonly scatter?: true;
}

export interface JudgeNumbers {
  /** the smallest difference worth having, points of the 1–7 scale; judgement */
  readonly worth: number;
  /**
   * ratings whose error is larger, points, show no step to be useless by being much alike, nor one to be better by their middle;
   * judgement
   */
  readonly clear: number;
  /** chance that a step is worth having, to keep it */
  readonly sure: number;
  /**
   * the same where one step is ridden and a block has no more runs of it than this, so that what was expected speaks loudest: at the first look,
   * and at the second; from the third on the error that the second is allowed falls as it does for more runs
   */
  readonly few: {
    readonly runs: number;
    readonly sure: readonly [first: number, second: number];
    /** the same where the rider knew what was set: what belief adds is taken off already, and its spread counts as error */
    readonly open: readonly [first: number, second: number];
  };
  /**
   * the same where the ratings of several trials of one step count together, at the second and at the third look: what
   * belief adds, or a day is like, does not average out, and each of them by itself would be allowed the first look's error
   */
  readonly days: { readonly sure: number; readonly open: number };
  /** a chance below this that a step is worth having sends the rider back */
  readonly unlikely: number;
  /** error allowed when a step is compared with the other direction, which holds whatever a rider feels about any change */
  readonly falseKeep: number;
  /** scatter of a run's score, points, above which the first block decides nothing */
  readonly mostNoise: number;
  /** chances asked for before a guess about a setting that nobody rode */
  readonly further: number;
  readonly half: number;
  /** what the interval of a difference covers */
  readonly cover: number;
  readonly noise: NoiseNumbers;
  /** scatter of a run's time, as a share of the mean time; judgement */
  readonly timeNoise: NoisePrior;
  /** how many times the runs of a trial are looked ahead to, at most; 1: not at all */
  readonly mostTimes: number;
}

export const JUDGE: JudgeNumbers = {
  worth: 0.25,
  clear: 0.6,
  sure: 0.9,
  few: { runs: 2, sure: [0.965, 0.98], open: [0.94, 0.98] },
  days: { sure: 0.97, open: 0.95 },
  unlikely: 0.1,
  falseKeep: 0.1,
  mostNoise: 0.775,
  further: 0.7,
  half: 0.8,
  cover: 0.95,
  noise: { run: 0.5, rating: 0.7, weight: 6, within: 18 },
  timeNoise: { sd: 0.02, weight: 3 },
  mostTimes: 4,
};

type Weights = Partial<Record<ArmName, number>>;
/** What of a trial its verdict hangs on. */
export type Tried = Pick<Trial, 'arms' | 'change' | 'chances' | 'expected' | 'hidden' | 'before'>;

/**
 * The verdict on arms whose effects have this posterior.
 * @param looks how often the step has been judged by now: the number of full blocks, at least 1
 */
export function decide(post: Posterior, trial: Tried, looks: number, numbers: JudgeNumbers): Decision {
  const [reference, first, second] = trial.arms;
  const pair = second === undefined ? [first] : [first, second];
  const stay = { arm: 'reference', set: reference.set } as const;
  const real = pair.filter((arm) => arm.name !== 'sham' && runsOf(post, arm) > 0);
  const ratedWorse = (arm: Arm): boolean => chanceAbove(post, { [arm.name]: 1 }) < (1 - numbers.cover) / 2;
  if (looks < 2 && post.noise > numbers.mostNoise) {
    // Going back is safe, and the interval holds the scatter already.
    if (real.length > 0 && real.every(ratedWorse)) return { verdict: 'back', ...stay };
    return { verdict: 'cannot-tell', ...stay, scatter: true };
  }
  const winner = pair.find((arm) => isClearlyBest(post, trial, arm, looks, numbers));
  if (winner !== undefined) return keepOrFurther(post, trial, winner, numbers);
  const half = halfStep(post, trial, numbers);
  if (half !== undefined) return half;
  // What was clearly rated worse goes back, however much was expected of it.
  const nothingWorth = real.every(
    (arm) => chanceWorth(post, trial, arm.name, numbers.worth) <= numbers.unlikely || ratedWorse(arm),
  );
  return { verdict: nothingWorth && real.length > 0 ? 'back' : 'cannot-tell', ...stay };
}

/**
 * Worth having with the chance that is asked for, and where the other direction was ridden too, better than that.
 *
 * Every block is another look at the same question, and two real arms are two chances to be fooled. The error that is
 * allowed falls with the third power of the looks, so that all looks together allow at most 1.21 times the first one's,
 * however long it is ridden on; in the comparison of two arms it is halved as well. Blocks of few runs of one step are
 * allowed the first look's error and at most 1.21 times the second one's. Where several trials count together the third
 * look is allowed the second one's error, and it falls after that.
 */
function isClearlyBest(
  post: Posterior,
  trial: Tried,
  arm: Arm,
  looks: number,
  { worth, sure, few, days, falseKeep }: JudgeNumbers,
): boolean {
  if (arm.name === 'sham' || runsOf(post, arm) === 0) return false;
  const other = trial.arms.find((one) => one.name !== 'reference' && one !== arm);
  // Where another direction is compared too, that comparison guards against what was expected.
  const isShort = other === undefined && runsOf(post, arm) <= few.runs * looks;
  const isOpen = openShare(trial) > 0 && trial.expected !== undefined;
  const allowed =
    earlierSittings(trial).length > 0
      ? (1 - (isOpen ? days.open : days.sure)) / Math.max(1, looks - 2) ** 3
      : isShort
        ? allowedOfFew(isOpen ? few.open : few.sure, looks)
        : (1 - sure) / looks ** 3;
  if (chanceWorth(post, trial, arm.name, worth) < 1 - allowed) return false;
  if (other === undefined) return true;
  const candidates = other.name === 'sham' ? 1 : 2;
  return (
    runsOf(post, other) > 0 &&
    chanceAbove(post, { [arm.name]: 1, [other.name]: -1 }) >= 1 - falseKeep / (candidates * looks ** 3)
  );
}

/** The error allowed to a look at blocks of few runs. */
function allowedOfFew([first, second]: readonly [number, number], looks: number): number {
  return looks === 1 ? 1 - first : (1 - second) / (looks - 1) ** 3;
}

/** P(effect of the arm > bound), with what the diagnosis expected and what a rider adds who knew the setting. */
export function chanceWorth(post: Posterior, trial: Tried, arm: ArmName, bound: number): number {
  const { chances, expected } = trial;
  if (chances === undefined || expected === undefined) return chanceAbove(post, { [arm]: 1 }, bound);
  const advised = arm === trial.arms[1].name;
  // What helps one way harms the other.
  const own: Chances = advised ? chances : { helps: chances.harms, harms: chances.helps };
  return chanceOf(expected, own, measuredOf(post, trial, arm), bound);
}

/**
 * The difference from the reference as evidence. A t distribution becomes the normal one of the same variance. An open
 * trial of the advised step measures the effect plus what belief in the advice adds: its mean is taken off, its spread
 * goes into the error, both as far as the trials that count were open. However often a believer rides it, he believes.
 */
export function measuredOf(post: Posterior, trial: Tried, arm: ArmName): Measured {
  const { mean, scale, df } = contrast(post, { [arm]: 1 });
  const error = scale * Math.sqrt(df / (df - 2));
  const [added, spread] = trial.expected?.open ?? [0, 0];
  const share = arm === trial.arms[1].name ? openShare(trial) : 0;
  return { points: mean - share * added, error: Math.hypot(error, share * spread) };
}

function runsOf(post: Posterior, arm: Arm): number {
  return post.runs[post.arms.indexOf(arm.name)] ?? 0;
}

function keepOrFurther(post: Posterior, trial: Tried, winner: Arm, numbers: JudgeNumbers): Decision {
  const { arms, change } = trial;
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
function halfStep(post: Posterior, trial: Tried, numbers: JudgeNumbers): Decision | undefined {
  const { arms, change } = trial;
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
function curveThrough([reference, first, second]: Trial['arms']): ((x: number) => Weights) | undefined {
  if (second === undefined) return undefined;
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
