/** Invented riders, to measure how often the judge is wrong. Seeded: the same seed gives the same rates. */
import { JUDGE, type JudgeNumbers, type Verdict } from '../../src/trials/decide.ts';
import { judge } from '../../src/trials/judge.ts';
import { planTrial } from '../../src/trials/plan.ts';
import { blocks, nextArm, runsLeft } from '../../src/trials/sequence.ts';
import type { ArmName, Chances, Feeling, RiddenRun, Trial } from '../../src/trials/trial.ts';
import { EXPECTED } from './invented.ts';

export interface Rider {
  readonly name: string;
  /** what the advised step and the other direction really do, points; the reference is 0 */
  readonly step?: number;
  readonly other?: number;
  /** scatter from run to run, and of one rating within a run, points */
  readonly runNoise: number;
  readonly ratingNoise: number;
  /** what run number i (from 0) adds to everything */
  readonly drift?: (run: number) => number;
  /** what the n-th changed run (from 0) adds because it is a change, whatever was turned */
  readonly likesChange?: (nth: number) => number;
  /** what the advised step gets on top from a rider who knows it; an open trial */
  readonly belief?: number;
  /** how many feelings are rated */
  readonly feelings?: number;
  /** what the diagnosis expects; default `ADVISED` */
  readonly chances?: Chances;
  /** the other direction is ridden as well */
  readonly bothWays?: boolean;
  /** four runs in turn */
  readonly short?: boolean;
  /** drops a run that was ridden, so that the counts become unequal */
  readonly loses?: (run: number) => boolean;
  /** the trial is judged after each block, at most so many times, until a verdict falls */
  readonly looks?: number;
  /** the same step is planned again so often at most, on another day, until a verdict falls: how many trials that makes */
  readonly days?: number;
  /** each of them is judged by itself */
  readonly apart?: boolean;
}

/** A step that the diagnosis is as sure of as a trial lets it be. */
export const ADVISED: Chances = { helps: 0.8, harms: 0.05 };

const FEELINGS: readonly Feeling[] = ['overall', 'grip', 'calm', 'hands'].map((id) => ({
  id,
  ask: id,
  low: 'bad',
  high: 'good',
}));

/** The look ahead (how many runs would tell) has no part in a verdict, and is left out to save time. */
const BLIND: JudgeNumbers = { ...JUDGE, mostTimes: 1 };

export type Rates = Record<Verdict, number>;

/** Shares of each verdict over `trials` simulated trials. */
export function simulate(rider: Rider, trials: number, seed: number, numbers: JudgeNumbers = BLIND): Rates {
  const random = mulberry32(seed);
  const rates: Rates = { keep: 0, further: 0, half: 0, back: 0, 'cannot-tell': 0 };
  for (let i = 0; i < trials; i++) rates[rideTrial(rider, random, numbers)] += 1 / trials;
  return rates;
}

/** Both verdicts that leave the reference for a setting that was ridden. */
export function kept(rates: Rates): number {
  return rates.keep + rates.further;
}

function rideTrial(rider: Rider, random: () => number, numbers: JudgeNumbers): Verdict {
  const before: Trial[] = [];
  for (let day = 0; day < (rider.days ?? 1); day++) {
    const { trial, verdict } = rideDay(rider, before, random, numbers);
    if (verdict !== 'cannot-tell') return verdict;
    if (rider.apart !== true) before.push(trial);
  }
  return 'cannot-tell';
}

/** One trial, with the track and the rider of that day. */
function rideDay(
  rider: Rider,
  before: readonly Trial[],
  random: () => number,
  numbers: JudgeNumbers,
): { trial: Trial; verdict: Verdict } {
  const level = before.length === 0 && rider.days === undefined ? 0 : 0.4 * normal(random);
  const planned = planTrial({
    id: 't',
    change: { setting: 'front.rebound.low', from: 8, to: 10, unit: 'clicks', min: 0, max: 16, grain: 1 },
    chances: rider.chances ?? ADVISED,
    expected: EXPECTED,
    feelings: FEELINGS,
    bothWays: rider.bothWays ?? false,
    short: rider.short ?? false,
    before,
  });
  if (!planned.ok) throw new Error(planned.problems[0]!.message);
  let trial: Trial = { ...planned.value, hidden: rider.belief === undefined };
  let verdict: Verdict = 'cannot-tell';
  let run = 0;
  let changed = 0;
  const rideOne = (): void => {
    const arm = nextArm(trial);
    const ridden = rate(rider, { arm, run, nth: arm === 'reference' ? 0 : changed, level }, random);
    if (arm !== 'reference') changed += 1;
    if (!(rider.loses?.(run) ?? false) || trial.ridden.length < 2)
      trial = { ...trial, ridden: [...trial.ridden, ridden] };
    run += 1;
  };
  for (let look = 0; look < (rider.looks ?? 1) && verdict === 'cannot-tell'; look++) {
    do rideOne();
    while (runsLeft(trial) > 0 || blocks(trial) <= look);
    verdict = judge(trial, numbers).verdict;
  }
  return { trial, verdict };
}

function rate(
  rider: Rider,
  { arm, run, nth, level }: { arm: ArmName; run: number; nth: number; level: number },
  random: () => number,
): RiddenRun {
  const effect =
    arm === 'plus' ? (rider.step ?? 0) + (rider.belief ?? 0) : arm === 'minus' ? (rider.other ?? 0) : 0;
  const liking = arm === 'reference' ? 0 : (rider.likesChange?.(nth) ?? 0);
  const latent = 4.2 + level + (rider.drift?.(run) ?? 0) + effect + liking + rider.runNoise * normal(random);
  const ratings: Record<string, number> = {};
  FEELINGS.slice(0, rider.feelings ?? 4).forEach(({ id }, i) => {
    const felt = latent + [0, 0.5, -0.4, -0.1][i]! + rider.ratingNoise * normal(random);
    ratings[id] = Math.min(7, Math.max(1, Math.round(felt)));
  });
  return { arm, ratings };
}

/** A small seeded generator, uniform in [0, 1). */
export function mulberry32(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
