/** What an answer says about the signs behind it: how likely each was noticed, given the answer. */
import { gaussLegendre } from '../diagnosis/quadrature.ts';
import type { Question } from '../rulebase/compiled.ts';

/**
 * P(sign b noticed | this answer), for every sign.
 * @param miss chance of missing each sign, 1 at the default
 * @param out as long as the answers; 0 at the default
 */
export function noticedGiven(
  question: Question,
  miss: Float64Array,
  answer: number,
  out: Float64Array,
): Float64Array {
  const m = miss.length;
  const { default: none } = question;
  const several = question.several === 'cancel' ? none : question.several;
  out.fill(0);
  if (several === 'any') {
    if (answer === none) return out;
    // A noticed sign is said with 1 over how many were noticed: ∫ t^(n−1) dt, as in the answer model.
    const { nodes, weights } = gaussLegendre(Math.max(1, Math.ceil((m - 1) / 2)));
    let total = 0;
    for (let g = 0; g < nodes.length; g++) {
      const t = nodes[g]!;
      let product = weights[g]!;
      for (let a = 0; a < m; a++) if (a !== answer) product *= miss[a]! + (1 - miss[a]!) * t;
      total += product;
      for (let b = 0; b < m; b++)
        if (b !== answer && b !== none)
          out[b]! += (product * (1 - miss[b]!) * t) / (miss[b]! + (1 - miss[b]!) * t);
    }
    for (let b = 0; b < m; b++) out[b]! /= total;
    out[answer] = 1;
    return out;
  }
  if (answer !== several) {
    // Only this sign, or, at the default, none.
    if (answer !== none) out[answer] = 1;
    return out;
  }
  // Here several noticed signs end up, besides none (cancel) or this sign alone.
  const without = (b: number): number => {
    let product = 1;
    for (let a = 0; a < m; a++) if (a !== b) product *= miss[a]!;
    return product;
  };
  let nothing = 1;
  for (let a = 0; a < m; a++) nothing *= miss[a]!;
  let alone = 0;
  for (let b = 0; b < m; b++) if (b !== none && b !== several) alone += (1 - miss[b]!) * without(b);
  const probability = several === none ? 1 - alone : 1 - nothing - alone;
  if (!(probability > 0)) return out;
  for (let b = 0; b < m; b++) {
    if (b === none) continue;
    const joint = b === several ? 1 - miss[b]! : (1 - miss[b]!) * (1 - without(b));
    out[b] = Math.min(1, joint / probability);
  }
  return out;
}
