/**
 * One case told again under other strengths of the rules, for hundreds of them.
 *
 * Everything that no strength touches is kept: the belief of every round, the trials as tables over the sets, what
 * applies and what is set aside. Another strength then costs a look at the classes that hold its cause, and a few
 * products over all sets; the result is that of `consult` with those strengths.
 */
import { advise, type Advice } from '../advice/advise.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { byGroup, update, type Belief, type Evidence } from '../diagnosis/belief.ts';
import { marginals } from '../diagnosis/hypotheses.ts';
import type { Model } from '../diagnosis/model.ts';
import { otherStrengths } from '../diagnosis/other-strengths.ts';
import { afterTrial, seenOf, tabulateTrial, type TrialTable } from '../diagnosis/results.ts';
import type { Question } from '../rulebase/compiled.ts';
import { besideAfter, besideOf, groundsOf } from './beside.ts';
import type { Case } from './case.ts';
import { hear } from './evidence.ts';
import { heardOnce, roundsOfCase } from './retold.ts';
import { riddenInVain } from './ridden-in-vain.ts';
import { riddenEffect } from './trial-effect.ts';
import { toPutBack, weighTried } from './weigh-tried.ts';

/** A case that can be told again. */
export interface Telling {
  /** the questions whose answers count in it, in any round, by index */
  readonly answered: ReadonlySet<number>;
  /**
   * @param changed question index → the question with other strengths, pointing to the same causes
   * @param far where these lie, as many times as far from the model's own; other than 1 only where that is `straight`
   */
  advice(changed: ReadonlyMap<number, Question>, far?: number): Advice;
  /**
   * Whether it is enough to know the case at one other value of a single strength: the chance of an answer is linear in
   * every strength, and so is all else where only one group of the last answers hears of it.
   */
  straight(changed: ReadonlyMap<number, Question>): boolean;
}

interface Retold {
  readonly group: number;
  readonly questions: readonly number[];
  readonly ratio: ReturnType<typeof otherStrengths>;
}

interface Told {
  /** weights before the round's answers */
  readonly before: Float64Array;
  /** what the answers multiply each set's weight by, up to one factor for all */
  readonly said: Float64Array;
  /** for every group with an answer, its questions by index, and what other strengths would make of it */
  readonly groups: readonly Retold[];
  readonly trials: readonly TrialTable[];
  readonly evidence: readonly Evidence[];
  /** ln of what the answers leave of the weights before them, as `before` has them, with the model's own strengths */
  readonly logLeft: number;
  /** of each trial: P(its report | the change did nothing) */
  readonly idle: readonly number[];
}

