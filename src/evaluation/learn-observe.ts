/**
 * Logged cases → what they say about the causes and the answers.
 *
 * Each round with an answer is one observation, also where nothing was ridden after it: bikes that were left alone are
 * part of how common a cause is. What the trials say about the bike before them does not depend on any strength that is
 * learned, so it is worked out once.
 */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import type { Case, CaseResult, Round } from '../casework/case.ts';
import { heardOnce, roundsOfCase } from '../casework/retold.ts';
import { riddenEffect } from '../casework/trial-effect.ts';
import { byGroup, update, type Evidence } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';
import {
  afterTrial,
  beforeTrial,
  tabulateTrial,
  type ChangeEffect,
  type TrialTable,
} from '../diagnosis/results.ts';

export interface Logged {
  readonly kase: Case;
  readonly bench: PreparedBike;
}

export interface Observation {
  /** the bike before anything was changed: its prior is learned from; undefined for a later round */
  readonly bench: PreparedBike | undefined;
  /** prior weights of a later round, from the rounds before it at the pack's own strengths */
  readonly start: Float64Array | undefined;
  readonly groups: ReadonlyMap<number, readonly Evidence[]>;
  /** P(all outcomes | set), for every set; shared between cases of the same trials */
  readonly outcomes: Float64Array;
}

export interface Observed {
  readonly observations: readonly Observation[];
  /** cases that stand behind them, those of them with a ridden change that the rules know, and cases with no answer */
  readonly cases: number;
  readonly ridden: number;
  readonly leftOut: number;
}

export function observe(model: Model, logged: readonly Logged[]): Observed {
  const observations: Observation[] = [];
  const likelihoods = new Map<PreparedBike, Map<string, Float64Array>>();
  let cases = 0;
  let ridden = 0;
  for (const { kase, bench } of logged) {
    const before = observations.length;
    let start: Float64Array | undefined;
    let rode = false;
    const rounds = roundsOfCase(kase);
    const counted = heardOnce(model, bench.fact, rounds);
    let carried: readonly Trial[] = [];
    for (const [i, round] of rounds.entries()) {
      // An answer whose end is not known is no strength's own, so nothing is learned from it.
      const evidence = counted[i]!.filter((e) => model.rules.questions[e.question]!.either === undefined);
      const trials = [...carried, ...placed(model, bench, round)];
      // Of what the next round says all again nothing is observed here; what was ridden and put back speaks of that bike too.
      if (evidence.length === 0 && trials.every(({ result }) => !result.kept)) {
        carried = trials;
        continue;
      }
      carried = [];
      rode ||= trials.length > 0 && evidence.length > 0;
      if (evidence.length > 0)
        observations.push({
          bench: start === undefined ? bench : undefined,
          start,
          groups: byGroup(model, evidence),
          outcomes: kept(likelihoods, bench, trials, () => outcomesGiven(model, trials)),
        });
      if (i === rounds.length - 1) break;
      let weights = update(model, start ?? bench.prior, evidence).weights;
      for (const trial of trials) weights = afterTrial(weights, tableOf(model, trial));
      start = weights;
    }
    if (observations.length > before) cases++;
    if (rode) ridden++;
  }
  // Outcomes are what teaches; answers alone would only confirm what is believed of them.
  if (ridden === 0) return { observations: [], cases: 0, ridden, leftOut: logged.length };
  return { observations, cases, ridden, leftOut: logged.length - cases };
}

interface Trial {
  readonly result: CaseResult;
  readonly effect: ChangeEffect;
}

function placed(model: Model, bench: PreparedBike, round: Round): Trial[] {
  return round.results.flatMap((result) => {
    const effect = riddenEffect(model, bench, result.change);
    return effect === undefined ? [] : [{ result, effect }];
  });
}

function kept(
  all: Map<PreparedBike, Map<string, Float64Array>>,
  bench: PreparedBike,
  trials: readonly Trial[],
  make: () => Float64Array,
): Float64Array {
  const own = all.get(bench) ?? new Map<string, Float64Array>();
  all.set(bench, own);
  const key = JSON.stringify(trials.map(({ result: r }) => [r.change, r.outcome, r.kept, r.points, r.error]));
  const known = own.get(key) ?? make();
  own.set(key, known);
  return known;
}

/** P(outcomes | what was off before the first trial): backward over the trials, because a kept change cures. */
function outcomesGiven(model: Model, trials: readonly Trial[]): Float64Array {
  return trials.reduceRight<Float64Array>(
    (later, trial) => beforeTrial(later, tableOf(model, trial)),
    new Float64Array(model.space.size).fill(1),
  );
}

function tableOf(model: Model, { result, effect }: Trial): TrialTable {
  return tabulateTrial(model, effect, result, result.kept);
}
