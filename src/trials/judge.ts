/** Judges a trial: effects, chances, verdict, and how many more runs would tell. */
import type { Measured } from '../diagnosis/results.ts';
import { chanceAbove, chanceBest, interval } from './chance.ts';
import {
  chanceWorth,
  decide,
  JUDGE,
  measuredOf,
  type Decision,
  type JudgeNumbers,
  type Verdict,
} from './decide.ts';
import { contrast, posterior, type NoisePrior, type Posterior } from './model.ts';
import { noiseOf } from './noise.ts';
import { runScores } from './score.ts';
import { earlierSittings, judgedRuns, looksOf, readingsOf } from './pooled.ts';
import { blocks, counted, runsLeft, tried } from './sequence.ts';
import { armOf, type ArmName, type RiddenRun, type Trial } from './trial.ts';

/** One arm against the reference, with drift taken out. */
export interface Effect {
  readonly arm: ArmName;
  readonly set: number;
  /** how often it was ridden among the judged runs, those of earlier trials too */
  readonly runs: number;
  /** points of the 1–7 scale, and the interval that holds it */
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  readonly chanceBetter: number;
  /** chance it is worth keeping, with what the diagnosis expected and whether the rider knew the setting */
  readonly chanceWorthwhile: number;
  /** the difference as evidence for the diagnosis: less what belief in the advice may have added */
  readonly measured: Measured;
  /** every run of it was rated to this side of every run at the reference; absent: they overlap */
  readonly always?: 'better' | 'worse';
  /** missing for the sham, which is no setting of its own */
  readonly chanceBest?: number;
}

/** The same in run times. */
export interface TimeEffect {
  readonly arm: ArmName;
  readonly set: number;
  /** s; below 0 is faster */
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  readonly chanceFaster: number;
}

