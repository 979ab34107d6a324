/** The loops over all sets in machine code and the same loops in TypeScript give the same bits. */
import fc from 'fast-check';
import { bytes } from '../../src/diagnosis/fast/bytes.ts';
import { programOf } from '../../src/physics/machine/engine.ts';
import { compiledMachine, plainMachine } from '../../src/physics/machine/lists.ts';
import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { strengthShifts } from '../../src/casework/what-if/strength-shift.ts';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { hangingOn } from '../../src/diagnosis/fast/hanging.ts';
import { withoutSetsMachine, workshop } from '../../src/diagnosis/fast/sets-machine.ts';
import { posteriorOf } from '../../src/diagnosis/fast/class-marginals.ts';
import { fitOf } from '../../src/diagnosis/fit.ts';
import { gains } from '../../src/diagnosis/inquiry.ts';
import { buildModel, type Model } from '../../src/diagnosis/model.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();

it('weighs every set alike, whatever was answered, with one, two or three causes at once', () => {
  for (const most of [1, 2, 3]) {
    const own = { ...rules, numbers: { ...rules.numbers, 'causes-at-once': most } };
    const here = buildModel(own);
    const there = buildModel(own);
    // The working space is made when it is first asked for.
    withoutSetsMachine(() => [there.weigh, there.containing]);
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
        const worked = (model: Model) => {
          const belief = update(model, priorOf(model), answers);
          const posterior = posteriorOf(model, belief);
          return {
            belief,
            containing: posterior.containing,
            open: gains(model, posterior, answers, asked.slice(0, 40)),
            fit: fitOf(model, posterior, answers, rules.numbers.fit),
          };
        };
        expect(worked(here)).toEqual(withoutSetsMachine(() => worked(there)));
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
        const shift = strengthShifts(model, weights);
        return [-1, 0, 3].flatMap((cause) => shares.map((share) => shift(share, group.classOf(), cause)));
      };
      expect(shifts()).toEqual(withoutSetsMachine(shifts));
    }
  }
});

it('copies what is settled twice for good, and leaves it where it is whatever is placed', () => {
  // One of its own: that of the program may be full of what other tests settled.
  const own = programOf<object>(bytes)?.();
  const { place, settle, read } = own === undefined ? plainMachine({}) : compiledMachine(own);
  const [kept, counts, once] = [Float64Array.of(1, 2, 3), Int32Array.of(4, 5, 6), Float64Array.of(9)];
  for (const list of [kept, counts, kept, counts, once]) settle(list);
  const first = place([kept, counts, once, Float64Array.of(7)], 2);
  expect([...read(first[0], 3), ...read(first[2], 1), ...read(first[3], 1)]).toEqual([1, 2, 3, 9, 7]);
  const again = place([new Float64Array(10_000).fill(8), kept, counts, once], 1);
  expect([...read(again[1], 2, 1), ...read(again[0], 1, 9_999)]).toEqual([2, 3, 8]);
  // Without machine code a list stands for itself, and has no place.
  if (own === undefined) return;
  expect([again[1], again[2]]).toEqual([first[0], first[1]]);
  expect(again[3]).not.toBe(first[2]);
});
