import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupFactor } from '../../src/diagnosis/belief.ts';
import { buildModel, withStrengths } from '../../src/diagnosis/model.ts';
import { otherStrengths } from '../../src/diagnosis/other-strengths.ts';
import type { Question } from '../../src/rulebase/compiled.ts';
import { network } from '../support/network.ts';

const strength = fc.double({ min: 0, max: 1, noNaN: true });

/** Two questions of one group, four answers each, over four causes; how several signs are answered is drawn. */
const cases = fc.record({
  several: fc.constantFrom('cancel' as const, 'any' as const, 2),
  base: fc.array(fc.array(strength, { minLength: 3, maxLength: 3 }), { minLength: 2, maxLength: 2 }),
  links: fc.array(fc.array(strength, { minLength: 5, maxLength: 5 }), { minLength: 2, maxLength: 2 }),
  answers: fc.tuple(fc.nat(3), fc.nat(3)),
  sure: fc.constantFrom(1, 0.4),
  doubt: fc.constantFrom(0, 0.1),
  moved: fc.record({ link: fc.option(fc.nat(4)), to: strength, base: fc.option(fc.nat(2)) }),
});

/** Cause and sign of each of the five links. */
const PLACES = [
  [0, 1],
  [1, 1],
  [1, 2],
  [2, 3],
  [3, 2],
] as const;

describe('a group under other strengths', () => {
  it('has the ratio of the factors with tables made anew', () => {
    fc.assert(
      fc.property(cases, ({ several, base, links, answers, sure, doubt, moved }) => {
        const rules = network({
          priors: [0.2, 0.2, 0.2, 0.2],
          most: 3,
          questions: [0, 1].map((i) => ({
            id: `q${i}`,
            answers: ['none', 'a', 'b', 'c'],
            several,
            group: 'same',
            // Never quite zero, so that there is something to divide by.
            base: [0, ...base[i]!.map((b) => 0.01 + 0.98 * b)],
            links: PLACES.map(([cause, answer], l) => [cause, answer, 0.98 * links[i]![l]!] as const),
          })),
        });
        const model = buildModel(rules, doubt);
        const q = rules.questions[1]!;
        const now: Question = {
          ...q,
          base: q.base.map((b, a) => (a - 1 === moved.base ? 0.01 + 0.98 * moved.to : b)),
          links: q.links.map((l, i) => (i === moved.link ? [l[0], l[1], moved.to] : l)),
        };
        const evidence = answers.map((answer, question) => ({ question, answer, sure }));
        const changed = new Map([[1, now]]);
        const ratio = otherStrengths(model, 0, evidence).ratio(changed);
        const before = groupFactor(model, 0, evidence);
        const after = groupFactor(withStrengths(model, changed), 0, evidence);
        ratio.forEach((r, c) => expect(r * before[c]!).toBeCloseTo(after[c]!, 12));
      }),
    );
  });
});