export interface Spread {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export interface Judgement extends Decision {
  readonly effects: readonly Effect[];
  readonly chanceReferenceBest?: number;
  /** runs of this trial that were judged, and those left out for settling in */
  readonly judged: number;
  /** runs of earlier trials that were judged with them; absent: none */
  readonly before?: number;
  readonly settling: number;
  /** points from one run to the next, for every setting alike */
  readonly drift?: Spread;
  /** scatter of one run, points */
  readonly noise?: number;
  /** what both changes had in common, points; above nothing when the rider likes any change */
  readonly liking?: Spread & { readonly chance: number };
  /** the same comparison in run times, s; it never decides, it only warns */
  readonly times?: readonly TimeEffect[];
  /**
   * runs still to ride; or where all are in, how many like these would bring which verdict; null: not with four times
   * as many
   */
  readonly more?: { readonly runs: number; readonly verdict?: Verdict } | null;
  /** the ratings lean that way and do not show it: the rider keeps it all the same */
  readonly onWord?: true;
  /** why nothing could be computed */
  readonly missing?: 'change' | 'reference-after' | 'common-feeling';
}

/** @param numbers thresholds; the defaults are those that were calibrated */
export function judge(trial: Trial, numbers: JudgeNumbers = JUDGE): Judgement {
  const runs = judgedRuns(trial);
  const base = { judged: runs.length, settling: trial.ridden.length - runs.length };
  const unknown = (missing: Judgement['missing'] & string): Judgement => ({
    verdict: 'cannot-tell',
    arm: 'reference',
    set: trial.arms[0].set,
    effects: [],
    ...base,
    missing,
    more: { runs: Math.max(1, runsLeft(trial)) },
  });
  if (!runs.some((run) => run.arm !== 'reference')) return unknown('change');
  const scores = runScores(runs);
  if (scores === null) return unknown('common-feeling');
  const before = earlierSittings(trial);
  const ridden = before.map((one) => judgedRuns(one));
  const prior = noiseOf(runs, numbers.noise, ridden);
  const own = readingsOf(trial, scores, before.length);
  if (posterior(own, prior) === null) return unknown('reference-after');
  const all = [...before.flatMap((one, i) => readingsOf(one, runScores(ridden[i]!)!, i)), ...own];
  const post = posterior(all, prior)!;

  const decision = asGauged(early(decide(post, trial, looksOf(trial), numbers), trial), trial, post, numbers);
  const best = chanceBest(post);
  const times = timeEffects(trial, runs, numbers);
  return {
    ...decision,
    ...base,
    ...(before.length === 0 ? {} : { before: ridden.flat().length }),
    effects: effectsOf(trial, all, post, numbers.cover).map((effect) => {
      const chance = effect.arm === 'sham' ? undefined : best[effect.arm];
      return {
        ...effect,
        chanceWorthwhile: chanceWorth(post, trial, effect.arm, numbers.worth),
        measured: measuredOf(post, trial, effect.arm),
        ...alwaysOf(all, effect.arm),
        ...(chance === undefined ? {} : { chanceBest: chance }),
      };
    }),
    chanceReferenceBest: best.reference!,
    drift: { mean: post.drift.mean, ...interval({ ...post.drift, df: post.df }, numbers.cover) },
    noise: post.noise,
    ...likingOf(trial, post, numbers),
    ...(times === undefined ? {} : { times }),
    ...(decision.verdict === 'cannot-tell' ? { more: moreRuns(trial, numbers) } : {}),
  };
}

/** A step is kept on a full block only: that is what the thresholds were measured on. The way back is open at any time. */
function early(decision: Decision, trial: Trial): Decision {
  const { arms } = trial;
  if (blocks(trial) > 0 || decision.verdict === 'back') return decision;
  return { verdict: 'cannot-tell', arm: 'reference', set: arms[0].set };
}

/** What a gauge asked for stays where it reads right, unless it was clearly rated worse: then the ride has the last word. */
function asGauged(decision: Decision, trial: Trial, post: Posterior, { cover }: JudgeNumbers): Decision {
  const [, step] = trial.arms;
  if (trial.byGauge !== true || blocks(trial) === 0) return decision;
  if (decision.verdict !== 'back' && decision.verdict !== 'cannot-tell') return decision;
  if (interval(contrast(post, { [step.name]: 1 }), cover).high < 0) return decision;
  return { verdict: 'keep', arm: step.name, set: step.set, byGauge: true };
}

function effectsOf(
  trial: Trial,
  runs: readonly { readonly arm: ArmName }[],
  post: Posterior,
  cover: number,
): Omit<Effect, 'chanceWorthwhile' | 'measured'>[] {
  return tried(trial)
    .filter((arm) => post.arms.includes(arm))
    .map((arm) => {
      const effect = contrast(post, { [arm]: 1 });
      return {
        arm,
        set: armOf(trial, arm)!.set,
        runs: runs.filter((run) => run.arm === arm).length,
        difference: effect.mean,
        ...interval(effect, cover),
        chanceBetter: chanceAbove(post, { [arm]: 1 }),
      };
    });
}

function alwaysOf(
  runs: readonly { readonly arm: ArmName; readonly score: number }[],
  arm: ArmName,
): Pick<Effect, 'always'> {
  const scores = (of: ArmName): number[] => runs.filter((run) => run.arm === of).map(({ score }) => score);
  const [own, reference] = [scores(arm), scores('reference')];
  if (Math.min(...own) > Math.max(...reference)) return { always: 'better' };
  return Math.max(...own) < Math.min(...reference) ? { always: 'worse' } : {};
}

/** A sham can only be liked; two opposite steps on a straight response cancel, and what is left is liking. */
function likingOf(trial: Trial, post: Posterior, numbers: JudgeNumbers): Pick<Judgement, 'liking'> {
  const [a, b] = tried(trial);
  if (a === undefined || b === undefined || !post.arms.includes(a) || !post.arms.includes(b)) return {};
  const weights: Partial<Record<ArmName, number>> =
    a === 'sham' || b === 'sham' ? { sham: 1 } : { [a]: 0.5, [b]: 0.5 };
  const common = contrast(post, weights);
  return {
    liking: { mean: common.mean, ...interval(common, numbers.cover), chance: chanceAbove(post, weights) },
  };
}

/** Run times by the same model; only when every judged run was timed. */
function timeEffects(
  trial: Trial,
  runs: readonly RiddenRun[],
  numbers: JudgeNumbers,
): TimeEffect[] | undefined {
  const seconds = runs.flatMap((run) => run.seconds ?? []);
  if (seconds.length < runs.length) return undefined;
  const mean = seconds.reduce((sum, value) => sum + value, 0) / seconds.length;
  const prior: NoisePrior = { sd: numbers.timeNoise.sd * mean, weight: numbers.timeNoise.weight };
  const post = posterior(readingsOf(trial, seconds), prior);
  if (post === null) return undefined;
  return effectsOf(trial, runs, post, numbers.cover).map((effect) => ({
    arm: effect.arm,
    set: effect.set,
    difference: effect.difference,
    low: effect.low,
    high: effect.high,
    chanceFaster: 1 - effect.chanceBetter,
  }));
}

/**
 * First the block that is under way; after that, the runs of the trial over again until the verdict would fall, judged
 * with the very ratings they had.
 */
function moreRuns(trial: Trial, numbers: JudgeNumbers): { runs: number; verdict?: Verdict } | null {
  const left = runsLeft(trial);
  if (left > 0) return { runs: left };
  const same = counted(trial);
  const ridden = [...trial.ridden];
  for (let times = 2; times <= numbers.mostTimes; times++) {
    ridden.push(...same);
    const { verdict } = judge({ ...trial, ridden }, { ...numbers, mostTimes: 1 });
    if (verdict !== 'cannot-tell') return { runs: ridden.length - trial.ridden.length, verdict };
  }
  return null;
}
