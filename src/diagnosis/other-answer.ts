/** The chance of one answer in every class of its group, under other strengths of its question. */
import type { Question } from '../rulebase/compiled.ts';
import { probabilityOf } from './answer-model.ts';
import type { Classes } from './fast/classes.ts';
import { gaussLegendre } from './quadrature.ts';
import { missing, type Missing } from './fast/tabulate.ts';

/** From a question with other strengths to the chance of the answer in a class. */
export type OtherAnswer = (now: Question) => (cls: number) => number;

/** @param slip how often a single answer is any of the answers alike */
export function otherAnswer(classes: Classes, question: Question, slip: number, answer: number): OtherAnswer {
  const m = question.answers.length;
  const before = missing(classes, question);
  const any =
    question.several === 'any' && answer !== question.default
      ? amongSeveral(classes, before, answer)
      : undefined;
  return (now) => {
    const after = missing(classes, now);
    const sign = onlySign(before, after);
    const chance =
      any !== undefined && sign !== undefined ? any(after, sign) : wholly(classes, after, now, answer);
    return (cls) => (1 - slip) * chance(cls) + slip / m;
  };
}

/** From all signs anew. */
function wholly(
  { up, last }: Classes,
  { none, factor }: Missing,
  question: Question,
  answer: number,
): (cls: number) => number {
  const m = none.length;
  const miss = new Float64Array(m);
  return (cls) => {
    miss.set(none);
    for (let at = cls; at > 0; at = up[at]!)
      for (let a = 0, from = last[at]! * m; a < m; a++) miss[a]! *= factor[from + a]!;
    return probabilityOf(question, miss, answer);
  };
}

/**
 * Where any of the signs noticed may be said, the answer's chance is f·Σ_g w_g·Π_b T_b(t_g) over the other signs b, with
 * T_b(t) = miss_b + (1 − miss_b)·t (see `fromMissed`). The products are kept, and one sign's part exchanged: no part is
 * zero, because no node lies at zero.
 */
function amongSeveral(classes: Classes, before: Missing, answer: number) {
  const m = before.none.length;
  const { nodes, weights } = gaussLegendre(Math.max(1, Math.ceil((m - 1) / 2)));
  const size = classes.up.length;
  const kept = new Float64Array(size * nodes.length);
  const sum = new Float64Array(size);
  const had = signMissed(classes, before);
  const miss = allMissed(classes, before);
  for (let c = 0; c < size; c++) {
    for (let g = 0; g < nodes.length; g++) {
      const t = nodes[g]!;
      let product = weights[g]!;
      for (let a = 0, at = c * m; a < m; a++, at++)
        if (a !== answer) product *= miss[at]! + (1 - miss[at]!) * t;
      kept[c * nodes.length + g] = product;
      sum[c]! += product;
    }
  }
  return (after: Missing, sign: number): ((cls: number) => number) => {
    const has = signMissed(classes, after);
    if (sign === answer) return (c) => (1 - has(c, answer)) * sum[c]!;
    return (c) => {
      const old = had(c, sign);
      const now = has(c, sign);
      let total = 0;
      for (let g = 0, at = c * nodes.length; g < nodes.length; g++) {
        const t = nodes[g]!;
        total += (kept[at + g]! * (now + (1 - now) * t)) / (old + (1 - old) * t);
      }
      return (1 - had(c, answer)) * total;
    };
  };
}

/** [class × signs] chance of missing each sign: a class comes after the class without its last cause. */
function allMissed({ up, last }: Classes, { none, factor }: Missing): Float64Array {
  const m = none.length;
  const miss = new Float64Array(up.length * m);
  miss.set(none);
  for (let c = 1; c < up.length; c++) {
    const from = up[c]! * m;
    const by = last[c]! * m;
    for (let a = 0, at = c * m; a < m; a++, at++) miss[at] = miss[from + a]! * factor[by + a]!;
  }
  return miss;
}

/** Chance of missing one sign in a class. */
function signMissed({ up, last }: Classes, { none, factor }: Missing): (cls: number, sign: number) => number {
  const m = none.length;
  return (cls, sign) => {
    let miss = none[sign]!;
    for (let at = cls; at > 0; at = up[at]!) miss *= factor[last[at]! * m + sign]!;
    return miss;
  };
}

/** The one sign whose chances differ; undefined when none or several do. */
function onlySign(before: Missing, after: Missing): number | undefined {
  const m = before.none.length;
  let only = -1;
  const differs = (sign: number): boolean => {
    if (only >= 0 && only !== sign) return false;
    only = sign;
    return true;
  };
  for (let a = 0; a < m; a++) if (before.none[a] !== after.none[a] && !differs(a)) return undefined;
  for (let i = 0; i < before.factor.length; i++)
    if (before.factor[i] !== after.factor[i] && !differs(i % m)) return undefined;
  return only < 0 ? undefined : only;
}
