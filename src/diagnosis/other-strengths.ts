/**
 * What a group's answers would be worth, had some of its questions other strengths.
 *
 * Hundreds of single strengths are tried on one case. Each touches only the classes that hold its cause, and only the
 * chance of the answer that was given, so nothing else is worked out.
 */
import type { Question } from '../rulebase/compiled.ts';
import { otherAnswer, type OtherAnswer } from './other-answer.ts';
import { groupFactor, wrongly, type Evidence } from './belief.ts';
import type { Classes } from './fast/classes.ts';
import { movedCauses } from './groups.ts';
import { withStrengths, type Model } from './model.ts';

/**
 * @param answers of the group, in this case
 * @returns from the questions with other strengths, by index and pointing to the same causes, to each class's factor
 *   over its factor with the model's own strengths; the array is written over by the next call
 */
export function otherStrengths(
  model: Model,
  group: number,
  answers: readonly Evidence[],
): (changed: ReadonlyMap<number, Question>) => Float64Array {
  const { classes, doubt, table, joint } = model.groups[group]!;
  if (joint !== undefined) return whole(model, group, answers);
  const { questions, numbers } = model.rules;
  const size = classes.sets.length;
  const had = groupFactor(model, group, answers);
  const others = new Map<string, OtherAnswer>();
  const ratio = new Float64Array(size);
  const touched = new Uint8Array(size);
  const wrong = doubt * wrongly(model, group, answers);
  return (changed) => {
    touched.fill(0);
    const columns = answers.map(({ question, answer, sure, share = 1 }): Column => {
      const own = questions[question]!;
      const m = own.answers.length;
      const column = { had: table(question), m, answer, sure, share };
      const now = changed.get(question);
      if (now === undefined) return column;
      touch(classes, movedCauses(own, now), touched);
      const key = `${question} ${answer}`;
      let other = others.get(key);
      if (other === undefined)
        others.set(key, (other = otherAnswer(classes, own, numbers.slip[own.how], answer)));
      return { ...column, now: other(now) };
    });
    ratio.fill(1);
    for (let c = 0; c < size; c++) {
      if (touched[c] === 0) continue;
      let factor = 1 - doubt;
      for (let i = 0; i < columns.length; i++) {
        const { had: before, m, answer, sure, share, now } = columns[i]!;
        const p = now === undefined ? before[c * m + answer]! : now(c);
        factor *= (sure * p + (1 - sure) / m) ** share;
      }
      ratio[c] = (factor + wrong) / had[c]!;
    }
    return ratio;
  };
}

/** A joint group is rare, and is reckoned anew. */
function whole(
  model: Model,
  group: number,
  answers: readonly Evidence[],
): (changed: ReadonlyMap<number, Question>) => Float64Array {
  const had = groupFactor(model, group, answers);
  return (changed) =>
    groupFactor(withStrengths(model, changed), group, answers).map((factor, c) => factor / had[c]!);
}

/** One answer of the group: its question's table as it is, and the answer's chance in a class under other strengths. */
interface Column {
  readonly had: Float64Array;
  /** how many answers the question has */
  readonly m: number;
  readonly answer: number;
  readonly sure: number;
  readonly share: number;
  readonly now?: (cls: number) => number;
}

/** Marks the classes that hold a moved cause; all of them when more than links moved. */
function touch(
  { up, last, own }: Classes,
  moved: ReadonlySet<number> | undefined,
  touched: Uint8Array,
): void {
  if (moved === undefined) {
    touched.fill(1);
    return;
  }
  const hit = own.map((cause) => (moved.has(cause) ? 1 : 0));
  // A class comes after the class without its last cause.
  const holds = new Uint8Array(touched.length);
  for (let c = 1; c < holds.length; c++) {
    holds[c] = holds[up[c]!]! | hit[last[c]!]!;
    touched[c]! |= holds[c]!;
  }
}
