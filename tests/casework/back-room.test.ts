/** The way back of what was tried never goes past a limit of the sheet, and not unread where its gauge is to be read first. */
import { describe, expect, it } from 'vitest';
import { physicsOf } from '../../src/advice/physics.ts';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import type { Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { bikeFromSheet } from '../../src/physics/index.ts';
import { firstOf, type Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { CANNOT_TELL } from '../../src/rulebase/compiled.ts';
import { withValue } from '../bike/example.ts';
import { caseOf, model, SOUND } from '../support/told.ts';

/** The example bike with a rear air spring of this pressure, whose sag nobody measured. */
function rearAt(pressure: number): PreparedBike {
  const spring = { kind: 'air', pressure: `${pressure} psi`, min: '100 psi', max: '300 psi' };
  const data = withValue('rear.spring', spring) as Record<string, Record<string, unknown>>;
  delete data['rear']!['sag'];
  const { sheet, problems } = readSheet(data);
  expect(problems).toEqual([]);
  return prepareBike(model, sheet!, physicsOf(bikeFromSheet(sheet!), sheet!));
}

const ROWS = {
  complaint: 'rows',
  'return-speed@front': 'deep',
  'repeated-hits.trend@front': 'worse',
};
const LESS: Tried = {
  setting: 'rear.spring',
  direction: 'less',
  by: 10,
  unit: 'psi',
  result: 'same',
  putBack: 'no',
};

function told(bench: PreparedBike, tried: Tried, answers: Readonly<Record<string, string>> = ROWS): Result {
  const kase = caseOf({ ...SOUND, ...answers }, { tried: [tried] });
  return toResult(model, kase, consult(model, bench, kase, { next: false, explain: 3, fit: false }));
}

describe('what was tried in vain, before another step', () => {
  it('goes back as far as the spring may be pumped up, with that limit', () => {
    const first = firstOf(told(rearAt(295), LESS))!;
    expect(first.id).not.toMatch(/put-back/);
    expect(first.before!.do).toMatch(/rear spring, 5 psi more \(295 → 300 psi; only this much range is left/);
    expect(first.before!.do).toMatch(/\. Never pump it above 300 psi, .*\(now 295 psi\)\. Then measure sag/);
  });

  it('goes back as far as the spring may be let down, and no limit is told that is far', () => {
    const first = firstOf(told(rearAt(105), { ...LESS, direction: 'more' }))!;
    expect(first.before!.do).toMatch(/rear spring, 5 psi less \(105 → 100 psi; only this much range is left/);
    expect(first.before!.do).not.toContain('pump it above');
  });

  it('goes back whole where there is room, and says how that is undone', () => {
    const first = firstOf(told(rearAt(200), LESS))!;
    expect(first.before!.do).toContain('rear spring, 10 psi more (200 → 210 psi). Then measure sag');
    expect(first.wayBack).toMatch(/\. What was put back: make the change again/);
  });

  it.each([
    ['counted', LESS],
    ['not counted', { ...LESS, by: undefined, unit: undefined } as unknown as Tried],
  ])('is left out where there is no room at all: %s', (_, tried) => {
    for (const pressure of [300, 299.8]) expect(firstOf(told(rearAt(pressure), tried))!.before).toBeNull();
  });

  it('waits for its gauge where it was more than a step, but not for who cannot read it', () => {
    const far = { ...LESS, by: 40 };
    const result = told(rearAt(200), far);
    expect(result).toMatchObject({ first: 'rear.sag.measure', because: 'measure-first' });
    expect(result.insteadOf?.id).toBe('tried.put-back');
    const blind = firstOf(told(rearAt(200), far, { ...ROWS, 'sag@rear': CANNOT_TELL }))!;
    expect(blind.before!.do).toContain('40 psi more (200 → 240 psi)');
  });
});

it('is not put back first either where it made it worse and there is no room', () => {
  const worse = { ...LESS, result: 'worse' } as const;
  expect(firstOf(told(rearAt(250), worse, {}))).toMatchObject({ id: 'put-back', by: 10, to: 260 });
  const full = told(rearAt(300), worse, {});
  expect(full.because).not.toBe('put-back');
  expect(full.adjustments.map(({ id }) => id)).not.toContain('put-back');
});

it('has the limit said where it goes back alone', () => {
  const first = firstOf(told(rearAt(290), { ...LESS, result: 'worse' }, {}))!;
  expect(first).toMatchObject({ id: 'put-back', from: 290, to: 300 });
  expect(first.note).toContain('never pump it above 300 psi');
});
