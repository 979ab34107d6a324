import { describe, expect, it } from 'vitest';
import { applyChanges } from '../../src/bike/apply.ts';
import { parseChange } from '../../src/bike/change.ts';
import { movedBetween, NOT_READ, standsOf, withStands, type Stand } from '../../src/bike/setting-values.ts';
import { writeSheet } from '../../src/bike/form/write.ts';
import { EXAMPLES, exampleData, exampleSheet } from './example.ts';

const after = (name: (typeof EXAMPLES)[number], change: string) =>
  applyChanges(exampleSheet(name), parseChange(change).changes).sheet!;

/** The value of a setting that stands in this unit. */
function stood(stands: readonly Stand[], setting: string, unit?: string): unknown {
  return stands.find((stand) => stand.setting === setting && stand.unit === unit)?.value ?? `no ${setting}`;
}

describe('every current setting', () => {
  it('is told in the units of the sheet, a coil in two settings', () => {
    const stands = standsOf(exampleSheet('coil'));
    const { front, rear } = exampleData('coil') as Record<'front' | 'rear', { spring: object; sag: object }>;
    expect({ ...rear.spring, ...rear.sag }).toMatchObject({
      rate: stood(stands, 'rear.spring.rate', 'lb/in'),
      preload: stood(stands, 'rear.spring.preload', 'mm'),
      measured: stood(stands, 'rear.sag.measured'),
    });
    expect(front.spring).toMatchObject({ pressure: stood(stands, 'front.spring', 'bar') });
  });

  it.each(EXAMPLES)('can be put back whole: %s', (name) => {
    const sheet = exampleSheet(name);
    const back = withStands(sheet, standsOf(sheet));
    expect(back.refused).toEqual([]);
    expect(writeSheet(back.sheet)).toEqual(writeSheet(sheet));
  });
});

describe('a change', () => {
  it.each([
    ['all-knobs', 'front.rebound.low+2,rear.spring-5psi,front.tyre+1psi,bars+5mm,rear.ramp-up+1'],
    ['coil', 'rear.spring+1turns,rear.compression.high-1'],
    ['coil', 'rear.spring+25lb/in'],
  ] as const)('of %s is taken back with the readings it made untrue: %s', (name, change) => {
    const before = exampleSheet(name);
    const then = after(name, change);
    const moved = movedBetween(before, then);
    const back = moved.map(({ from, to: _, ...rest }) => ({ ...rest, value: from! }));
    expect(writeSheet(withStands(then, back).sheet)).toEqual(writeSheet(before));
  });

  it('says which readings it made untrue', () => {
    const moved = movedBetween(exampleSheet('all-knobs'), after('all-knobs', 'rear.spring-5psi'));
    expect(moved).toContainEqual({ setting: 'rear.sag.measured', from: '30%', to: NOT_READ });
  });
});

describe('what is on no bike sheet', () => {
  it.each([
    [{ setting: 'rear.tyre-name', value: 'another' }],
    [{ setting: 'front.rebound.low', value: 99, unit: 'clicks' }],
    [{ setting: 'front.spring.rate', value: 9, unit: 'N/mm' }],
  ])('is refused, and the sheet stays: %o', (stand) => {
    const sheet = exampleSheet('all-knobs');
    const { refused, sheet: same } = withStands(sheet, [stand]);
    expect(refused).toMatchObject([{ setting: stand.setting }]);
    expect(same).toEqual(sheet);
  });
});

it('of what is set to where it stands already no reading becomes untrue, and of anything else it does', () => {
  const sheet = exampleSheet('all-knobs');
  const now = standsOf(sheet).find(({ setting }) => setting === 'rear.spring')!.value as number;
  const at = (value: number) =>
    withStands(sheet, [{ setting: 'rear.spring', value, unit: 'psi' }]).sheet.ends.rear;
  expect(sheet.ends.rear.sagMeasured).toBeDefined();
  expect(at(now).sagMeasured).toBe(sheet.ends.rear.sagMeasured);
  expect(at(now - 5).sagMeasured).toBeUndefined();
});
