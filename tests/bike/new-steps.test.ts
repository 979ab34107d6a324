import fc from 'fast-check';
import { expect, it } from 'vitest';
import { emptyDraft, withValueAt, type Draft } from '../../src/bike/form/draft.ts';
import { newSteps } from '../../src/bike/form/new-steps.ts';
import { mostOpen, nextStep } from '../../src/bike/form/open-steps.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { baseRules } from '../support/base-rules.ts';

it('counts one open step fewer with each that is answered, or fewer still, whatever is answered', () => {
  fc.assert(
    fc.property(
      fc.array(fc.nat(8), { minLength: 60, maxLength: 60 }),
      fc.constantFrom({}, { all: true }, { first: true }),
      (picks, kind) => {
        let draft: Draft = emptyDraft();
        let passed = new Set<string>();
        let most = Infinity;
        for (const pick of picks) {
          const wanted = { ...kind, passed };
          const step = nextStep(draft, wanted);
          if (step === undefined) return;
          const now = mostOpen(draft, wanted);
          expect(now).toBeLessThan(most);
          expect(now).toBeGreaterThan(0);
          most = now;
          const values = step.choices?.map(({ value }) => value) ?? [1, undefined];
          const value = values[pick % values.length];
          if (value === undefined) passed = new Set([...passed, step.path]);
          else draft = withValueAt(draft, step.path, value);
        }
        expect(nextStep(draft, { ...kind, passed })).toBeUndefined();
      },
    ),
    { numRuns: 6 },
  );
});

it('needs six answers before the first change of a bike with one rebound knob an end', () => {
  const knob = { low: { clicks: 'unknown' }, high: 'none' };
  const none = { low: 'none', high: 'none' };
  const draft = {
    bike: 1,
    id: 'x',
    kind: 'trail',
    front: { rebound: knob, compression: none },
    rear: { rebound: knob, compression: none },
  };
  const asked = (wanted: object): string[] =>
    newSteps(draft, wanted)
      .map(({ path }) => path)
      .filter((path) => !/^(?:id|kind)$|\.(?:rebound|compression)$/.test(path));
  expect(asked({ first: true })).toEqual([
    ...['front.spring.kind', 'front.rebound.low.now', 'front.rebound.low.clicks'],
    ...['rear.spring.kind', 'rear.rebound.low.now', 'rear.rebound.low.clicks'],
  ]);
  expect(asked({ first: true, count: ['rear.rebound.low'] })).toEqual([
    ...['front.spring.kind', 'rear.spring.kind', 'rear.rebound.low.now', 'rear.rebound.low.clicks'],
  ]);
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

it('asks in sentences of the built-in pack, which has one for every step and none for nothing', () => {
  const { sheetAsks: asks } = baseRules().rules;
  const knob = { low: { clicks: 'unknown' }, high: { clicks: 'unknown' } };
  const end = (spring: string): Draft => ({ spring: { kind: spring }, rebound: knob, compression: knob });
  const draft = { front: end('air'), rear: end('coil') };
  const passed = new Set(['front.rebound.low.now']);
  const used = new Set<string>();
  const spied = new Proxy(asks, { get: (all, key: string) => (used.add(key), all[key]) });
  const steps = newSteps(draft, { all: true, passed, asks: spied });
  expect([...used].toSorted()).toEqual(Object.keys(asks).toSorted());
  for (const { path, ask } of steps) {
    expect(ask).toMatch(/^[A-Z][^{}]*$/);
    expect([path, ask]).not.toEqual([
      path,
      expect.stringMatching(new RegExp(`^${path.replaceAll('.', ' ')}$`, 'i')),
    ]);
  }
  expect(steps.find(({ path }) => path === 'rear.sag.measured')!.help).toContain("shock's stroke");
  expect(steps.find(({ path }) => path === 'front.rebound.low.near')!.ask).toBe(
    'Front low-speed rebound: roughly where?',
  );
});

it('asks by the place alone where a pack has no sentence', () => {
  expect(newSteps({}).find(({ path }) => path === 'front.spring.kind')!.ask).toBe('Front spring kind');
});
