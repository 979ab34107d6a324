/**
 * Groups of evidence: the questions of one topic at one end, which share one trust.
 *
 * A group's answers depend only on which of its own causes are off. So everything about a group is kept in a table
 * over classes, the sets of its own causes, which is some fifty times shorter than the list of all sets.
 */
import type { Question } from '../rulebase/compiled.ts';
import { fromMissed, missed } from './answer-model.ts';
import { findSet, membersOf, type HypothesisSpace } from './hypotheses.ts';

export interface Group {
  readonly id: string;
  /** probability that the whole impression is wrong */
  readonly doubt: number;
  /** indices into the questions of the rule base */
  readonly questions: readonly number[];
  /** number of each class as a set of the space; class 0 is "none of the group's causes" */
  readonly classes: Int32Array;
  /** the group's own causes, rising, and the class of each alone */
  readonly own: Int16Array;
  readonly singles: Int32Array;
  /** set number → class; built when first needed */
  classOf(): Uint16Array;
  /** [own × own] class of each pair, the lower cause first; -1 where they exclude each other */
  readonly pairs: Int32Array;
  /** the sets that hold three or more of the group's causes; built when first needed */
  crowded(): Crowded;
  /** [class × answers + answer] → probability, for a question of the group */
  table(question: number): Float64Array;
}

/** Sets in which three causes of one group meet: only there is its factor more than a product over causes and pairs. */
export interface Crowded {
  readonly sets: Int32Array;
  /** class of each */
  readonly classes: Uint16Array;
  /** [set × K] positions of the group's causes in each, rising; the rest is -1 */
  readonly members: Int16Array;
}

export function buildGroups(
  space: HypothesisSpace,
  questions: readonly Question[],
  doubt: (q: Question) => number,
  slip: (q: Question) => number,
): Group[] {
  const byId = new Map<string, number[]>();
  questions.forEach((q, i) => {
    const list = byId.get(q.group);
    if (list === undefined) byId.set(q.group, [i]);
    else list.push(i);
  });
  return [...byId].map(([id, indices]) => {
    const own = new Set(indices.flatMap((i) => questions[i]!.links.map(([cause]) => cause)));
    return makeGroup(space, id, doubt(questions[indices[0]!]!), indices, own, questions, slip);
  });
}

function makeGroup(
  space: HypothesisSpace,
  id: string,
  doubt: number,
  indices: readonly number[],
  own: ReadonlySet<number>,
  questions: readonly Question[],
  slip: (q: Question) => number,
): Group {
  const isOwn = new Uint8Array(space.causes);
  for (const cause of own) isOwn[cause] = 1;
  // Walk only the sets made of own causes: depth first, like the space itself.
  const classes: number[] = [];
  const collect = (set: number): void => {
    classes.push(set);
    const row = space.row[set]!;
    if (row < 0) return;
    for (let cause = space.last[set]! + 1; cause < space.causes; cause++) {
      const next = space.child[row * space.causes + cause]!;
      if (isOwn[cause] === 1 && next >= 0) collect(next);
    }
  };
  collect(0);
  const numbers = Int32Array.from(classes);
  let classOf: Uint16Array | undefined;
  let crowded: Crowded | undefined;
  const ownCauses = Int16Array.from([...own].sort((a, b) => a - b));
  const classIndex = new Map(classes.map((set, c) => [set, c]));
  const tables = new Map<number, Float64Array>();
  return {
    id,
    doubt,
    questions: indices,
    classes: numbers,
    own: ownCauses,
    singles: Int32Array.from(ownCauses, (cause) => classIndex.get(findSet(space, [cause]))!),
    pairs: Int32Array.from({ length: ownCauses.length ** 2 }, (_, at) => {
      const i = Math.floor(at / ownCauses.length);
      const j = at % ownCauses.length;
      return i < j ? (classIndex.get(findSet(space, [ownCauses[i]!, ownCauses[j]!])) ?? -1) : -1;
    }),
    crowded() {
      crowded ??= crowdedSets(space, this.classOf(), numbers, ownCauses);
      return crowded;
    },
    classOf() {
      classOf ??= mapClasses(space, isOwn, numbers);
      return classOf;
    },
    table(question) {
      let table = tables.get(question);
      if (table === undefined) {
        table = tabulate(space, numbers, questions[question]!, slip(questions[question]!));
        tables.set(question, table);
      }
      return table;
    },
  };
}

