/**
 * What a rider would answer, given which causes are off.
 *
 * Every answer but the default is a sign. Sign a is noticed with probability 1 − (1−l_a)·Π(1−s_i(a)) over the causes
 * that are off, independently of the other signs. The leaky noisy-OR stores the link s_i, not Henrion's
 * P(sign | cause and leak): with leak 0.1 and link 0.2 the sign shows with 0.28 (Pearl 1988; Díez' convention).
 */
import type { Question } from '../rulebase/compiled.ts';
import { gaussLegendre } from './quadrature.ts';

/** Probability of missing each sign when exactly `causes` are off: 1 at the default, which is no sign. Writes into `out`. */
export function missed(question: Question, causes: readonly number[], out: Float64Array): Float64Array {
  for (let a = 0; a < out.length; a++) out[a] = a === question.default ? 1 : 1 - question.base[a]!;
  const { links } = question;
  // Not taken apart by a pattern: that is dear to compile for an engine that finds it often used.
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    if (causes.includes(link[0])) out[link[1]]! *= 1 - link[2];
  }
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
  return fromMissed(question, missed(question, causes, new Float64Array(out.length)), out, 0);
}

/**
 * Answers from the chances of missing each sign; writes at `at`.
 *
 * "Any" needs, for each sign, the mean of 1 over how many are noticed together: f_a·∫₀¹ Π_{b≠a}(1−f_b+f_b·t) dt, a
 * polynomial that a short Gauss–Legendre rule integrates exactly, where a sum over all patterns of signs would double
 * with every answer.
 */
export function fromMissed(
  question: Question,
  miss: Float64Array,
  out: Float64Array,
  at: number,
): Float64Array {
  const m = miss.length;
  const { several, default: none } = question;
  if (several === 'any') {
    let nothing = 1;
    for (let a = 0; a < m; a++) {
      nothing *= miss[a]!;
      out[at + a] = 0;
    }
    const { nodes, weights } = gaussLegendre(Math.max(1, Math.ceil((m - 1) / 2)));
    for (let g = 0; g < nodes.length; g++) {
      const t = nodes[g]!;
      let product = weights[g]!;
      for (let a = 0; a < m; a++) product *= miss[a]! + (1 - miss[a]!) * t;
      for (let a = 0; a < m; a++)
        out[at + a]! += ((1 - miss[a]!) * product) / (miss[a]! + (1 - miss[a]!) * t);
    }
    out[at + none] = nothing;
    return out;
  }
  let nothing = 1;
  for (let a = 0; a < m; a++) nothing *= miss[a]!;
  let rest = 1 - nothing;
  for (let a = 0; a < m; a++) {
    let only = 1 - miss[a]!;
    // Not nothing / miss: a sign that is never missed would divide by zero.
    for (let b = 0; b < m && only > 0; b++) if (b !== a) only *= miss[b]!;
    out[at + a] = only;
    rest -= only;
  }
  out[at + none] = nothing;
  out[at + (several === 'cancel' ? none : several)]! += Math.max(0, rest);
  return out;
}