export function tellingOf(model: Model, bench: PreparedBike, kase: Case): Telling {
  const { space } = model;
  const rounds: Told[] = [];
  let prior = bench.prior;
  const { dangers, known } = hear(model, kase.answers, bench.fact);
  const ridden = riddenInVain(bench, kase);
  const all = roundsOfCase(kase);
  const counted = heardOnce(model, bench.fact, all);
  let putBack = false;
  for (const [i, round] of all.entries()) {
    const evidence = counted[i]!;
    const tried = weighTried(model, bench, prior, round);
    prior = tried.weights;
    putBack = toPutBack(tried.effects) !== undefined;
    const { weights: after, logEvidence } = update(model, prior, evidence);
    const trials = round.results.flatMap((result) => {
      const effect = riddenEffect(model, bench, result.change);
      if (effect === undefined) return [];
      const { nothing } = seenOf(model, result);
      return [{ idle: nothing, table: tabulateTrial(model, effect, result, result.kept) }];
    });
    const tables = trials.map((t) => t.table);
    const groups = [...byGroup(model, evidence)].map(([group, answers]): Retold => ({
      group,
      questions: answers.flatMap((e) => model.rules.questions[e.question]!.either ?? [e.question]),
      ratio: otherStrengths(model, group, answers),
    }));
    // What a set has lost for good before the round has no weight after it either.
    const said = after.map((w, h) => (w > 0 ? w / prior[h]! : 0));
    rounds.push({
      before: prior,
      said,
      groups,
      trials: tables,
      evidence,
      logLeft: logEvidence + Math.log(massOf(prior)),
      idle: trials.map((t) => t.idle),
    });
    prior = tables.reduce(afterTrial, after);
  }
  const scratch = new Float64Array(space.size);
  /** chances of the causes with the model's own strengths */
  const usual = marginals(space, prior, scratch, new Float64Array(space.causes));
  const masses = new Map<number, Masses>();
  const massesIn = (group: number): Masses => {
    let mass = masses.get(group);
    if (mass === undefined) masses.set(group, (mass = massesOf(model, group, prior)));
    return mass;
  };
  const shifts = new WeakMap<ReadonlyMap<number, Question>, Shift>();
  /** Up to the first round that hears of a changed question, all is as it was. */
  const firstTouched = (changed: ReadonlyMap<number, Question>): number =>
    rounds.findIndex((round) => touchedBy(round, changed).length > 0);
  /** The only group that hears of a changed question, where it is one of the last answers and nothing came after them. */
  const only = (changed: ReadonlyMap<number, Question>): Retold | undefined => {
    if (last.trials.length > 0 || firstTouched(changed) !== rounds.length - 1) return undefined;
    const touched = touchedBy(last, changed);
    return touched.length === 1 ? touched[0] : undefined;
  };
  const last = rounds.at(-1)!;
  const massBefore = massOf(last.before);
  const grounds = groundsOf(model, last.evidence);
  /** Weights after all, ln P(the last answers) under the causes, and P(report) of each trial after them. */
  const retoldWith = (changed: ReadonlyMap<number, Question>): Retelling => {
    const from = Math.max(0, firstTouched(changed));
    let weights = rounds[from]!.before;
    let logEvidence = NaN;
    const told: number[] = [];
    for (const round of rounds.slice(from)) {
      const start = massOf(weights);
      const answered = retold(model, round, weights, changed);
      logEvidence = round.logLeft + Math.log(answered.total / start);
      ({ weights } = answered);
      for (const trial of round.trials) {
        if (round === last) told.push(dot(weights, trial.likelihood));
        weights = afterTrial(weights, trial);
      }
    }
    return { weights, logEvidence, told };
  };
  return {
    answered: new Set(rounds.flatMap((r) => r.groups.flatMap((g) => g.questions))),
    straight: (changed) => only(changed) !== undefined,
    advice(changed, far = 1) {
      let belief: Belief;
      let told: readonly number[] = [];
      const group = only(changed);
      if (group !== undefined) {
        // Its classes tell what becomes of every cause.
        let shift = shifts.get(changed);
        if (shift === undefined) {
          shift = shiftOf(model, massesIn(group.group), group.ratio(changed));
          shifts.set(changed, shift);
        }
        const total = 1 + far * shift.total;
        const moved = shift;
        belief = {
          get weights() {
            return retoldWith(changed).weights;
          },
          causes: usual.map((p, i) => (p + far * moved.causes[i]!) / total),
          nothing: (prior[0]! + far * shift.nothing) / total,
          logEvidence: last.logLeft + Math.log(total / massBefore),
        };
      } else {
        const { weights, logEvidence, told: reports } = retoldWith(changed);
        told = reports;
        const causes = marginals(space, weights, scratch, new Float64Array(space.causes));
        belief = { weights, causes, nothing: weights[0]!, logEvidence };
      }
      const seen = last.idle.map((idle, i) => ({ idle, told: told[i]! }));
      return advise(model, bench, belief, {
        dangerous: dangers.length > 0,
        dangers,
        known,
        putBack,
        grounds,
        ...besideAfter(besideOf(withQuestions(model, changed, far), belief.logEvidence, last.evidence), seen),
        ridden,
      });
    },
  };
}

function touchedBy({ groups }: Told, changed: ReadonlyMap<number, Question>): Retold[] {
  return groups.filter((g) => g.questions.some((q) => changed.has(q)));
}

/** What the sets of each class of a group weigh together, and those of them that hold each cause. */
interface Masses {
  readonly all: Float64Array;
  /** [class × causes]; undefined where it would be longer than a walk over all sets */
  readonly holding: Float64Array | undefined;
  readonly classOf: Int32Array;
  readonly weights: Float64Array;
}

