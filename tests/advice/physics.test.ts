import { expect, it } from 'vitest';
import { physicsOf } from '../../src/advice/physics.ts';
import { CIRCUITS, ENDS } from '../../src/bike/sheet.ts';
import { bikeFromSheet, crossTalk } from '../../src/physics/index.ts';
import { GOVERNED, WEBER } from '../../src/physics/cross-talk.ts';
import { exampleSheet } from '../bike/example.ts';

// Eighteen clicks of low speed: opening takes two to be felt, closing three.
const bike = bikeFromSheet(exampleSheet('coil'));
const { clicks, crossTalk: shares } = physicsOf(bike);

it('steps each knob each way by the fewest clicks that can be felt', () => {
  expect(clicks['front.rebound.low+']).toBeLessThan(clicks['front.rebound.low-']!);
  for (const end of ENDS) {
    for (const circuit of CIRCUITS) {
      const speed = circuit.endsWith('low') ? GOVERNED.low : GOVERNED.high;
      const after = (by: number): number => 1 + crossTalk(bike, end, circuit, by, [speed]).at[0]!.change;
      const open = clicks[`${end}.${circuit}+`]!;
      const close = clicks[`${end}.${circuit}-`]!;
      expect(after(open)).toBeLessThanOrEqual(1 / (1 + WEBER));
      expect(after(open - 1)).toBeGreaterThan(1 / (1 + WEBER));
      expect(after(-close)).toBeGreaterThanOrEqual(1 + WEBER);
      expect(after(1 - close)).toBeLessThan(1 + WEBER);
    }
  }
});

it('knows no step of a knob whose clicks nobody counted', () => {
  const sheet = exampleSheet('coil');
  const { front } = sheet.ends;
  const adjusters = { ...front.adjusters, 'rebound.low': { now: 4 } };
  const own = { ...sheet, ends: { ...sheet.ends, front: { ...front, adjusters } } };
  const { clicks: sizes } = physicsOf(bikeFromSheet(own), own);
  expect(sizes).not.toHaveProperty(['front.rebound.low-']);
  expect(sizes['rear.rebound.low-']).toBe(physicsOf(bike, sheet).clicks['rear.rebound.low-']);
});

it('counts a knob as part of a fix for its partner, and never as more than a whole one', () => {
  expect(Object.keys(shares)).toHaveLength(ENDS.length * CIRCUITS.length);
  for (const share of Object.values(shares)) {
    // Nothing where the stack is still shut at the slow speed.
    expect(share).toBeGreaterThanOrEqual(0);
    expect(share).toBeLessThanOrEqual(1);
  }
});
