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
import { setsMachine } from './sets-machine.ts';
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
  const { code, place, read } = setsMachine();
  const [factor, ups, lasts, nodesAt, weightsAt, miss, out, only] = place(
    [chances.factor, up, Int32Array.from(last), Float64Array.from(nodes), Float64Array.from(weights)],
    size * m,
    size * m,
    m,
  );
  // Anything may stand there.
  for (const [list, length] of [[miss, size * m], [out, size * m], [only, m]] as const) read(list, length).fill(0); // prettier-ignore
  read(miss, chances.none.length).set(chances.none);
  code.missEach(miss, factor, ups, lasts, size, m);
  if (several === 'any' && answer !== none)
    code.hangAmongSeveral(out, miss, nodesAt, weightsAt, nodes.length, size, m, answer);
  else {
    const rest = several === 'cancel' ? none : several === 'any' ? -1 : several;
    code.hangByCount(out, miss, only, size, m, answer, none, rest);
  }
  return question.answers.map((_, sign) => read(out, size, sign * size).slice());
}
