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
import { movedStrength, type MovedStrength } from '../../diagnosis/other-strengths.ts';
import { chancesBeside } from '../../diagnosis/none.ts';
import type { CompiledRules, Question } from '../../rulebase/compiled.ts';
import { adviserOf } from '../advise-case.ts';
import { besideAfter } from '../beside.ts';
import type { Case } from '../case.ts';
import { hear } from '../evidence.ts';
import { nextSteps } from '../larger-again.ts';
import { roundsOfCase, standsFrom } from '../retold.ts';
import { riddenInVain } from '../ridden-in-vain.ts';
import { impressionUnder, noneUnder } from './beside-under.ts';
import { strengthShift, type Shift } from './strength-shift.ts';
import { massOf, retoldWith, toldRounds, type RetoldRound, type ToldGroup } from './told-rounds.ts';

/** A case that can be told again. */
export interface Telling {
  /** the questions whose answers count in it, in any round, by index */
  readonly answered: ReadonlySet<number>;
  /** @param changed question index → the question with other strengths, pointing to the same causes */
  advice(changed: ReadonlyMap<number, Question>): Advice;
}

/** One strength behind one of the last answers, after which nothing came. */
interface Straight extends MovedStrength {
  readonly group: ToldGroup;
  readonly question: number;
  readonly share: Float64Array;
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
  const straight = (changed: ReadonlyMap<number, Question>): Straight | undefined => {
    if (last.trials.length > 0) return undefined;
    let question: number | undefined;
    for (const q of changed.keys()) {
      if (early.has(q)) return undefined;
      if (!groupOf.has(q)) continue;
      if (question !== undefined) return undefined;
      question = q;
    }
    if (question === undefined) return undefined;
    const moved = movedStrength(model.rules.questions[question]!, changed.get(question)!);
    const group = groupOf.get(question)!;
    const share = moved === undefined ? undefined : group.others.share(question, moved.sign);
    return share === undefined ? undefined : { ...moved!, group, question, share };
  };
  // A strength is tried at two values, one after the other.
  let before: (Pick<Straight, 'question' | 'sign' | 'cause'> & { readonly shift: Shift }) | undefined;
  const shiftOf = ({ group, question, sign, cause, share }: Straight): Shift => {
    if (before?.question !== question || before.sign !== sign || before.cause !== cause) {
      const classOf = model.groups[group.group]!.classOf();
      before = { question, sign, cause, shift: strengthShift(space, prior, { share, classOf }, cause) };
    }
    return before.shift;
  };
  /** Every set is told again only where the advice asks for it. */
  const beliefBy = (moved: Straight, changed: ReadonlyMap<number, Question>): Belief => {
    const shift = shiftOf(moved);
    const more = moved.times - 1;
    const total = 1 + more * shift.total;
    const causes = shifted(usual, shift.causes, more, total);
    let weights: Float64Array | undefined;
    return {
      get weights() {
        return (weights ??= retoldWith(model, rounds, changed).weights);
      },
      causes,
      nothing: (prior[0]! + more * shift.nothing) / total,
      logEvidence: last.logLeft + Math.log(total / massBefore),
    };
  };
  return {
    answered: new Set(rounds.flatMap((r) => r.groups.flatMap((g) => g.questions))),
    advice(changed) {
      let belief: Belief;
      let each: readonly RetoldRound[];
      const moved = straight(changed);
      if (moved !== undefined) {
        belief = beliefBy(moved, changed);
        each = [...rounds.slice(0, -1).map(({ own }) => own), { logEvidence: belief.logEvidence, told: [] }];
      } else {
        const anew = retoldWith(model, rounds, changed);
        ({ each } = anew);
        const { weights } = anew;
        const causes = marginals(space, weights, scratch, new Float64Array(space.causes));
        belief = { weights, causes, nothing: weights[0]!, logEvidence: each.at(-1)!.logEvidence };
      }
      const now = each.slice(from);
      const beside = chancesBeside(
        model,
        {
          none: none.prior === 0 ? -Infinity : nones.reduce((log, of) => log + of(changed), 0),
          impression: one.prior === 0 ? -Infinity : impression(changed),
        },
        now.reduce((log, { logEvidence }) => log + logEvidence, 0),
      );
      const seen = now.flatMap(({ told }, i) =>
        rounds[from + i]!.idle.map((idle, t) => ({ idle, told: told[t]! })),
      );
      return adviceUnder(belief, besideAfter(beside, seen), withQuestions(model, changed)).advice;
    },
  };
}

/** A loop by itself, so that no more is compiled where it is found worth it. */
function shifted(usual: Float64Array, by: Float64Array, more: number, total: number): Float64Array {
  const out = new Float64Array(usual.length);
  for (let i = 0; i < out.length; i++) out[i] = (usual[i]! + more * by[i]!) / total;
  return out;
}

/** The model with questions of other strengths, for whoever reads no more of it than what the questions point to. */
function withQuestions(model: Model, changed: ReadonlyMap<number, Question>): Model {
  if (changed.size === 0) return model;
  const questions = [...model.rules.questions];
  for (const [index, question] of changed) questions[index] = question;
  // No copies, which would make all of the model, and read all of the rules, for a look at a few.
  const rules: CompiledRules = Object.create(model.rules, { questions: { value: questions } });
  return Object.create(model, { rules: { value: rules } });
}
