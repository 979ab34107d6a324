/** Orifice, parallel paths, polytropic gas and helical spring against published worked examples. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { damperForce, damperSlope, type DamperCircuit } from '../../src/physics/bike/damper.ts';
import { ATMOSPHERE, springForce, springStiffness } from '../../src/physics/bike/spring.ts';
import { polytropicPressure } from '../../src/physics/machine/loops/elastic.ts';

/** v/√F of a piston of area A before an orifice of area a: from F = ρA³v²/(2Cd²a²). */
function orifice(piston: number, area: number, discharge: number, density: number): DamperCircuit {
  return {
    orifice: (discharge * area * Math.SQRT2) / Math.sqrt(density * piston ** 3),
    stack: 0,
    preload: 0,
  };
}

/** Shaft speed that makes a force ≥ 0: orifice and stack side by side, as the head of the damper has it. */
function damperSpeed(c: DamperCircuit, force: number): number {
  return Math.sqrt(force) * (c.orifice + c.stack * Math.max(0, force - c.preload));
}

describe('a turbulent orifice', () => {
  it.each([
    [3e-3, 3e6, 850, 4.1572e-4],
    [0.5e-3, 5e6, 870, 1.47356e-5],
  ])('of %f m under %f Pa passes its flow (course problems, recomputed)', (bore, drop, density, flow) => {
    const piston = 3e-4;
    const circuit = orifice(piston, (Math.PI * bore ** 2) / 4, 0.7, density);
    expect(damperForce(circuit, flow / piston) / (drop * piston)).toBeCloseTo(1, 4);
  });

  it('damps 9.47755 N at 0.1 m/s and a hundred times that at 1 m/s (constructed, recomputed)', () => {
    const circuit = orifice(3e-4, 5e-6, 0.7, 860);
    expect(damperForce(circuit, 0.1)).toBeCloseTo(9.47755, 5);
    expect(damperForce(circuit, 1)).toBeCloseTo(947.755, 3);
    expect(damperForce(circuit, 2) / damperForce(circuit, 1)).toBeCloseTo(4, 12);
  });
});

/** Coefficients of any damper a bike could have, and speeds of any shaft. */
const circuits = fc.record({
  orifice: fc.double({ min: 1e-3, max: 0.2, noNaN: true }),
  stack: fc.double({ min: 1e-7, max: 1e-3, noNaN: true }),
  preload: fc.constantFrom(0, 20, 150),
});
const unpreloaded = circuits.map((c) => ({ ...c, preload: 0 }));
const speeds = fc.double({ min: 1e-4, max: 10, noNaN: true });

/**
 * Statements any two paths in parallel must obey (general form as in Dixon, The Shock Absorber Handbook, 2007, ch. 5-7,
 * from memory).
 */
describe('an orifice and a preloaded stack in parallel', () => {
  it('is the orifice alone below the opening force, exactly', () => {
    fc.assert(
      fc.property(circuits, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (c, share) => {
        const preload = Math.max(1, c.preload);
        const speed = share * c.orifice * Math.sqrt(preload);
        expect(damperForce({ ...c, preload }, speed) / (speed / c.orifice) ** 2).toBeCloseTo(1, 12);
      }),
    );
  });

  it('breaks its slope at the opening force: the open stack makes it flatter at once', () => {
    const c = { orifice: 0.01, stack: 1e-4, preload: 100 };
    const opens = 0.01 * 10;
    const chord = (from: number, to: number): number =>
      (damperForce(c, to) - damperForce(c, from)) / (to - from);
    // Just below: 2σ/α = 2000 N·s/m; just above: 2σ/(α + 2γσ²) = 20/(0.01 + 0.02).
    expect(chord(opens - 1e-6, opens)).toBeCloseTo(2000, 0);
    expect(chord(opens, opens + 1e-6)).toBeCloseTo(20 / 0.03, 0);
  });

  it('is the orifice alone at slow speeds, with no preload at all', () => {
    fc.assert(
      fc.property(unpreloaded, (c) => {
        const slow = 1e-3 * c.orifice * Math.sqrt(c.orifice / c.stack);
        expect(damperForce(c, slow) / (slow / c.orifice) ** 2).toBeCloseTo(1, 4);
      }),
    );
  });

  it('has a slope that is the derivative of its force', () => {
    fc.assert(
      fc.property(circuits, speeds, (c, v) => {
        const h = v * 1e-4;
        fc.pre(Math.abs(damperForce(c, v) / Math.max(1e-9, c.preload) - 1) > 1e-2);
        const chord = (damperForce(c, v + h) - damperForce(c, v - h)) / (2 * h);
        expect(chord / damperSlope(c, v)).toBeCloseTo(1, 4);
      }),
    );
  });

  it('with the orifice closed further damps more when slow, and opens its stack at a lower speed', () => {
    // The stack opens where orifice·√preload passes; with no preload it carries half where orifice·σ = stack·σ³.
    const handsOver = (c: DamperCircuit): number =>
      c.preload > 0 ? damperSpeed(c, c.preload) : damperSpeed(c, c.orifice / c.stack);
    fc.assert(
      fc.property(circuits, speeds, (c, v) => {
        const closed = { ...c, orifice: c.orifice / 1.3 };
        expect(damperForce(closed, v)).toBeGreaterThan(damperForce(c, v));
        expect(handsOver(closed)).toBeLessThan(handsOver(c));
      }),
    );
  });

  it('well beyond the hand-over feels the stack more than the orifice, well below the orifice more', () => {
    const share = (c: DamperCircuit, v: number, field: 'orifice' | 'stack'): number =>
      Math.log(damperForce({ ...c, [field]: c[field] / 1.07 }, v) / damperForce(c, v));
    fc.assert(
      fc.property(unpreloaded, (c) => {
        const corner = damperSpeed(c, c.orifice / c.stack);
        expect(share(c, 10 * corner, 'stack')).toBeGreaterThan(share(c, 10 * corner, 'orifice'));
        expect(share(c, corner / 10, 'orifice')).toBeGreaterThan(share(c, corner / 10, 'stack'));
      }),
    );
  });

  it('rises with speed, takes energy in both directions, and is undone by its own inverse', () => {
    fc.assert(
      fc.property(circuits, speeds, (c, v) => {
        expect(damperForce(c, v * 1.01)).toBeGreaterThan(damperForce(c, v));
        expect(damperForce(c, -v) * -v).toBeGreaterThan(0);
        expect(damperSpeed(c, damperForce(c, v)) / v).toBeCloseTo(1, 10);
      }),
    );
  });

  it('grows as the square of the speed at the slow end and as its 2/3 power at the fast end', () => {
    const c = { orifice: 0.02, stack: 1e-5, preload: 30 };
    const power = (v: number): number => Math.log(damperForce(c, 2 * v) / damperForce(c, v)) / Math.LN2;
    expect(power(1e-4)).toBeCloseTo(2, 3);
    expect(power(1e8)).toBeCloseTo(2 / 3, 3);
  });
});

