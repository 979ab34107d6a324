/**
 * One case told again under other strengths of the rules, for hundreds of them.
 *
 * Everything that no strength touches is kept: the belief of every round, the trials as tables over the sets, what
 * applies and what is set aside. A single strength behind one of the last answers then costs a look at the sets that hold
 * its cause, any other a few products over all sets; the result is that of `consult` with those strengths.
 */
import type { Advice } from '../../advice/advise.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Belief } from '../../diagnosis/belief.ts';
import { marginals } from '../../diagnosis/hypotheses.ts';
import type { Model } from '../../diagnosis/model.ts';
import { chancesBeside, type Beside } from '../../diagnosis/none.ts';
import type { CompiledRules, Question } from '../../rulebase/compiled.ts';
import { adviserOf } from '../advise-case.ts';
import { besideAfter } from '../beside.ts';
import type { Case } from '../case.ts';
import { hear } from '../evidence.ts';
import { nextSteps } from '../larger-again.ts';
import { roundsOfCase, standsFrom } from '../retold.ts';
import { riddenInVain } from '../ridden-in-vain.ts';
import { impressionUnder, noneUnder } from './beside-under.ts';
import type { Movable, Questions, Spot, Under } from './moved.ts';
import { strengthShifts, type Shift } from './strength-shift.ts';
import { massOf, retoldWith, toldRounds, type RetoldRound } from './told-rounds.ts';

/** A case that can be told again. */
export interface Telling {
  /** the questions whose answers count in it, in any round, by index */
  readonly answered: ReadonlySet<number>;
  /** under the model's own strengths */
  readonly own: () => Advice;
  readonly moved: (strength: Movable) => Under<Advice>;
}

/** A strength behind one of the last answers, after which nothing came. */
interface Straight extends Spot {
  readonly shift: Shift;
}

export function tellingOf(model: Model, bench: PreparedBike, kase: Case): Telling {
  const { space } = model;
  const { none, 'one-impression': one } = model.rules.numbers;
  const { rounds, weights: prior, tried } = toldRounds(model, bench, kase);
  const cut = nextSteps(model, bench, tried, kase);
  const adviceUnder = adviserOf(model, cut, {
    kase,
    heard: hear(model, kase.answers, bench.fact),
    tried,
    ridden: riddenInVain(model, cut, kase),
  });
  const last = rounds.at(-1)!;
  const from = standsFrom(roundsOfCase(kase));
  const massBefore = massOf(last.before);
  const scratch = new Float64Array(space.size);
  /** chances of the causes with the model's own strengths */
  const usual = marginals(space, prior, scratch, new Float64Array(space.causes));
  const standing = rounds.slice(from).map(({ evidence }) => evidence);
  const nones = standing.map((evidence) => noneUnder(model, evidence));
  const impression = impressionUnder(model, standing.flat());
  const groupOf = new Map(last.groups.flatMap((group) => group.questions.map((q) => [q, group] as const)));
  const early = new Set(rounds.slice(0, -1).flatMap((r) => r.groups.flatMap((g) => g.questions)));
  const isGiven = givenIn(model, kase);
  const shifts = strengthShifts(model, prior);
  const straight = ({ spots, value }: Movable): Straight | undefined => {
    if (last.trials.length > 0 || value === 1 || spots.some(({ question }) => early.has(question)))
      return undefined;
    const [spot, ...more] = spots.filter(({ question }) => groupOf.has(question));
    if (spot === undefined || more.length > 0 || !isAlone(model.rules.questions[spot.question]!, spot))
      return undefined;
    const { group, others } = groupOf.get(spot.question)!;
    const share = others.share(spot.question, spot.answer);
    return share === undefined
      ? undefined
      : { ...spot, shift: shifts(share, model.groups[group]!.classOf(), spot.cause) };
  };
  const earlier = rounds.slice(0, -1).map(({ own }) => own);
  /**
   * Every set is told again only where the advice asks for it.
   * @param more times as often, less once, the sign is missed where that cause is off
   */
  const shifted = ({ shift }: Straight, more: number, questions: Questions): Retold => {
    const total = 1 + more * shift.total;
    const belief = new Shifted(
      () => retoldWith(model, rounds, questions()).weights,
      moveBy(usual, shift.causes, more, total),
      (prior[0]! + more * shift.nothing) / total,
      last.logLeft + Math.log(total / massBefore),
    );
    return { belief, each: [...earlier, { logEvidence: belief.logEvidence, told: [] }] };
  };
  const anew = (questions: ReadonlyMap<number, Question>): Retold => {
    const { weights, each } = retoldWith(model, rounds, questions);
    const causes = marginals(space, weights, scratch, new Float64Array(space.causes));
    return { belief: { weights, causes, nothing: weights[0]!, logEvidence: each.at(-1)!.logEvidence }, each };
  };
  const advice = ({ belief, each }: Retold, under: Beside, withStrengths: Model): Advice => {
    const now = each.slice(from);
    const beside = chancesBeside(
      model,
      under,
      now.reduce((log, { logEvidence }) => log + logEvidence, 0),
    );
    const seen = now.flatMap(({ told }, i) =>
      rounds[from + i]!.idle.map((idle, t) => ({ idle, told: told[t]! })),
    );
    return adviceUnder(belief, besideAfter(beside, seen), withStrengths).advice;
  };
  const hasNone = none.prior > 0;
  const hasImpression = one.prior > 0;
  return {
    answered: new Set(rounds.flatMap((r) => r.groups.flatMap((g) => g.questions))),
    own: () =>
      advice(
        {
          belief: { weights: prior, causes: usual, nothing: prior[0]!, logEvidence: last.own.logEvidence },
          each: rounds.map(({ own }) => own),
        },
        {
          none: hasNone ? nones.reduce((log, of) => log + of.own, 0) : -Infinity,
          impression: hasImpression ? impression.own : -Infinity,
        },
        model,
      ),
    moved(strength) {
      const at = straight(strength);
      const none = hasNone ? nones.map((of) => of.moved(strength)) : undefined;
      const impressed = hasImpression ? impression.moved(strength) : undefined;
      // Of all strengths the advice reads only those of the answers that were given.
      const isRead = strength.spots.some(isGiven);
      return (to, questions) =>
        advice(
          at === undefined ? anew(questions()) : shifted(at, (1 - to) / (1 - strength.value) - 1, questions),
          {
            none: none?.reduce((log, of) => log + of(to, questions), 0) ?? -Infinity,
            impression: impressed?.(to, questions) ?? -Infinity,
          },
          isRead ? withQuestions(model, questions()) : model,
        );
    },
  };
}

