/**
 * What a group's answers would be worth, had some of its questions other strengths. Hundreds of single strengths are tried
 * on one case, so what hangs on a sign is worked out once for all the strengths that lead to it.
 */
import type { Question } from '../rulebase/compiled.ts';
import { groupFactor, wrongly, type Evidence } from './belief.ts';
import type { Classes } from './fast/classes.ts';
import { hangingOn } from './fast/hanging.ts';
import { withStrengths, type Model } from './model.ts';
import { once } from './fast/once.ts';

export interface OtherStrengths {
  /**
   * From the questions with other strengths, by index and pointing to the same causes, to each class's factor over its factor
   * with the model's own strengths; the array is written over by the next call.
   */
  ratio(changed: ReadonlyMap<number, Question>): Float64Array;
  /**
   * Of each class the share of its factor that hangs on missing a sign of a question: missed k times as often, the factor is
   * 1 + (k − 1)·share of what it was. Undefined where it is not straight so: of several answers to one question, and where
   * the end is not known.
   */
  share(question: number, sign: number): Float64Array | undefined;
}

/** @param answers of the group, in this case */
export function otherStrengths(model: Model, group: number, answers: readonly Evidence[]): OtherStrengths {
  const { classes, doubt, table, joint } = model.groups[group]!;
  if (joint !== undefined)
    return { ratio: (changed) => anew(model, group, answers, changed), share: () => undefined };
  const { questions, numbers } = model.rules;
  const size = classes.sets.length;
  const had = groupFactor(model, group, answers);
  const wrong = doubt * wrongly(model, group, answers);
  const columns = answers.map(({ question, answer, sure, share = 1 }): Column => {
    const own = questions[question]!;
    const slip = numbers.slip[own.how];
    return {
      question,
      own,
      chances: columnOf(table(question), answer, own.answers.length),
      sure,
      unsure: (1 - sure) / own.answers.length,
      share,
      hanging: once(() => {
        const parts = hangingOn(classes, own, answer);
        for (const part of parts) scale(part, 1 - slip);
        return parts;
      }),
    };
  });
  const byQuestion = new Map(columns.map((column) => [column.question, column]));
  const shares = new Map<Column, readonly Float64Array[]>();
  const sharesOf = (column: Column): readonly Float64Array[] => {
    const others = new Float64Array(size).fill((1 - doubt) * column.sure);
    for (const other of columns) if (other !== column) times(others, other, undefined, classes);
    over(others, had);
    return column.hanging().map((part) => product(part, others));
  };
  const out = new Float64Array(size);
  return {
    ratio(changed) {
      const moved = movedIn(columns, changed);
      if (moved === undefined) return anew(model, group, answers, changed);
      out.fill(1 - doubt);
      for (const column of columns) times(out, column, moved.get(column), classes);
      for (let c = 0; c < size; c++) out[c] = (out[c]! + wrong) / had[c]!;
      return out;
    },
    share(question, sign) {
      const column = byQuestion.get(question);
      // One of several answers to a question counts for less than one.
      if (column === undefined || column.share !== 1) return undefined;
      let all = shares.get(column);
      if (all === undefined) shares.set(column, (all = sharesOf(column)));
      return all[sign];
    },
  };
}

/** One answer of the group. */
interface Column {
  readonly question: number;
  readonly own: Question;
  /** of the answer, in every class */
  readonly chances: Float64Array;
  readonly sure: number;
  readonly unsure: number;
  readonly share: number;
  /** of the chances, what hangs on missing each sign */
  readonly hanging: () => readonly Float64Array[];
}

/** What of each answer's question moved; undefined where that is more than a strength each. */
function movedIn(
  columns: readonly Column[],
  changed: ReadonlyMap<number, Question>,
): ReadonlyMap<Column, MovedStrength> | undefined {
  const out = new Map<Column, MovedStrength>();
  for (const column of columns) {
    const now = changed.get(column.question);
    if (now === undefined) continue;
    const moved = movedStrength(column.own, now);
    if (moved === undefined) return undefined;
    out.set(column, moved);
  }
  return out;
}

