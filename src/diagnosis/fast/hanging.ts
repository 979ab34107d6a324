/**
 * How much of an answer's chance hangs on a sign being missed. The chance is linear in the chance of missing any one sign, x:
 * a + b·x. What hangs on it is b·x, so that a sign missed k times as often adds (k − 1)·b·x.
 */
import type { Question } from '../../rulebase/compiled.ts';
import type { Classes } from './classes.ts';
import { missing } from './tabulate.ts';
import { gaussLegendre } from '../quadrature.ts';

/** @returns by sign, what hangs on missing it of the answer's chance in every class; slips are left out */
export function hangingOn(classes: Classes, question: Question, answer: number): readonly Float64Array[] {
  const miss = allMissed(classes, question);
  const m = question.answers.length;
  const out = question.answers.map(() => new Float64Array(miss.length / m));
  const { several, default: none } = question;
  if (several === 'any' && answer !== none) amongSeveral(out, miss, answer);
  else hangingByCount(out, miss, answer, { none, rest: several === 'cancel' ? none : several });
  return out;
}

/**
 * With n = Π miss, the chance that nothing is noticed, and o_a that sign a is noticed alone: of n all hangs on missing any sign, of
 * o_a all on missing another one, and −n on missing a itself. The rest, 1 − n − Σ o, goes to one answer where several signs are not
 * said alike.
 */
function hangingByCount(
  out: readonly Float64Array[],
  miss: Float64Array,
  answer: number,
  { none, rest }: { readonly none: number; readonly rest: number | 'any' },
): void {
  const m = out.length;
  const only = new Float64Array(m);
  for (let c = 0, from = 0; from < miss.length; c++, from += m) {
    let nothing = 1;
    let all = 0;
    for (let a = 0; a < m; a++) nothing *= miss[from + a]!;
    for (let a = 0; a < m; a++) {
      let p = 1 - miss[from + a]!;
      for (let b = 0; b < m; b++) if (b !== a) p *= miss[from + b]!;
      only[a] = p;
      all += p;
    }
    for (let sign = 0; sign < m; sign++) {
      const own = answer === none ? nothing : sign === answer ? -nothing : only[answer]!;
      out[sign]![c] = answer === rest ? own - (all - only[sign]!) : own;
    }
  }
}

/**
 * Where any of the signs noticed may be said, the answer's chance is f·Σ_g w_g·Π_b T_b(t_g) over the other signs b, with
 * T_b(t) = miss_b + (1 − miss_b)·t (see `fromMissed`). No part is zero, because no node lies at zero.
 */
function amongSeveral(out: readonly Float64Array[], miss: Float64Array, answer: number): void {
  const m = out.length;
  const { nodes, weights } = gaussLegendre(Math.max(1, Math.ceil((m - 1) / 2)));
  for (let c = 0, from = 0; from < miss.length; c++, from += m) {
    const noticed = 1 - miss[from + answer]!;
    for (let g = 0; g < nodes.length; g++) {
      const t = nodes[g]!;
      let product = weights[g]!;
      for (let a = 0; a < m; a++) if (a !== answer) product *= miss[from + a]! + (1 - miss[from + a]!) * t;
      for (let a = 0; a < m; a++) {
        const x = miss[from + a]!;
        out[a]![c]! += a === answer ? -x * product : (noticed * product * x * (1 - t)) / (x + (1 - x) * t);
      }
    }
  }
}

/** [class × signs] chance of missing each sign: a class comes after the class without its last cause. */
function allMissed(classes: Classes, question: Question): Float64Array {
  const { up, last } = classes;
  const { none, factor } = missing(classes, question);
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
