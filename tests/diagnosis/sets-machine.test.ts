/** The loops over all sets in machine code and the same loops in TypeScript give the same bits. */
import fc from 'fast-check';
import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { strengthShifts } from '../../src/casework/what-if/strength-shift.ts';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { hangingOn } from '../../src/diagnosis/fast/hanging.ts';
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

it('moves one strength alike, however several signs are answered', () => {
  const model = buildModel(rules);
  const said = rules.questions.flatMap((q, question) =>
    q.either === undefined &&
    q.links.length > 0 &&
    model.groups[model.groupOf[question]!]!.joint === undefined
      ? [{ question, how: q.several }]
      : [],
  );
  const kinds = new Set(said.map(({ how }) => (typeof how === 'number' ? 'one' : how)));
  expect([...kinds].sort()).toEqual(['any', 'cancel', 'one']);
  const weights = new Float64Array(model.space.size).map((_, h) => 1 / (h + 1));
  for (const { question } of [...new Map(said.map((one) => [one.how, one])).values()]) {
    const { answers } = rules.questions[question]!;
    const group = model.groups[model.groupOf[question]!]!;
    for (let answer = 0; answer < answers.length; answer++) {
      const parts = (): readonly Float64Array[] =>
        hangingOn(group.classes, rules.questions[question]!, answer);
      const shares = parts();
      expect(shares).toEqual(withoutSetsMachine(parts));
      const shifts = () => {
        const shift = strengthShifts(model.space, weights);
        return [-1, 0, 3].flatMap((cause) => shares.map((share) => shift(share, group.classOf(), cause)));
      };
      expect(shifts()).toEqual(withoutSetsMachine(shifts));
    }
  }
});