/** Multiplies every class by the chance of an answer, with one strength moved. */
function times(
  out: Float64Array,
  { chances, sure, unsure, share, hanging }: Column,
  moved: MovedStrength | undefined,
  classes: Classes,
): void {
  const part = moved === undefined ? undefined : hanging()[moved.sign]!;
  const held = moved === undefined ? undefined : holdingOf(classes, moved.cause);
  for (let c = 0; c < out.length; c++) {
    const more = part === undefined || held![c] === 0 ? 0 : (moved!.times - 1) * part[c]!;
    const p = sure * (chances[c]! + more) + unsure;
    out[c]! *= share === 1 ? p : p ** share;
  }
}

/** Which classes hold a cause; all of them where it is -1. */
function holdingOf({ up, last, own }: Classes, cause: number): Uint8Array {
  const held = new Uint8Array(up.length);
  if (cause < 0) return held.fill(1);
  const place = own.indexOf(cause);
  // A class comes after the class without its last cause.
  for (let c = 1; c < held.length; c++) held[c] = last[c] === place ? 1 : held[up[c]!]!;
  return held;
}

function anew(
  model: Model,
  group: number,
  answers: readonly Evidence[],
  changed: ReadonlyMap<number, Question>,
): Float64Array {
  const had = groupFactor(model, group, answers);
  return groupFactor(withStrengths(model, changed), group, answers).map((factor, c) => factor / had[c]!);
}

/** A question's table holds an answer at every class, so many places apart. */
function columnOf(table: Float64Array, answer: number, answers: number): Float64Array {
  const out = new Float64Array(table.length / answers);
  for (let c = 0, at = answer; c < out.length; c++, at += answers) out[c] = table[at]!;
  return out;
}

function scale(out: Float64Array, by: number): void {
  for (let c = 0; c < out.length; c++) out[c]! *= by;
}

/* Loops by themselves, so that no more is compiled where they are found worth it. */

function over(out: Float64Array, by: Float64Array): void {
  for (let c = 0; c < out.length; c++) out[c] = by[c]! > 0 ? out[c]! / by[c]! : 0;
}

function product(a: Float64Array, b: Float64Array): Float64Array {
  const out = new Float64Array(a.length);
  for (let c = 0; c < out.length; c++) out[c] = a[c]! * b[c]!;
  return out;
}

/** One strength of a question moved: what it does to the chance of missing its sign. */
interface MovedStrength {
  readonly sign: number;
  /** -1 for a base rate, which holds whatever is off */
  readonly cause: number;
  /** how many times as often as before the sign is missed where that cause is off */
  readonly times: number;
}

/** @returns undefined where more, or something else, than one strength differs, and where its sign was never missed */
function movedStrength(own: Question, now: Question): MovedStrength | undefined {
  if (own.several !== now.several || own.links.length !== now.links.length) return undefined;
  let found: MovedStrength | undefined;
  for (let sign = 0; sign < own.base.length; sign++) {
    const before = own.base[sign]!;
    const after = now.base[sign]!;
    if (before === after) continue;
    if (found !== undefined || before === 1 || sign === own.default) return undefined;
    found = { sign, cause: -1, times: (1 - after) / (1 - before) };
  }
  for (let i = 0; i < own.links.length; i++) {
    const old = own.links[i]!;
    const link = now.links[i]!;
    if (old === link) continue;
    if (old[0] !== link[0] || old[1] !== link[1]) return undefined;
    if (old[2] === link[2]) continue;
    if (found !== undefined || old[2] === 1 || link[1] === own.default) return undefined;
    found = { sign: link[1], cause: link[0], times: (1 - link[2]) / (1 - old[2]) };
  }
  return found;
}
