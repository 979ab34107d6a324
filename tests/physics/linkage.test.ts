import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circuitThrough, damperForce } from '../../src/physics/bike/damper.ts';
import {
  forkLinkage,
  fullStroke,
  ratioAt,
  shaftTravel,
  shockLinkage,
  wheelTravel,
} from '../../src/physics/bike/linkage.ts';
import { bendOf } from '../../src/physics/machine/loops/ratio.ts';

const TRAVEL = 0.16;
const ratios = fc.tuple(
  fc.double({ min: 2, max: 3.5, noNaN: true }),
  fc.double({ min: 2, max: 3.5, noNaN: true }),
  fc.double({ min: 2, max: 3.5, noNaN: true }),
);

describe('a shock driven by a linkage', () => {
  it('has the ratios of the sheet at nothing, half and all of its travel', () => {
    fc.assert(
      fc.property(ratios, (given) => {
        const linkage = shockLinkage(TRAVEL, given);
        given.forEach((ratio, i) => expect(ratioAt(linkage, (TRAVEL * i) / 2)).toBeCloseTo(ratio, 9));
      }),
    );
  });

  it('keeps the stroke of the sheet, with ratios in the same proportion', () => {
    fc.assert(
      fc.property(ratios, ([start, middle, end]) => {
        const linkage = shockLinkage(TRAVEL, [start, middle, end], 0.06);
        expect(fullStroke(linkage)).toBeCloseTo(0.06, 9);
        expect(ratioAt(linkage, TRAVEL) / ratioAt(linkage, 0)).toBeCloseTo(end / start, 9);
        expect(ratioAt(linkage, TRAVEL / 2) / ratioAt(linkage, 0)).toBeCloseTo(middle / start, 9);
      }),
    );
  });

  it('moves the shaft by 1/ratio, there and back, and knows how the ratio changes', () => {
    const linkage = shockLinkage(TRAVEL, [2.9, 2.6, 2.4], 0.06);
    const step = 1e-6;
    for (const wheel of [0.01, 0.05, 0.1, 0.15]) {
      const speed = (shaftTravel(linkage, wheel + step) - shaftTravel(linkage, wheel - step)) / (2 * step);
      expect(speed).toBeCloseTo(1 / ratioAt(linkage, wheel), 5);
      const slope = (ratioAt(linkage, wheel + step) - ratioAt(linkage, wheel - step)) / (2 * step);
      expect(bendOf(linkage.c1, linkage.c2, wheel)).toBeCloseTo(slope, 5);
      expect(wheelTravel(linkage, shaftTravel(linkage, wheel))).toBeCloseTo(wheel, 10);
    }
  });

  it('of a fork moves along its steering axis', () => {
    const fork = forkLinkage(0.17, 65);
    expect(fullStroke(fork)).toBeCloseTo(0.17, 12);
    expect(fork.travel).toBeCloseTo(0.17 * Math.sin((65 * Math.PI) / 180), 12);
  });
});

describe('a damper through two points of its curve', () => {
  const slow = { speed: 0.1, force: 100 };

  it('passes through both', () => {
    const fast = { speed: 1, force: 700 };
    const circuit = circuitThrough(slow, fast)!;
    for (const { speed, force } of [slow, fast]) expect(damperForce(circuit, speed)).toBeCloseTo(force, 6);
  });

  it('is none where force rises faster than speed², or slower than speed^(2/3)', () => {
    expect(circuitThrough(slow, { speed: 1, force: 10_100 })).toBeUndefined();
    expect(circuitThrough(slow, { speed: 1, force: 460 })).toBeUndefined();
    expect(circuitThrough(slow, { speed: 1, force: 470 })).toBeDefined();
    expect(circuitThrough(slow, slow)).toBeUndefined();
  });
});
