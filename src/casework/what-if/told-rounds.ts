/** The rounds of a case as they were told, kept so that each is told again under other strengths without hearing it anew. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { byGroup, update, type Evidence } from '../../diagnosis/belief.ts';
import type { Model } from '../../diagnosis/model.ts';
import { once } from '../../diagnosis/fast/once.ts';
import { otherStrengths, type OtherStrengths } from '../../diagnosis/other-strengths.ts';
import { afterTrial, seenOf, tabulateTrial, type TrialTable } from '../../diagnosis/results.ts';
import type { Question } from '../../rulebase/compiled.ts';
import type { Case } from '../case.ts';
import { heardOnce, roundsOfCase } from '../retold.ts';
import { riddenEffect } from '../trial-effect.ts';
import { triedOnce } from '../tried/told-once.ts';
import { weighTried, type TriedEffect } from '../tried/weigh-tried.ts';

/** A group with an answer: its questions by index, and what other strengths would make of it. */
export interface ToldGroup {
  readonly group: number;
  readonly questions: readonly number[];
  readonly others: OtherStrengths;
}

export interface ToldRound {
  /** what was tried before the round's answers */
  readonly tried: readonly TrialTable[];
  /** weights after that, and before the answers */
  readonly before: Float64Array;
  /** what the answers multiply each set's weight by, up to one factor for all; worked out when it is first asked for */
  readonly said: () => Float64Array;
  readonly groups: readonly ToldGroup[];
  readonly trials: readonly TrialTable[];
  readonly evidence: readonly Evidence[];
  /** ln of what the answers leave of the weights before them, as `before` has them, with the model's own strengths */
  readonly logLeft: number;
  /** of each trial: P(its report | the change did nothing) */
  readonly idle: readonly number[];
  /** what it says, with the model's own strengths */
  readonly own: RetoldRound;
}

/** What a round says under some strengths: ln P(its answers) under the causes, and P(report) of each trial after them. */
export interface RetoldRound {
  readonly logEvidence: number;
  readonly told: readonly number[];
}

/** @returns the rounds, the weights after them, and what was tried before the last of them */
export function toldRounds(
  model: Model,
  bench: PreparedBike,
  kase: Case,
): {
  readonly rounds: readonly ToldRound[];
  readonly weights: Float64Array;
  readonly tried: readonly TriedEffect[];
} {
  const all = roundsOfCase(kase);
  const counted = heardOnce(model, bench.fact, all);
  const tries = roundsOfCase(triedOnce(model, bench, kase));
  const rounds: ToldRound[] = [];
  let weights = bench.prior;
  let last: readonly TriedEffect[] = [];
  for (const [i, round] of all.entries()) {
    const evidence = counted[i]!;
    const tried = weighTried(model, bench, weights, tries[i]!);
    const before = tried.weights;
    last = tried.effects;
    const { weights: after, logEvidence } = update(model, before, evidence);
    const trials = round.results.flatMap((result) => {
      const effect = riddenEffect(model, bench, result.change);
      if (effect === undefined) return [];
      const { nothing } = seenOf(model, result);
      return [{ idle: nothing, table: tabulateTrial(model, effect, result, result.kept) }];
    });
    const tables = trials.map((t) => t.table);
    const told: number[] = [];
    weights = after;
    for (const table of tables) {
      told.push(dot(weights, table.likelihood));
      weights = afterTrial(weights, table);
    }
    rounds.push({
      tried: tried.tables,
      before,
      // What a set has lost for good before the round has no weight after it either.
      said: once(() => after.map((w, h) => (w > 0 ? w / before[h]! : 0))),
      groups: [...byGroup(model, evidence)].map(([group, answers]) => ({
        group,
        questions: answers.flatMap((e) => model.rules.questions[e.question]!.either ?? [e.question]),
        others: otherStrengths(model, group, answers),
      })),
      trials: tables,
      evidence,
      logLeft: logEvidence + Math.log(massOf(before)),
      idle: trials.map((t) => t.idle),
      own: { logEvidence, told },
    });
  }
  return { rounds, weights, tried: last };
}

function touchedBy({ groups }: ToldRound, changed: ReadonlyMap<number, Question>): readonly ToldGroup[] {
  return groups.filter((g) => g.questions.some((q) => changed.has(q)));
}

/** Up to the first round that hears of a changed question, all is as it was; −1 where none does. */
function firstTouched(rounds: readonly ToldRound[], changed: ReadonlyMap<number, Question>): number {
  return rounds.findIndex((round) => touchedBy(round, changed).length > 0);
}

/** Weights after all, and what each round says. */
export function retoldWith(
  model: Model,
  rounds: readonly ToldRound[],
  changed: ReadonlyMap<number, Question>,
): { readonly weights: Float64Array; readonly each: readonly RetoldRound[] } {
  const from = Math.max(0, firstTouched(rounds, changed));
  let weights = rounds[from]!.before;
  const each = rounds.slice(0, from).map(({ own }) => own);
  for (const [i, round] of rounds.slice(from).entries()) {
    if (i > 0) weights = round.tried.reduce(afterTrial, weights);
    const start = massOf(weights);
    const answered = retold(model, round, weights, changed);
    const logEvidence = round.logLeft + Math.log(answered.total / start);
    ({ weights } = answered);
    const told: number[] = [];
    for (const trial of round.trials) {
      told.push(dot(weights, trial.likelihood));
      weights = afterTrial(weights, trial);
    }
    each.push({ logEvidence, told });
  }
  return { weights, each };
}

/** Weights after a round's answers, normalised, from the weights it starts with under the other strengths. */
function retold(
  model: Model,
  round: ToldRound,
  start: Float64Array,
  changed: ReadonlyMap<number, Question>,
): { weights: Float64Array; total: number } {
  const weights = start.slice();
  const said = round.said();
  for (let h = 0; h < weights.length; h++) weights[h]! *= said[h]!;
  for (const { group, others } of touchedBy(round, changed)) {
    const ratio = others.ratio(changed);
    const classOf = model.groups[group]!.classOf();
    for (let h = 0; h < weights.length; h++) weights[h]! *= ratio[classOf[h]!]!;
  }
  let total = 0;
  for (let h = 0; h < weights.length; h++) total += weights[h]!;
  for (let h = 0; h < weights.length; h++) weights[h]! /= total;
  return { weights, total };
}

export function massOf(weights: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i]!;
  return sum;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
