/**
 * What a rider would answer, given which causes are off.
 *
 * Every answer but the default is a sign. Sign a is noticed with probability 1 − (1−l_a)·Π(1−s_i(a)) over the causes
 * that are off, independently of the other signs. The leaky noisy-OR stores the link s_i, not Henrion's
 * P(sign | cause and leak): with leak 0.1 and link 0.2 the sign shows with 0.28 (Pearl 1988; Díez' convention).
 */
import type { Question } from '../rulebase/compiled.ts';

/** Probability of noticing each sign when exactly `causes` are off; 0 at the default. Writes into `out`. */
export function signProbabilities(
  question: Question,
  causes: readonly number[],
  out: Float64Array,
): Float64Array {
  const m = question.answers.length;
  for (let a = 0; a < m; a++) out[a] = 1 - question.base[a]!;
  for (const [cause, answer, strength] of question.links) {
    if (causes.includes(cause)) out[answer]! *= 1 - strength;
  }
  for (let a = 0; a < m; a++) out[a] = a === question.default ? 0 : 1 - out[a]!;
  return out;
}

/**
 * Probability of each answer when exactly `causes` are off. No sign noticed gives the default, one gives that sign,
 * several give what `when-several` says: the default (cancel), one answer, or any of those noticed alike.
 * @param out as long as the question's answers; adds up to 1
 */
export function answerProbabilities(
  question: Question,
  causes: readonly number[],
  out: Float64Array,
): Float64Array {
  const m = question.answers.length;
  const noticed = signProbabilities(question, causes, new Float64Array(m));
  const signs: number[] = [];
  for (let a = 0; a < m; a++) if (noticed[a]! > 0) signs.push(a);
  out.fill(0);
  // Every pattern of noticed signs: few, because a question has few answers.
  for (let pattern = 0; pattern < 1 << signs.length; pattern++) {
    let p = 1;
    let count = 0;
    let only = question.default;
    signs.forEach((a, bit) => {
      const seen = (pattern >> bit) & 1;
      p *= seen ? noticed[a]! : 1 - noticed[a]!;
      if (seen) {
        count++;
        only = a;
      }
    });
    if (count <= 1) out[only]! += p;
    else if (question.several === 'cancel') out[question.default]! += p;
    else if (question.several === 'any')
      signs.forEach((a, bit) => ((pattern >> bit) & 1 ? (out[a]! += p / count) : 0));
    else out[question.several]! += p;
  }
  return out;
}