describe('a gas pressed together', () => {
  it('follows OpenStax, University Physics vol. 2, example 3.7: 1.23e6 Pa, 600 K, −63 J', () => {
    const after = polytropicPressure(1e5, 240 / 40, 1.4);
    expect(after).toBeCloseTo(1.2286035e6, -1);
    // T2 = T1·p2·V2/(p1·V1), with the example's 20 °C as 293 K.
    expect((293 * after * 40) / (1e5 * 240)).toBeCloseTo(599.968, 0);
    // The work is the area under the curve, here by the midpoint rule.
    let work = 0;
    const piece = 200e-6 / 10_000;
    for (let v = 40e-6 + piece / 2; v < 240e-6; v += piece)
      work -= polytropicPressure(1e5, 240e-6 / v, 1.4) * piece;
    expect(work).toBeCloseTo(-62.86, 2);
  });

  const chamber = (exponent: number, negativeArea = 0) =>
    ({
      kind: 'air',
      pressure: 6e5,
      area: 8e-4,
      negativeArea,
      volume: 2.4e-4,
      spacerVolume: 1e-5,
      spacers: 1,
      spacersMax: 3,
      negativeVolume: 2e-5,
      portTravel: 0.004,
      exponent,
    }) as const;

  it('is n·p·A²/V stiff, so n times as stiff when quick as when slow', () => {
    const stiffness = (n: number): number => {
      const volume = 2.3e-4;
      return (n * (6e5 + ATMOSPHERE) * 8e-4 ** 2) / volume;
    };
    for (const n of [1, 1.3, 1.4]) expect(springStiffness(chamber(n), 0)).toBeCloseTo(stiffness(n), 6);
    expect(springStiffness(chamber(1.4), 0) / springStiffness(chamber(1), 0)).toBeCloseTo(1.4, 12);
  });

  it('pushes by gauge pressure and is compressed by absolute pressure', () => {
    expect(springForce(chamber(1.3), 0)).toBeCloseTo(6e5 * 8e-4, 8);
    const half = (2.3e-4 / 2 / 8e-4) as number;
    // Standing there it is isothermal whatever its exponent: half the volume, twice the absolute pressure, less one
    // atmosphere.
    for (const n of [1, 1.3])
      expect(springForce(chamber(n), half)).toBeCloseTo((2 * (6e5 + ATMOSPHERE) - ATMOSPHERE) * 8e-4, 6);
    // Pressed there at once from full extension it is 2ⁿ times.
    expect(springForce(chamber(1.3), half, 0)).toBeCloseTo(
      (2 ** 1.3 * (6e5 + ATMOSPHERE) - ATMOSPHERE) * 8e-4,
      6,
    );
  });

  it('pressed in at once pushes harder than in time, let out at once less, and the same where it rests', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.13, noNaN: true }),
        fc.double({ min: 0.002, max: 0.015, noNaN: true }),
        (rest, by) => {
          const s = chamber(1.3, 7.6e-4);
          expect(springForce(s, rest + by, rest)).toBeGreaterThan(springForce(s, rest + by));
          expect(springForce(s, rest - by, rest)).toBeLessThan(springForce(s, rest - by));
          expect(springForce(s, rest, rest)).toBeCloseTo(springForce(s, rest), 9);
        },
      ),
    );
  });

  it('has a stiffness that is the slope of its force in quick movements, negative chamber and all', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.15, noNaN: true }),
        fc.double({ min: 0.01, max: 0.1, noNaN: true }),
        (x, rest) => {
          const s = chamber(1.3, 7.6e-4);
          const chord = (springForce(s, x + 1e-6, rest) - springForce(s, x - 1e-6, rest)) / 2e-6;
          expect(chord / springStiffness(s, x, rest)).toBeCloseTo(1, 5);
        },
      ),
    );
  });
});
