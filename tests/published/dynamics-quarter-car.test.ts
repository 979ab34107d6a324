/** A body and a wheel: published quarter-cars against the model with two equal ends. */
import { EigenvalueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { makeDrive } from '../../src/physics/ride/drive.ts';
import { simulate } from '../../src/physics/ride/simulate.ts';
import { linearised, quarterCar } from '../support/linear-bike.ts';

describe('Barton & Fieldhouse, Automotive Chassis Engineering, 2018, pp. 209-213', () => {
  const matrix = linearised(quarterCar(317.5, { spring: 22_000, tyre: 192_000, unsprung: 45.4 })).subMatrix(
    4,
    7,
    0,
    3,
  );
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(matrix);
  const heave = realEigenvalues
    .map((value, i) => ({
      frequency: Math.sqrt(-value),
      pitch: Math.abs(eigenvectorMatrix.get(1, i) / eigenvectorMatrix.get(2, i)),
      ratio: eigenvectorMatrix.get(2, i) / eigenvectorMatrix.get(0, i),
      body: Math.abs(eigenvectorMatrix.get(0, i)),
    }))
    .filter((mode) => mode.body > 1e-6)
    .sort((a, b) => a.frequency - b.frequency);

  it('moves at 7.87 and 68.73 rad/s (the book rounds a coefficient: 0.03 rad/s)', () => {
    expect(heave).toHaveLength(2);
    expect(Math.abs(heave[0]!.frequency - 7.87)).toBeLessThan(0.03);
    expect(Math.abs(heave[1]!.frequency - 68.73)).toBeLessThan(0.03);
    expect(heave[0]!.frequency).toBeCloseTo(7.878634, 4);
    expect(heave[1]!.frequency).toBeCloseTo(68.708623, 3);
  });

  it('moves its wheel 0.104 of its body in the slow mode', () => {
    expect(heave[0]!.ratio).toBeCloseTo(0.1041756, 5);
    expect(heave[1]!.ratio / -67.1308).toBeCloseTo(1, 3);
  });
});

describe('an active-suspension example of a control toolbox manual: 300 kg, 60 kg, 16 and 190 kN/m, 1000 N·s/m', () => {
  const car = (damping: number, spring = 16_000) =>
    quarterCar(300, { spring, damping, tyre: 190_000, unsprung: 60 });

  it('has the poles −1.4318 ± 6.9140i and −8.5682 ± 57.5702i', () => {
    const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(linearised(car(1000)));
    const near = (real: number, imaginary: number): boolean =>
      realEigenvalues.some(
        (r, i) => Math.abs(r - real) < 1e-4 && Math.abs(imaginaryEigenvalues[i]! - imaginary) < 1e-4,
      );
    expect(near(-1.431818, 6.91396)).toBe(true);
    expect(near(-8.568182, 57.570198)).toBe(true);
  });

  /** Steady swing of body speed and of suspension travel rate, per road speed, at a frequency in rad/s. */
  function response(bike: ReturnType<typeof car>, w: number): { body: number; travel: number } {
    const amplitude = 0.001;
    const road = {
      height: (x: number) => amplitude * Math.sin(w * x),
      slope: (x: number) => amplitude * w * Math.cos(w * x),
    };
    const trace = simulate(compileBike(bike), makeDrive({ seconds: 12, road, speed: 1, wheelbase: 0 }));
    let body = 0;
    let travel = 0;
    for (let i = Math.round(11 / trace.interval); i < trace.samples; i++) {
      body = Math.max(body, Math.abs(trace.front.bodyRate[i]!));
      travel = Math.max(travel, Math.abs(trace.front.rate[i]!));
    }
    return { body: body / (amplitude * w), travel: travel / (amplitude * w) };
  }

  it('passes the body the same at 56.27 rad/s whatever spring and damper do', () => {
    const w = Math.sqrt(190_000 / 60);
    expect(w).toBeCloseTo(56.27, 2);
    const soft = response(car(800), w).body;
    expect(response(car(2500), w).body / soft).toBeCloseTo(1, 2);
    expect(response(car(1500, 30_000), w).body / soft).toBeCloseTo(1, 2);
    expect(soft).toBeCloseTo(60 / 300, 2);
    // Elsewhere it does not.
    expect(Math.abs(response(car(2500), 40).body / response(car(800), 40).body - 1)).toBeGreaterThan(0.2);
  });

  it('works its suspension the same at 22.97 rad/s whatever spring and damper do', () => {
    const w = Math.sqrt(190_000 / 360);
    expect(w).toBeCloseTo(22.97, 2);
    const soft = response(car(800), w).travel;
    expect(response(car(2500), w).travel / soft).toBeCloseTo(1, 2);
    expect(response(car(1500, 30_000), w).travel / soft).toBeCloseTo(1, 2);
    expect(Math.abs(response(car(2500), 7).travel / response(car(800), 7).travel - 1)).toBeGreaterThan(0.2);
  });
});
