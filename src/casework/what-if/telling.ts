/**
 * One case told again under other strengths of the rules, for hundreds of them.
 *
 * Everything that no strength touches is kept: the belief of every round, the trials as tables over the sets, what
 * applies and what is set aside. Another strength then costs a look at the classes that hold its cause, and a few
 * products over all sets; the result is that of `consult` with those strengths.
 */
import { advise, type Advice } from '../../advice/advise.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Belief } from '../../diagnosis/belief.ts';
import { marginals } from '../../diagnosis/hypotheses.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Question } from '../../rulebase/compiled.ts';
import { besideAfter, besideOf, groundsOf } from '../beside.ts';
import type { Case } from '../case.ts';
import { massesOf, classShift, type Masses, type Shift } from './class-shift.ts';
import { hear } from '../evidence.ts';
import { nextSteps } from '../larger-again.ts';
import { roundsOfCase, standsFrom } from '../retold.ts';
import { riddenInVain } from '../ridden-in-vain.ts';
import { chooseBack, worseAndOn } from '../tried/choose-back.ts';
import {
  firstTouched,
  massOf,
  retoldWith,
  toldRounds,
  touchedBy,
  type RetoldRound,
  type ToldGroup,
} from './told-rounds.ts';

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

export function tellingOf(model: Model, bench: PreparedBike, kase: Case): Telling {
  const { space } = model;
  const { dangers, known } = hear(model, kase.answers, bench.fact);
  const { rounds, weights: prior, tried } = toldRounds(model, bench, kase);
  const worse = worseAndOn(model, tried);
  const cut = nextSteps(model, bench, tried, kase);
  const ridden = riddenInVain(model, cut, kase);
  const last = rounds.at(-1)!;
  const from = standsFrom(roundsOfCase(kase));
  const massBefore = massOf(last.before);
  const grounds = groundsOf(model, last.evidence);
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
  /** The only group that hears of a changed question, where it is one of the last answers and nothing came after them. */
  const only = (changed: ReadonlyMap<number, Question>): ToldGroup | undefined => {
    if (last.trials.length > 0 || firstTouched(rounds, changed) !== rounds.length - 1) return undefined;
    const touched = touchedBy(last, changed);
    return touched.length === 1 ? touched[0] : undefined;
  };
  /** What its classes tell of every cause. */
  const beliefBy = (group: ToldGroup, changed: ReadonlyMap<number, Question>, far: number): Belief => {
    let shift = shifts.get(changed);
    if (shift === undefined) {
      shift = classShift(model, massesIn(group.group), group.ratio(changed));
      shifts.set(changed, shift);
    }
    const moved = shift;
    const total = 1 + far * moved.total;
    let weights: Float64Array | undefined;
    return {
      // Every set is told again only where the advice asks for it.
      get weights() {
        return (weights ??= between(prior, retoldWith(model, rounds, changed).weights, {
          far: (far * (1 + moved.total)) / total,
          rest: (1 - far) / total,
        }));
      },
      causes: usual.map((p, i) => (p + far * moved.causes[i]!) / total),
      nothing: (prior[0]! + far * moved.nothing) / total,
      logEvidence: last.logLeft + Math.log(total / massBefore),
    };
  };
  return {
    answered: new Set(rounds.flatMap((r) => r.groups.flatMap((g) => g.questions))),
    straight: (changed) => only(changed) !== undefined,
    advice(changed, far = 1) {
      let belief: Belief;
      let each: readonly RetoldRound[];
      const group = only(changed);
      if (group !== undefined) {
        belief = beliefBy(group, changed, far);
        each = [...rounds.slice(0, -1).map(({ own }) => own), { logEvidence: belief.logEvidence, told: [] }];
      } else {
        const anew = retoldWith(model, rounds, changed);
        ({ each } = anew);
        const { weights } = anew;
        const causes = marginals(space, weights, scratch, new Float64Array(space.causes));
        belief = { weights, causes, nothing: weights[0]!, logEvidence: each.at(-1)!.logEvidence };
      }
      const standing = each.slice(from).map((one, i) => ({ ...one, ...rounds[from + i]! }));
      const said = standing.map(({ logEvidence, evidence }) => ({ evidence, underCauses: logEvidence }));
      const seen = standing.flatMap(({ idle, told }) => idle.map((p, i) => ({ idle: p, told: told[i]! })));
      return advise(model, cut, belief, {
        dangerous: dangers.length > 0,
        dangers,
        known,
        back: chooseBack(model, worse, belief),
        grounds,
        ...besideAfter(besideOf(withQuestions(model, changed, far), said), seen),
        ridden,
      });
    },
  };
}

/** Linear in the strength: what the model's own strengths leave, and what the other ones do. */
function between(
  own: Float64Array,
  other: Float64Array,
  { far, rest }: { readonly far: number; readonly rest: number },
): Float64Array {
  return rest === 0 ? other : other.map((w, h) => far * w + rest * own[h]!);
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
