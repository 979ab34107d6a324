import { describe, expect, it } from 'vitest';
import type { BikeSheet, CurvePoint } from '../../src/bike/sheet.ts';
import { damperForce, turned } from '../../src/physics/bike/damper.ts';
import { defaultSheet } from '../../src/physics/usual-bikes.ts';
import { fitCircuit, fitDampers } from '../../src/physics/fit.ts';
import { bikeFromSheet } from '../../src/physics/bike/from-sheet.ts';
import { seeded } from '../../src/physics/ride/roads.ts';

const TRUE = { orifice: 0.012, stack: 2.2e-5, preload: 0 };
const RATIO = { low: 1.08, high: 1.15 };

/** Invented measurements of a damper that is known. */
function measured(noise: number, settings: readonly (readonly [number, number])[]): CurvePoint[] {
  const random = seeded(42);
  return settings.flatMap(([low, high]) =>
    [0.03, 0.07, 0.15, 0.3, 0.6, 1.2, 2].map((speed) => ({
      circuit: 'rebound' as const,
      speed,
      low,
      high,
      force:
        damperForce(turned(TRUE, RATIO.low ** low, RATIO.high ** high), speed) *
        (1 + noise * (2 * random() - 1)),
    })),
  );
}

const free = { ratio: 1.07, fixed: false };

describe('a fit to a measured curve', () => {
  it('finds the damper that made it, and what a click is worth', async () => {
    const fit = (await fitCircuit(
      measured(0, [
        [4, 4],
        [10, 4],
        [4, 8],
      ]),
      free,
      free,
    ))!;
    expect(fit.circuit.orifice / TRUE.orifice).toBeCloseTo(1, 4);
    expect(fit.circuit.stack / TRUE.stack).toBeCloseTo(1, 4);
    expect(fit.low).toMatchObject({ fitted: true });
    expect(fit.low.ratio).toBeCloseTo(RATIO.low, 5);
    expect(fit.high.ratio).toBeCloseTo(RATIO.high, 5);
    expect(fit.rms).toBeLessThan(1e-4);
  });

  it('comes close with measurements 5 % off, and reports every residual', async () => {
    const points = measured(0.05, [
      [4, 4],
      [10, 4],
      [4, 8],
    ]);
    const fit = (await fitCircuit(points, free, free))!;
    expect(fit.residuals.map((r) => r.point)).toEqual(points);
    expect(Math.abs(fit.low.ratio - RATIO.low)).toBeLessThan(0.02);
    expect(Math.abs(fit.high.ratio - RATIO.high)).toBeLessThan(0.02);
    expect(fit.rms).toBeGreaterThan(0.005);
    expect(fit.rms).toBeLessThan(0.05);
    for (const r of fit.residuals) expect(r.relative).toBeCloseTo(r.force / r.point.force - 1, 12);
  });

  it('measured at one setting keeps the ratios it was given', async () => {
    const fit = (await fitCircuit(
      measured(0, [[6, 3]]),
      { ratio: 1.08, fixed: false },
      { ratio: 1.15, fixed: true },
    ))!;
    expect(fit.low).toEqual({ ratio: 1.08, fitted: false });
    expect(fit.circuit.orifice / TRUE.orifice).toBeCloseTo(1, 4);
    expect(fit.circuit.stack / TRUE.stack).toBeCloseTo(1, 4);
  });

  it('needs two points', async () => {
    expect(await fitCircuit(measured(0, [[6, 3]]).slice(0, 1), free, free)).toBeUndefined();
  });
});

describe('a bike sheet with a measured curve', () => {
  const sheet = defaultSheet('enduro');
  const curve = measured(0, [
    [4, 4],
    [10, 4],
    [4, 8],
  ]);
  const given: BikeSheet = {
    ...sheet,
    ends: {
      ...sheet.ends,
      front: {
        ...sheet.ends.front,
        curve,
        adjusters: { 'rebound.low': { range: 16, now: 10 }, 'rebound.high': { range: 8, now: 4 } },
      },
    },
  };

  it('damps what was measured at the clicks it stands at', async () => {
    const bike = bikeFromSheet(given, await fitDampers(given));
    for (const point of curve.filter((p) => p.low === 10 && p.high === 4))
      expect(damperForce(bike.ends.front.rebound, point.speed) / point.force).toBeCloseTo(1, 3);
    expect(bike.ends.front.knobs['rebound.low']!.ratio).toBeCloseTo(RATIO.low, 5);
  });

  it('leaves what was not measured as it is', async () => {
    const bike = bikeFromSheet(given, await fitDampers(given));
    const plain = bikeFromSheet(given);
    expect(bike.ends.front.compression).toEqual(plain.ends.front.compression);
    expect(bike.ends.rear).toEqual(plain.ends.rear);
  });
});
