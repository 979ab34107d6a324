import { describe, expect, it } from 'vitest';
import { ENDS } from '../../src/bike/sheet.ts';
import { damperForce } from '../../src/physics/bike/damper.ts';
import { defaultBike } from '../../src/physics/bike/from-sheet.ts';
import { makeGround, measure } from '../../src/physics/metrics/measure.ts';
import {
  atTemperature,
  dischargeCoefficient,
  orificeFactor,
  REFERENCE_CELSIUS,
  viscosity,
} from '../../src/physics/temperature.ts';

const bike = defaultBike('enduro');

describe('oil', () => {
  it('has the two viscosities it is drawn through, and thins all the way', () => {
    expect(viscosity(40)).toBeCloseTo(15, 9);
    expect(viscosity(100)).toBeCloseTo(4.2, 9);
    for (let c = -20; c < 100; c += 5) expect(viscosity(c + 5)).toBeLessThan(viscosity(c));
  });

  it('changes nothing at the reference temperature', () => {
    expect(orificeFactor(REFERENCE_CELSIUS)).toBe(1);
    expect(atTemperature(bike, REFERENCE_CELSIUS)).toEqual(bike);
  });

  it('passes a short tube better the faster it flows, up to the turbulent limit', () => {
    expect(dischargeCoefficient(1000)).toBeGreaterThan(dischargeCoefficient(100));
    expect(dischargeCoefficient(1e9)).toBeCloseTo(0.827 - 0.0085 * 3, 6);
  });
});

describe('a cold bike', () => {
  const cold = atTemperature(bike, 0);
  const hot = atTemperature(bike, 55);

  it('damps more, most of all at slow speeds; a hot one less', () => {
    const more = (v: number): number =>
      damperForce(cold.ends.rear.rebound, v) / damperForce(bike.ends.rear.rebound, v);
    expect(more(0.05)).toBeGreaterThan(1.2);
    expect(more(0.05)).toBeGreaterThan(more(1));
    expect(more(1)).toBeGreaterThan(1);
    expect(damperForce(hot.ends.rear.rebound, 0.05)).toBeLessThan(damperForce(bike.ends.rear.rebound, 0.05));
  });

  it.each(ENDS)('damps slow movements of the %s more, both ways', (end) => {
    for (const way of ['compression', 'rebound'] as const)
      expect(damperForce(cold.ends[end][way], 0.05)).toBeGreaterThan(
        1.1 * damperForce(bike.ends[end][way], 0.05),
      );
  });

  it('comes back more slowly from a berm than a hot one', () => {
    const ground = makeGround(bike);
    const back = (b: typeof bike): number => measure(b, ground, ['berm']).get('berm/time-to-recover.rear')!;
    expect(back(cold)).toBeGreaterThan(back(bike));
    expect(back(hot)).toBeLessThan(back(bike));
  });
});
