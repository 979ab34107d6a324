import { partnerOf } from '../../src/bike/circuits.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CIRCUITS, ENDS } from '../../src/bike/sheet.ts';
import {
  crossTalk,
  feelableClicks,
  fixShare,
  GOVERNED,
  governedSpeed,
  WEBER,
} from '../../src/physics/cross-talk.ts';
import { plausibleBikes } from '../../src/physics/draws.ts';
import { defaultBike } from '../../src/physics/bike/from-sheet.ts';

const KINDS = ['trail', 'enduro', 'downhill'] as const;

describe.each(KINDS)('a %s bike', (kind) => {
  const bike = defaultBike(kind);

  it('feels a low-speed click most when slow, less and less as speed rises, and never not at all', () => {
    for (const end of ENDS)
      for (const circuit of ['rebound.low', 'compression.low'] as const) {
        const changes = crossTalk(bike, end, circuit, -1).at.map((a) => a.change);
        for (let i = 1; i < changes.length; i++) expect(changes[i]!).toBeLessThan(changes[i - 1]!);
        expect(changes.at(-1)!).toBeGreaterThan(0);
      }
  });

  it('feels a high-speed click more and more as speed rises', () => {
    for (const end of ENDS)
      for (const circuit of ['rebound.high', 'compression.high'] as const) {
        const changes = crossTalk(bike, end, circuit, -1).at.map((a) => a.change);
        for (let i = 1; i < changes.length; i++) expect(changes[i]!).toBeGreaterThan(changes[i - 1]!);
      }
  });

  it('takes the fewest clicks that pass the Weber fraction, which the trade calls about two', () => {
    for (const end of ENDS)
      for (const circuit of CIRCUITS) {
        const clicks = feelableClicks(bike, end, circuit);
        const speeds = [governedSpeed(circuit)];
        const change = (n: number): number =>
          1 / (1 + crossTalk(bike, end, circuit, n, speeds).at[0]!.change) - 1;
        expect(change(clicks)).toBeGreaterThanOrEqual(WEBER);
        expect(change(clicks - 1)).toBeLessThan(WEBER);
        // Common practice, no source; a click's default size was chosen with it in mind.
        expect(clicks).toBeGreaterThanOrEqual(1);
        expect(clicks).toBeLessThanOrEqual(3);
      }
  });

  it('makes each adjuster part of a fix for its partner: more than nothing, less than a whole one', () => {
    for (const end of ENDS)
      for (const circuit of CIRCUITS) {
        const share = fixShare(bike, end, circuit);
        expect(share).toBeGreaterThan(0.05);
        expect(share).toBeLessThan(0.8);
      }
  });
});

describe('a step', () => {
  it('closes by as few clicks as can be felt, which need not be as many as open', () => {
    let unlike = 0;
    for (const { bike } of plausibleBikes(12))
      for (const end of ENDS)
        for (const circuit of CIRCUITS) {
          const clicks = feelableClicks(bike, end, circuit, false);
          const change = (n: number): number =>
            crossTalk(bike, end, circuit, -n, [governedSpeed(circuit)]).at[0]!.change;
          // As many as the knob has, where fewer cannot be felt.
          const most = bike.ends[end].knobs[circuit]?.range ?? 100;
          if (clicks < most) expect(change(clicks)).toBeGreaterThan(WEBER - 1e-9);
          expect(change(clicks - 1)).toBeLessThan(WEBER);
          if (clicks !== feelableClicks(bike, end, circuit)) unlike++;
        }
    expect(unlike).toBeGreaterThan(0);
  });
});

describe('a partner', () => {
  it('is the other speed of the same side, and its partner is the first again', () => {
    expect(partnerOf('rebound.low')).toBe('rebound.high');
    for (const circuit of CIRCUITS) expect(partnerOf(partnerOf(circuit))).toBe(circuit);
    expect(GOVERNED.low).toBeLessThan(GOVERNED.high);
  });
});

describe('clicks', () => {
  const bike = defaultBike('enduro');

  it('there and back change nothing', () => {
    fc.assert(
      fc.property(fc.integer({ min: -8, max: 8 }), fc.constantFrom(...CIRCUITS), (n, circuit) => {
        const there = crossTalk(bike, 'front', circuit, n).at;
        const back = crossTalk(bike, 'front', circuit, -n).at;
        there.forEach((a, i) => {
          // Not exact at both ends of a curve, but opening lowers what closing raises.
          expect(Math.sign(a.change)).toBe(-Math.sign(back[i]!.change) + 0);
        });
      }),
    );
  });
});
