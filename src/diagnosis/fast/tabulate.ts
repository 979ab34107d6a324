/** What a question's answers are worth under each class of its group. */
import type { Question } from '../../rulebase/compiled.ts';
import { fromMissed, missed } from '../answer-model.ts';
import type { Classes } from './classes.ts';

/** A table made before, of the same question but for the strengths of some causes. */
export interface Before {
  readonly table: Float64Array;
  readonly moved: ReadonlySet<number>;
}

/** Chances of missing each sign: with none of the group's causes off, and what each cause multiplies them by. */
export interface Missing {
  readonly none: Float64Array;
  /** [own × answers] */
  readonly factor: Float64Array;
}

export function missing({ own }: Pick<Classes, 'own'>, question: Question): Missing {
  const m = question.answers.length;
  const factor = new Float64Array(own.length * m).fill(1);
  const place = placesOf(own);
  for (const [cause, answer, strength] of question.links) factor[place[cause]! * m + answer]! *= 1 - strength;
  return { none: missed(question, [], new Float64Array(m)), factor };
}

const places = new WeakMap<Int16Array, Int16Array>();

/** Cause → its place among the own ones. */
function placesOf(own: Int16Array): Int16Array {
  let place = places.get(own);
  if (place === undefined) {
    place = new Int16Array((own.at(-1) ?? -1) + 1).fill(-1);
    for (let i = 0; i < own.length; i++) place[own[i]!] = i;
    places.set(own, place);
  }
  return place;
}

/**
 * @param slip how often a single answer is any of the answers alike, whatever the bike does
 * @returns [class × answers + answer] → probability
 */
export function tabulate(classes: Classes, question: Question, slip: number, before?: Before): Float64Array {
  const { up, last, own } = classes;
  const m = question.answers.length;
  const size = up.length;
  const out = new Float64Array(size * m);
  // A class comes after the class without its last cause, so its chances of missing each sign are that one's, once more.
  const miss = new Float64Array(size * m);
  const { none, factor } = missing(classes, question);
  miss.set(none);
  const one = new Float64Array(m);
  // A class without any cause that moved has kept its row.
  const touched = new Uint8Array(size);
  for (let c = 0; c < size; c++) {
    if (c > 0) {
      const from = up[c]! * m;
      const by = last[c]! * m;
      for (let a = 0; a < m; a++) miss[c * m + a] = miss[from + a]! * factor[by + a]!;
      if (before !== undefined)
        touched[c] = touched[up[c]!] === 1 || before.moved.has(own[last[c]!]!) ? 1 : 0;
    }
    if (before !== undefined && touched[c] === 0) {
      for (let i = c * m; i < (c + 1) * m; i++) out[i] = before.table[i]!;
      continue;
    }
    for (let a = 0; a < m; a++) one[a] = miss[c * m + a]!;
    fromMissed(question, one, out, c * m);
    for (let i = c * m; i < (c + 1) * m; i++) out[i] = (1 - slip) * out[i]! + slip / m;
  }
  return out;
}
