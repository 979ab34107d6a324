/** The rule base made ready for diagnosis: the space of sets, the groups of evidence, the prior odds. */
import type { CompiledRules, Question } from '../rulebase/compiled.ts';
import { containment, type Containing } from './fast/superset-sums.ts';
import { buildGroups, retold, withQuestion, type Group, type Telling } from './groups.ts';
import { enumerate, type HypothesisSpace, type Sizes } from './hypotheses.ts';
import { jointGroup } from './joint.ts';
import { once } from './fast/once.ts';
import { keepNothing, type Keep } from './fast/precomputed.ts';
import { weigher, type GroupFactor, type Weigh } from './fast/weigh.ts';

export interface Model {
  readonly rules: CompiledRules;
  readonly space: HypothesisSpace;
  readonly groups: readonly Group[];
  /** question index → group index */
  readonly groupOf: Uint16Array;
  /** group index → index of the group that joins it with the other end's, or -1 */
  readonly jointOf: Int16Array;
  /** prior odds π/(1−π) a cause, before any bike sheet */
  readonly odds: Float64Array;
  readonly questionIndex: ReadonlyMap<string, number>;
  readonly causeIndex: ReadonlyMap<string, number>;
  /** as long as the space; holds nothing between calls */
  readonly scratch: Float64Array;
  readonly weigh: Weigh;
  readonly containing: Containing;
  /** [question][answer] factors of single sure answers, once worked out */
  readonly folded: GroupFactor[][];
  /** where what follows from the rules alone may be found */
  readonly keep: Keep;
}

/**
 * Each part is made when it is first asked for: a case that an earlier start told asks for none.
 *
 * @param doubt overrides the pack's trust, for tests that compare with the plain model (0)
 * @param keep numbers kept of these very rules
 */
export function buildModel(rules: CompiledRules, doubt?: number, keep: Keep = keepNothing): Model {
  const space = once(() =>
    enumerate(
      rules.causes.map((c) => c.setting),
      sizesOf(rules),
      keep,
    ),
  );
  const telling = tellingBy(rules.numbers);
  const groups = once(() =>
    buildGroups(
      space(),
      rules.questions,
      doubt === undefined ? telling : { ...telling, doubt: () => doubt },
      keep,
    ),
  );
  const places = once(() => placesIn(groups(), rules.questions.length));
  const scratch = once(() => new Float64Array(space().size));
  const weigh = once(() => weigher(space(), groups()));
  const containing = once(() => containment(space()));
  return {
    rules,
    get space() {
      return space();
    },
    get groups() {
      return groups();
    },
    get groupOf() {
      return places().groupOf;
    },
    get jointOf() {
      return places().jointOf;
    },
    odds: Float64Array.from(rules.causes, (c) => c.prior / (1 - c.prior)),
    questionIndex: new Map(rules.questions.map((q, i) => [q.id, i])),
    causeIndex: new Map(rules.causes.map((c, i) => [c.id, i])),
    get scratch() {
      return scratch();
    },
    get weigh() {
      return weigh();
    },
    get containing() {
      return containing();
    },
    folded: rules.questions.map(() => []),
    keep,
  };
}

function placesIn(groups: readonly Group[], questions: number): Pick<Model, 'groupOf' | 'jointOf'> {
  const groupOf = new Uint16Array(questions);
  groups.forEach((g, i) => g.questions.forEach((q) => (groupOf[q] = i)));
  const jointOf = new Int16Array(groups.length).fill(-1);
  groups.forEach(({ joint }, i) => {
    if (joint !== undefined) jointOf[joint.front] = jointOf[joint.rear] = i;
  });
  return { groupOf, jointOf };
}

function tellingBy({ trust, slip, 'one-story': story }: CompiledRules['numbers']): Telling {
  return { doubt: (q) => trust[q.how], slip: (q) => slip[q.how], bound: (q) => story[q.how] };
}

/** How many causes are taken to be off together, which may be fewer beside one of some kinds. */
function sizesOf({ causes, settings, numbers }: CompiledRules): Sizes {
  const most = numbers['causes-at-once'];
  const kinds = numbers['at-once-beside'];
  return kinds === undefined
    ? { most }
    : { most, beside: causes.map((c) => Math.min(most, kinds[settings[c.setting]!.kind] ?? most)) };
}

/**
 * The same model with the strengths of some questions changed: only their tables are made anew, so that hundreds of
 * changes can be tried on one case.
 * @param changed question index → the question with other strengths, pointing to the same causes
 */
export function withStrengths(model: Model, changed: ReadonlyMap<number, Question>): Model {
  const questions = [...model.rules.questions];
  const groups = [...model.groups];
  for (const [index, question] of changed) {
    const g = model.groupOf[index]!;
    questions[index] = question;
    groups[g] = withQuestion(groups[g]!, index, {
      before: model.rules.questions[index]!,
      now: question,
      slip: model.rules.numbers.slip[question.how],
    });
  }
  groups.forEach(({ joint, id, questions: own }, g) => {
    if (joint === undefined || own.every((q) => !questions[q]!.either!.some((end) => changed.has(end))))
      return;
    const ends = [joint.front, joint.rear] as const;
    groups[g] = jointGroup(model.space, id, own, questions, { ends, groups });
  });
  // What is kept of other questions still holds.
  const folded = model.folded.map((ofQuestion, index) =>
    changed.has(index) || questions[index]!.either?.some((end) => changed.has(end)) === true
      ? []
      : ofQuestion,
  );
  return { ...model, rules: { ...model.rules, questions }, groups, folded };
}

/**
 * The same model told by riders who slip and mistake topics otherwise: the sets and the classes stay, the tables are made anew.
 * @param numbers of which only `trust`, `slip` and `one-story` may differ
 */
export function withTelling(model: Model, numbers: CompiledRules['numbers']): Model {
  const rules = { ...model.rules, numbers };
  const telling = tellingBy(numbers);
  const groups: Group[] = [];
  for (const group of model.groups)
    groups.push(
      group.joint === undefined
        ? retold(group, rules.questions, telling)
        : jointGroup(model.space, group.id, group.questions, rules.questions, {
            ends: [group.joint.front, group.joint.rear],
            groups,
          }),
    );
  return { ...model, rules, groups, folded: rules.questions.map(() => []) };
}
