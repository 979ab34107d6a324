/** The loops over all sets in machine code and the same loops in TypeScript give the same bits. */
import { existsSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priorOf, update, type Belief, type Evidence } from '../../src/diagnosis/belief.ts';
import { further } from '../../src/diagnosis/fast/further.ts';
import { withoutSetMachine } from '../../src/diagnosis/machine/set-machine.ts';
import { buildModel, type Model } from '../../src/diagnosis/model.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const quick = buildModel(rules);
const plain = withoutSetMachine(() => buildModel(rules));
const installed = existsSync(new URL('../../node_modules/assemblyscript', import.meta.url));

it.runIf(installed && process.env['EARSHOT_TESTS_FROM'] !== 'src')(
  'are in the built program, where its compiler is installed',
  () => {
    expect(quick.sets.code).toBeDefined();
    expect(plain.sets.code).toBeUndefined();
  },
);

const answer: fc.Arbitrary<Evidence> = fc
  .record({ question: fc.nat(rules.questions.length - 1), pick: fc.nat(50), sure: fc.constantFrom(1, 0.7) })
  .map(({ question, pick, sure }) => ({
    question,
    answer: pick % rules.questions[question]!.answers.length,
    sure,
  }));
const told = fc.uniqueArray(answer, { selector: (e) => e.question, minLength: 1, maxLength: 12 });
const room = (model: Model) => ({
  weights: new Float64Array(model.space.size),
  causes: new Float64Array(model.space.causes),
});

describe.runIf(quick.sets.code !== undefined)('in machine code as in TypeScript', () => {
  it('what is believed after answers', () => {
    fc.assert(
      fc.property(told, (evidence) => {
        const of = (model: Model): Belief => update(model, priorOf(model), evidence);
        expect(of(quick)).toEqual(of(plain));
      }),
      { numRuns: 40 },
    );
  });

  it('what is believed after one answer more', () => {
    fc.assert(
      fc.property(told, answer, (was, more) => {
        const now = [...was.filter((e) => e.question !== more.question), more];
        const of = (model: Model): Belief | undefined =>
          further(model, update(model, priorOf(model), was), { was, now }, room(model));
        expect(of(quick)).toEqual(of(plain));
      }),
      { numRuns: 40 },
    );
  });
});
