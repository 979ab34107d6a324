/**
 * Groups of evidence: the questions of one topic at one end, which share one trust.
 *
 * A group's answers depend only on which of its own causes are off. So everything about a group is kept in a table
 * over classes, the sets of its own causes, which is some fifty times shorter than the list of all sets.
 */
import type { Question } from '../rulebase/compiled.ts';
import {
  apart,
  classesOf,
  crowdedSets,
  joinedClasses,
  mapClasses,
  type Classes,
  type Crowded,
} from './fast/classes.ts';
import type { HypothesisSpace } from './hypotheses.ts';
import { jointGroup, type Joint } from './joint.ts';
import { keepNothing, type Keep } from './fast/precomputed.ts';
import { storiesOf, type Stories } from './correlated-errors.ts';
import { marks, once } from './fast/once.ts';
import { tabulate } from './fast/tabulate.ts';

export interface Group {
  readonly id: string;
  /** probability that the whole impression is wrong */
  readonly doubt: number;
  /** how far a wrong impression is told as one story, and the stories; built when first needed */
  readonly bound: number;
  readonly stories: () => Stories;
  /** indices into the questions of the rule base */
  readonly questions: readonly number[];
  readonly classes: Classes;
  /** set number → class; built when first needed */
  readonly classOf: () => Int32Array;
  /** the sets that hold three or more of the group's causes; built when first needed */
  readonly crowded: () => Crowded;
  /** [class × answers + answer] → probability, for a question of the group; built when first needed */
  readonly table: (question: number) => Float64Array;
  /** stands for such a table: the same for groups that share it, and had without making it */
  readonly mark: (question: number) => object;
  /** where what follows from the tables alone may be found */
  readonly keep: Keep;
  /** of answers whose end is not known: the groups of the two ends */
  readonly joint?: Joint;
}

/** What of a group depends on how riders tell: how often a whole impression is wrong, how far as one story, single slips. */
export interface Telling {
  readonly doubt: (q: Question) => number;
  readonly slip: (q: Question) => number;
  readonly bound: (q: Question) => number;
}

export function buildGroups(
  space: HypothesisSpace,
  questions: readonly Question[],
  { doubt, slip, bound }: Telling,
  keep: Keep = keepNothing,
): Group[] {
  const byId = new Map<string, number[]>();
  questions.forEach((q, i) => {
    const list = byId.get(q.group);
    if (list === undefined) byId.set(q.group, [i]);
    else list.push(i);
  });
  const plain = [...byId].filter(([, indices]) => questions[indices[0]!]!.either === undefined);
  const all = apart(
    keep('classes', () =>
      joinedClasses(plain.map(([, indices]) => classesOf(space, ownOf(questions, indices)))),
    ),
  );
  const groups = plain.map(([id, indices], g): Group => {
    const classes = all[g]!;
    const classOf = once(() => keep(`map/${id}`, () => ({ classOf: mapClasses(space, classes) })).classOf);
    const tables = new Map<number, Float64Array>();
    return {
      id,
      doubt: doubt(questions[indices[0]!]!),
      bound: bound(questions[indices[0]!]!),
      stories: once(() => storiesOf(questions, indices)),
      questions: indices,
      classes,
      classOf,
      crowded: once(() => keep(`crowded/${id}`, () => crowdedSets(space, classes))),
      table(index) {
        let table = tables.get(index);
        if (table === undefined) {
          const question = questions[index]!;
          ({ table } = keep(`table/${question.id}`, () => ({
            table: tabulate(classes, question, slip(question)),
          })));
          tables.set(index, table);
        }
        return table;
      },
      mark: marks(),
      keep,
    };
  });
  const groupOf = new Map(groups.flatMap((g, i) => g.questions.map((q) => [q, i] as const)));
  const joint = [...byId].flatMap(([id, indices]): Group[] => {
    const ends = questions[indices[0]!]!.either?.map((q) => groupOf.get(q)!) as [number, number] | undefined;
    return ends === undefined ? [] : [jointGroup(space, id, indices, questions, { ends, groups })];
  });
  return [...groups, ...joint];
}

/** The causes that some questions point to, rising. */
function ownOf(questions: readonly Question[], indices: readonly number[]): number[] {
  const own = new Set(indices.flatMap((i) => questions[i]!.links.map(([cause]) => cause)));
  return [...own].sort((a, b) => a - b);
}

/** The same group with one question's strengths changed; the causes the question points to must stay the same. */
export function withQuestion(
  group: Group,
  index: number,
  { before, now, slip }: { readonly before: Question; readonly now: Question; readonly slip: number },
): Group {
  const moved = movedCauses(before, now);
  const table = once(() =>
    tabulate(
      group.classes,
      now,
      slip,
      moved === undefined ? undefined : { table: group.table(index), moved },
    ),
  );
  const own = {};
  return {
    ...group,
    table: (q) => (q === index ? table() : group.table(q)),
    mark: (q) => (q === index ? own : group.mark(q)),
    keep: keepNothing,
  };
}

/** The same group, not a joint one, told by other riders. */
export function retold(group: Group, questions: readonly Question[], telling: Telling): Group {
  const first = questions[group.questions[0]!]!;
  const tables = new Map<number, Float64Array>();
  return {
    ...group,
    doubt: telling.doubt(first),
    bound: telling.bound(first),
    table(index) {
      let table = tables.get(index);
      if (table === undefined) {
        const question = questions[index]!;
        tables.set(index, (table = tabulate(group.classes, question, telling.slip(question))));
      }
      return table;
    },
    mark: marks(),
    keep: keepNothing,
  };
}

/** The causes whose strengths differ; undefined when more than strengths does. */
export function movedCauses(before: Question, now: Question): ReadonlySet<number> | undefined {
  const sameSigns =
    before.default === now.default &&
    before.several === now.several &&
    before.base.length === now.base.length &&
    before.base.every((b, a) => b === now.base[a]) &&
    before.links.length === now.links.length;
  if (!sameSigns) return undefined;
  const moved = new Set<number>();
  for (let i = 0; i < now.links.length; i++) {
    const [old, link] = [before.links[i]!, now.links[i]!];
    if (old === link) continue;
    if (old[0] !== link[0] || old[1] !== link[1]) return undefined;
    if (old[2] !== link[2]) moved.add(link[0]);
  }
  return moved;
}