/** What other strengths add to the weight of all sets, of those that hold each cause, and of the empty one. */
interface Shift {
  readonly total: number;
  readonly causes: Float64Array;
  readonly nothing: number;
}

function massesOf({ space, groups }: Model, group: number, weights: Float64Array): Masses {
  const { parent, last, causes, size } = space;
  const classOf = groups[group]!.classOf();
  const all = new Float64Array(groups[group]!.classes.sets.length);
  const holding = all.length * causes > WALK * size ? undefined : new Float64Array(all.length * causes);
  for (let h = 0; h < size; h++) {
    const w = weights[h]!;
    const c = classOf[h]!;
    all[c]! += w;
    if (holding === undefined) continue;
    for (let at = h; at > 0; at = parent[at]!) holding[c * causes + last[at]!]! += w;
  }
  return { all, holding, classOf, weights };
}

/** Lost among weights that add up to 1. */
const TOO_LITTLE = 1e-15;

/** What a walk over all sets costs a set, in steps over a class's causes. */
const WALK = 4;

/** @param ratio how many times each class counts; most count once, as before */
function shiftOf({ space }: Model, mass: Masses, ratio: Float64Array): Shift {
  const { all, holding, classOf, weights } = mass;
  const { parent, last, causes: n, size } = space;
  const causes = new Float64Array(n);
  let total = 0;
  if (holding === undefined) {
    for (let h = 0; h < size; h++) {
      const more = (ratio[classOf[h]!]! - 1) * weights[h]!;
      if (more < TOO_LITTLE && more > -TOO_LITTLE) continue;
      total += more;
      for (let at = h; at > 0; at = parent[at]!) causes[last[at]!]! += more;
    }
  } else {
    for (let c = 0; c < all.length; c++) {
      const more = ratio[c]! - 1;
      if (Math.abs(more * all[c]!) < TOO_LITTLE) continue;
      total += more * all[c]!;
      for (let i = 0, at = c * n; i < n; i++) causes[i]! += more * holding[at + i]!;
    }
  }
  return { total, causes, nothing: (ratio[0]! - 1) * weights[0]! };
}

/** Weights after a round's answers, normalised, from the weights it starts with under the other strengths. */
function retold(
  model: Model,
  round: Told,
  start: Float64Array,
  changed: ReadonlyMap<number, Question>,
): { weights: Float64Array; total: number } {
  const weights = start.slice();
  const { said } = round;
  for (let h = 0; h < weights.length; h++) weights[h]! *= said[h]!;
  for (const { group, ratio: ratioOf } of touchedBy(round, changed)) {
    const ratio = ratioOf(changed);
    const classOf = model.groups[group]!.classOf();
    for (let h = 0; h < weights.length; h++) weights[h]! *= ratio[classOf[h]!]!;
  }
  let total = 0;
  for (let h = 0; h < weights.length; h++) total += weights[h]!;
  for (let h = 0; h < weights.length; h++) weights[h]! /= total;
  return { weights, total };
}

interface Retelling {
  readonly weights: Float64Array;
  readonly logEvidence: number;
  readonly told: readonly number[];
}

/**
 * The model's questions with other strengths, for what needs no tables.
 * @param far as in `advice`: then one strength of each question lies that far from the model's own
 */
function withQuestions(model: Model, changed: ReadonlyMap<number, Question>, far: number): Model {
  if (changed.size === 0) return model;
  const questions = [...model.rules.questions];
  for (const [index, now] of changed) {
    const own = questions[index]!;
    const at = (before: number, after: number): number => before + far * (after - before);
    questions[index] =
      far === 1
        ? now
        : {
            ...now,
            base: own.base.map((b, a) => at(b, now.base[a]!)),
            links: own.links.map(
              ([cause, answer, s], i) => [cause, answer, at(s, now.links[i]![2])] as const,
            ),
          };
  }
  return { ...model, rules: { ...model.rules, questions } };
}

function massOf(weights: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i]!;
  return sum;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
