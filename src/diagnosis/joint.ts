/**
 * Answers of one topic whose end is not known: the rider speaks of one of the two ends, each alike, and every such answer
 * of the topic of the same one. They belong to the impression of that end, and share its trust:
 *
 * P(front, rear, either | h) = ½·P(front + either | h)·P(rear | h) + ½·P(front | h)·P(rear + either | h)
 *
 * That looks at the causes of both ends together, so a joint group has the classes of both.
 */
import { classesOf, mapClasses, crowdedSets, type Classes } from './fast/classes.ts';
import type { Group } from './groups.ts';
import type { HypothesisSpace } from './hypotheses.ts';
import { marks, once } from './fast/once.ts';
import { keepNothing } from './fast/precomputed.ts';
import type { Question } from '../rulebase/compiled.ts';

/** The two ends of a joint group: their groups by index, and for each joint class the class of each end. */
export interface Joint {
  readonly front: number;
  readonly rear: number;
  readonly frontOf: () => Int32Array;
  readonly rearOf: () => Int32Array;
}

/** All is made when first needed: most cases name their ends. */
export function jointGroup(
  space: HypothesisSpace,
  id: string,
  indices: readonly number[],
  questions: readonly Question[],
  { ends, groups }: { readonly ends: readonly [number, number]; readonly groups: readonly Group[] },
): Group {
  const [front, rear] = ends.map((g) => groups[g]!) as [Group, Group];
  const classes = once(() =>
    classesOf(
      space,
      [...new Set([...front.classes.own, ...rear.classes.own])].sort((a, b) => a - b),
    ),
  );
  const frontOf = once(() => project(classes(), front.classes));
  const rearOf = once(() => project(classes(), rear.classes));
  const tables = new Map<number, Float64Array>();
  const spread = (group: Group, to: Int32Array, question: number): Float64Array => {
    const table = group.table(question);
    const m = questions[question]!.answers.length;
    const out = new Float64Array(to.length * m);
    for (let c = 0; c < to.length; c++) for (let a = 0; a < m; a++) out[c * m + a] = table[to[c]! * m + a]!;
    return out;
  };
  const make = (question: number): Float64Array => {
    if (front.questions.includes(question)) return spread(front, frontOf(), question);
    if (rear.questions.includes(question)) return spread(rear, rearOf(), question);
    const [f, r] = questions[question]!.either!;
    const other = spread(rear, rearOf(), r);
    return spread(front, frontOf(), f).map((p, i) => 0.5 * p + 0.5 * other[i]!);
  };
  return {
    id,
    doubt: front.doubt,
    bound: front.bound,
    stories: front.stories,
    questions: indices,
    get classes() {
      return classes();
    },
    classOf: once(() => mapClasses(space, classes())),
    crowded: once(() => crowdedSets(space, classes())),
    table(question) {
      let table = tables.get(question);
      if (table === undefined) tables.set(question, (table = make(question)));
      return table;
    },
    mark: marks(),
    keep: keepNothing,
    joint: { front: ends[0], rear: ends[1], frontOf, rearOf },
  };
}

/** The class of a part of the causes, for each class of all of them. */
function project({ up, last, own }: Classes, part: Classes): Int32Array {
  const n = part.own.length;
  const child = new Int32Array(part.sets.length * n);
  for (let c = 1; c < part.sets.length; c++) child[part.up[c]! * n + part.last[c]!] = c;
  const place = own.map((cause) => part.own.indexOf(cause));
  const out = new Int32Array(up.length);
  for (let c = 1; c < out.length; c++) {
    const i = place[last[c]!]!;
    out[c] = i < 0 ? out[up[c]!]! : child[out[up[c]!]! * n + i]!;
  }
  return out;
}
