/**
 * How much of an answer's chance hangs on a sign being missed. The chance is linear in the chance of missing any one sign, x:
 * a + b·x. What hangs on it is b·x, so that a sign missed k times as often adds (k − 1)·b·x.
 *
 * With n = Π miss, the chance that nothing is noticed, and o_a that sign a is noticed alone: of n all hangs on missing any sign, of
 * o_a all on missing another one, and −n on missing a itself. The rest, 1 − n − Σ o, goes to one answer where several signs are not
 * said alike (`hangByCount` in `loops/`).
 *
 * Where any of the signs noticed may be said, the answer's chance is f·Σ_g w_g·Π_b T_b(t_g) over the other signs b, with
 * T_b(t) = miss_b + (1 − miss_b)·t (see `fromMissed`). No part is zero, because no node lies at zero (`hangAmongSeveral`).
 */
import type { Question } from '../../rulebase/compiled.ts';
import { gaussLegendre } from '../quadrature.ts';
import type { Classes } from './classes.ts';
import { workshop } from './sets-machine.ts';
import { missing } from './tabulate.ts';

/** @returns by sign, what hangs on missing it of the answer's chance in every class; slips are left out */
export function hangingOn(
  { own, up, last }: Pick<Classes, 'own' | 'up' | 'last'>,
  question: Question,
  answer: number,
): readonly Float64Array[] {
  const { several, default: none } = question;
  const m = question.answers.length;
  const size = up.length;
  const chances = missing({ own }, question);
  const { nodes, weights } = gaussLegendre(Math.max(1, Math.ceil((m - 1) / 2)));
  const { code, numbers, counts, at } = workshop({
    numbers: {
      miss: size * m,
      out: size * m,
      factor: chances.factor.length,
      only: m,
      nodes: nodes.length,
      weights: nodes.length,
    },
    counts: { ups: size, lasts: size },
  });
  numbers.miss.set(chances.none);
  numbers.factor.set(chances.factor);
  counts.ups.set(up);
  counts.lasts.set(last);
  code.missEach(at.miss, at.factor, at.ups, at.lasts, size, m);
  if (several === 'any' && answer !== none) {
    numbers.nodes.set(nodes);
    numbers.weights.set(weights);
    code.hangAmongSeveral(at.out, at.miss, at.nodes, at.weights, nodes.length, size, m, answer);
  } else {
    const rest = several === 'cancel' ? none : several === 'any' ? -1 : several;
    code.hangByCount(at.out, at.miss, at.only, size, m, answer, none, rest);
  }
  return question.answers.map((_, sign) => numbers.out.slice(sign * size, (sign + 1) * size));
}
