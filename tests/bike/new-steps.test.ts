import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  emptyDraft,
  mostSteps,
  newSteps,
  nextStep,
  withValueAt,
  type Draft,
} from '../../src/bike/form/new-steps.ts';
import { readSheet } from '../../src/bike/form/read.ts';

it('never counts more steps while they are answered, whatever is answered', () => {
  fc.assert(
    fc.property(fc.array(fc.nat(8), { minLength: 60, maxLength: 60 }), fc.boolean(), (picks, all) => {
      let draft: Draft = emptyDraft();
      let passed = new Set<string>();
      let most = Infinity;
      for (const pick of picks) {
        const wanted = { all, passed };
        const step = nextStep(draft, wanted);
        if (step === undefined) return;
        const now = mostSteps(draft, wanted);
        expect(now).toBeLessThanOrEqual(most);
        expect(newSteps(draft, wanted).findIndex(({ path }) => path === step.path)).toBeLessThan(now);
        most = now;
        const values = step.choices?.map(({ value }) => value) ?? [1, undefined];
        const value = values[pick % values.length];
        if (value === undefined) passed = new Set([...passed, step.path]);
        else draft = withValueAt(draft, step.path, value);
      }
      expect(nextStep(draft, { all, passed })).toBeUndefined();
    }),
    { numRuns: 6 },
  );
});

it('takes a bike of which nobody knows the wheel travel', () => {
  const { sheet, problems } = readSheet({
    bike: 1,
    id: 'x',
    kind: 'trail',
    units: { pressure: 'psi' },
    front: { spring: { kind: 'air' } },
    rear: { spring: { kind: 'air' } },
  });
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(sheet?.ends.front.travel).toBe(0);
});