/** What is believed of a case told again, and what each of its rounds says. */
interface Retold {
  readonly belief: Belief;
  readonly each: readonly RetoldRound[];
}

/** A belief of which every set is told again only where that is asked for. */
class Shifted implements Belief {
  readonly #retell: () => Float64Array;
  readonly causes: Float64Array;
  readonly nothing: number;
  readonly logEvidence: number;
  #weights: Float64Array | undefined;

  constructor(retell: () => Float64Array, causes: Float64Array, nothing: number, logEvidence: number) {
    this.#retell = retell;
    this.causes = causes;
    this.nothing = nothing;
    this.logEvidence = logEvidence;
  }

  get weights(): Float64Array {
    return (this.#weights ??= this.#retell());
  }
}

/** Whether a strength is behind an answer that was given, at whichever end. */
function givenIn({ rules: { questions }, questionIndex }: Model, kase: Case): (spot: Spot) => boolean {
  const given = new Set<string>();
  for (const { question, answer, also = [] } of roundsOfCase(kase).flatMap(({ answers }) => answers)) {
    const index = questionIndex.get(question);
    if (index === undefined) continue;
    for (const at of [index, ...(questions[index]!.either ?? [])])
      for (const one of [answer, ...also])
        given.add(`${at} ${questions[at]!.answers.findIndex(({ id }) => id === one)}`);
  }
  return ({ question, answer }) => given.has(`${question} ${answer}`);
}

/** Whether a sign that can be missed has this strength once. */
function isAlone({ default: none, links }: Question, { answer, cause }: Spot): boolean {
  if (answer === none) return false;
  let found = cause < 0 ? 1 : 0;
  for (let i = 0; i < links.length; i++) if (links[i]![0] === cause && links[i]![1] === answer) found++;
  return found === 1;
}

/** A loop by itself, so that no more is compiled where it is found worth it. */
function moveBy(usual: Float64Array, by: Float64Array, more: number, total: number): Float64Array {
  const out = new Float64Array(usual.length);
  for (let i = 0; i < out.length; i++) out[i] = (usual[i]! + more * by[i]!) / total;
  return out;
}

/** The model with questions of other strengths, for whoever reads no more of it than what the questions point to. */
function withQuestions(model: Model, changed: ReadonlyMap<number, Question>): Model {
  const questions = [...model.rules.questions];
  for (const [index, question] of changed) questions[index] = question;
  // No copies, which would make all of the model, and read all of the rules, for a look at a few.
  const rules: CompiledRules = Object.create(model.rules, { questions: { value: questions } });
  return Object.create(model, { rules: { value: rules } });
}
