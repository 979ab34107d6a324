import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromMissed } from '../../src/diagnosis/answer-model.ts';
import { noticedGiven } from '../../src/evaluation/learn-signs.ts';
import type { Question } from '../../src/rulebase/compiled.ts';

/** Answers of every pattern of noticed signs, one by one: the definition. */
function byPatterns(question: Question, miss: Float64Array, answer: number): Float64Array {
  const m = miss.length;
  const out = new Float64Array(m);
  let total = 0;
  for (let pattern = 0; pattern < 1 << m; pattern++) {
    let p = 1;
    const signs: number[] = [];
    for (let a = 0; a < m; a++) {
      const on = ((pattern >> a) & 1) === 1;
      p *= on ? 1 - miss[a]! : miss[a]!;
      if (on) signs.push(a);
    }
    const { several, default: none } = question;
    const said = (a: number): number => {
      if (signs.length === 0) return a === none ? 1 : 0;
      if (signs.length === 1) return a === signs[0] ? 1 : 0;
      if (several === 'any') return signs.includes(a) ? 1 / signs.length : 0;
      return a === (several === 'cancel' ? none : several) ? 1 : 0;
    };
    const joint = p * said(answer);
    total += joint;
    for (const s of signs) out[s]! += joint;
  }
  return out.map((x) => x / total);
}

const questions = fc.integer({ min: 2, max: 6 }).chain((m) =>
  fc.record({
    none: fc.nat(m - 1),
    answer: fc.nat(m - 1),
    several: fc.oneof(fc.constantFrom('any' as const, 'cancel' as const), fc.nat(m - 1)),
    miss: fc.array(fc.double({ min: 0.02, max: 0.98, noNaN: true }), { minLength: m, maxLength: m }),
  }),
);

describe('signs behind an answer', () => {
  it('are as likely as the sum over all patterns of signs says', () => {
    fc.assert(
      fc.property(questions, ({ none, answer, several, miss }) => {
        const q = { default: none, several } as Question;
        const missed = Float64Array.from(miss, (x, a) => (a === none ? 1 : x));
        const expected = byPatterns(q, missed, answer);
        const found = noticedGiven(q, missed, answer, new Float64Array(miss.length));
        found.forEach((p, a) => expect(p).toBeCloseTo(expected[a]!, 9));
      }),
    );
  });
  it('add up over the answers to how often each sign is noticed', () => {
    fc.assert(
      fc.property(questions, ({ none, several, miss }) => {
        const q = { default: none, several } as Question;
        const missed = Float64Array.from(miss, (x, a) => (a === none ? 1 : x));
        const said = fromMissed(q, missed, new Float64Array(miss.length), 0);
        const sum = new Float64Array(miss.length);
        said.forEach((p, answer) => {
          if (p > 1e-12)
            noticedGiven(q, missed, answer, new Float64Array(miss.length)).forEach(
              (x, a) => (sum[a]! += p * x),
            );
        });
        sum.forEach((p, a) => expect(p).toBeCloseTo(1 - missed[a]!, 9));
      }),
    );
  });
});
