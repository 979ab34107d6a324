import { describe, expect, it } from 'vitest';
import { physicsOf } from '../../src/advice/physics.ts';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { bikeFromSheet } from '../../src/physics/index.ts';
import { baseModel, baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const model = baseModel();

/** The note of the heavier coil at the rear. */
function noteAt(preload: number, perTurn?: number): string | undefined {
  const { sheet } = readSheet({
    bike: 1,
    id: 'sunk',
    kind: 'downhill',
    units: { pressure: 'bar', mass: 'kg', rate: 'lb/in', length: 'mm' },
    'rider-mass': 82,
    'bike-mass': 17,
    front: { travel: 200, spring: { kind: 'air', pressure: 5 } },
    rear: {
      travel: 200,
      stroke: 75,
      leverage: [2.667, 2.667, 2.667],
      spring: {
        kind: 'coil',
        rate: 400,
        preload,
        'preload-max': 3,
        ...(perTurn === undefined ? {} : { 'preload-per-turn': perTurn }),
      },
      sag: { measured: '41%', wanted: '32%' },
    },
  });
  const bench = prepareBike(model, sheet!, physicsOf(bikeFromSheet(sheet!), sheet!));
  const can = bench.possible[rules.adjustments.findIndex((a) => a.id === 'rear.spring.heavier-coil')]!;
  return can.can ? can.note : undefined;
}

describe('the rate of another coil', () => {
  it('is the one for the least preload, with the way back to that', () => {
    // By hand, a straight lever ratio: 400 x (0.41 x 75 + 3) = 540 x (0.32 x 75 + 1); sold in steps of 25 lb/in.
    expect(noteAt(3, 1)).toBe(
      'fit a coil of about 550 lb/in with 1 mm of preload; wind the collar back to that first (now 3 mm)',
    );
  });

  it('is the one for what is on where that is the least, or nobody knows how far a turn goes', () => {
    // 400 x (30.75 + 1) = 508 x 25, and 400 x (30.75 + 3) = 500 x 27.
    expect(noteAt(1, 1)).toBe(
      'fit a coil of about 500 lb/in; it holds with the 1 mm of preload that is on now',
    );
    expect(noteAt(3)).toBe('fit a coil of about 500 lb/in; it holds with the 3 mm of preload that is on now');
  });
});