/** The same group with one question's strengths changed; the causes the question points to must stay the same. */
export function withQuestion(
  space: HypothesisSpace,
  group: Group,
  index: number,
  question: Question,
  slip: number,
): Group {
  let own: Float64Array | undefined;
  return {
    ...group,
    table: (q) => (q === index ? (own ??= tabulate(space, group.classes, question, slip)) : group.table(q)),
  };
}

function mapClasses(space: HypothesisSpace, isOwn: Uint8Array, classes: Int32Array): Uint16Array {
  const classOfSet = new Map<number, number>();
  classes.forEach((set, c) => classOfSet.set(set, c));
  // own[h]: the set of h's own causes, as a set number; a set's is its parent's, with the last cause if that is own.
  const own = new Int32Array(space.size);
  const out = new Uint16Array(space.size);
  for (let h = 1; h < space.size; h++) {
    const cause = space.last[h]!;
    const up = own[space.parent[h]!]!;
    own[h] = isOwn[cause] === 1 ? space.child[space.row[up]! * space.causes + cause]! : up;
    out[h] = own[h] === up ? out[space.parent[h]!]! : classOfSet.get(own[h]!)!;
  }
  return out;
}

function crowdedSets(
  space: HypothesisSpace,
  classOf: Uint16Array,
  classes: Int32Array,
  own: Int16Array,
): Crowded {
  const sets: number[] = [];
  for (let h = 0; h < space.size; h++) if (space.depth[classes[classOf[h]!]!]! > 2) sets.push(h);
  const members = new Int16Array(sets.length * space.most).fill(-1);
  sets.forEach((h, i) =>
    membersOf(space, classes[classOf[h]!]!).forEach((c, j) => (members[i * space.most + j] = own.indexOf(c))),
  );
  return { sets: Int32Array.from(sets), classes: Uint16Array.from(sets, (h) => classOf[h]!), members };
}

function tabulate(
  space: HypothesisSpace,
  classes: Int32Array,
  question: Question,
  slip: number,
  same?: { table(): Float64Array; readonly moved: ReadonlySet<number> },
): Float64Array {
  const m = question.answers.length;
  const out = new Float64Array(classes.length * m);
  // A class comes after the class without its last cause, so its chances of missing each sign are that one's, once more.
  const miss = new Float64Array(classes.length * m);
  const factor = new Float64Array(space.causes * m).fill(1);
  for (const [cause, answer, strength] of question.links) factor[cause * m + answer]! *= 1 - strength;
  missed(question, [], miss.subarray(0, m));
  const classOfSet = new Map<number, number>();
  const own = new Float64Array(m);
  const kept = same?.table();
  for (let c = 0; c < classes.length; c++) {
    const set = classes[c]!;
    classOfSet.set(set, c);
    const up = c === 0 ? 0 : classOfSet.get(space.parent[set]!)! * m;
    for (let a = 0; a < m; a++) {
      if (c > 0) miss[c * m + a] = miss[up + a]! * factor[space.last[set]! * m + a]!;
      own[a] = miss[c * m + a]!;
    }
    if (kept !== undefined && !membersOf(space, set).some((cause) => same!.moved.has(cause))) {
      for (let i = c * m; i < (c + 1) * m; i++) out[i] = kept[i]!;
      continue;
    }
    fromMissed(question, own, out, c * m);
    // A slip is any answer alike, whatever the bike does.
    for (let i = c * m; i < (c + 1) * m; i++) out[i] = (1 - slip) * out[i]! + slip / m;
  }
  return out;
}
