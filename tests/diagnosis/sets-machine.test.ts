/** The loops over all sets in machine code and the same loops in TypeScript give the same bits. */
import fc from 'fast-check';
import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { withoutSetsMachine, workshop } from '../../src/diagnosis/fast/sets-machine.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();

it('weighs every set alike, whatever was answered, with one, two or three causes at once', () => {
  for (const most of [1, 2, 3]) {
    const own = { ...rules, numbers: { ...rules.numbers, 'causes-at-once': most } };
    const here = buildModel(own);
    const there = buildModel(own);
    // The working space is made when it is first asked for.
    withoutSetsMachine(() => there.weigh);
    const asked = rules.questions.flatMap((q, i) => (q.either === undefined ? [i] : []));
    const evidence = fc.uniqueArray(
      fc.record({
        question: fc.constantFrom(...asked),
        answer: fc.nat(20),
        sure: fc.constantFrom(1, 0.8),
      }),
      { maxLength: 8, selector: ({ question }) => question },
    );
    fc.assert(
      fc.property(evidence, (told) => {
        const answers = told.map((e) => ({
          ...e,
          answer: e.answer % rules.questions[e.question]!.answers.length,
        }));
        const [a, b] = [here, there].map((model) => update(model, priorOf(model), answers));
        expect(a).toEqual(b);
      }),
      { numRuns: 25 },
    );
  }
});

const installed = existsSync(new URL('../../node_modules/assemblyscript', import.meta.url));
it.runIf(installed && process.env['EARSHOT_TESTS_FROM'] !== 'src')('is in the built program', () => {
  const inMemory = (): boolean => {
    const { numbers, counts } = workshop({ numbers: { a: 1 }, counts: { b: 1 } });
    return (numbers.a.buffer as object) === counts.b.buffer;
  };
  expect(inMemory()).toBe(true);
  expect(withoutSetsMachine(inMemory)).toBe(false);
});

it('lays its lists apart, each as long as it was asked for', () => {
  const { numbers, counts } = workshop({ numbers: { a: 3, b: 10_000 }, counts: { c: 5, d: 1 } });
  numbers.a.fill(1);
  numbers.b.fill(2);
  counts.c.fill(3);
  counts.d.fill(4);
  expect([...numbers.a]).toEqual([1, 1, 1]);
  expect(numbers.b).toEqual(new Float64Array(10_000).fill(2));
  expect([...counts.c, ...counts.d]).toEqual([3, 3, 3, 3, 3, 4]);
});
