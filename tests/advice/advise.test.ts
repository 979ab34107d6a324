import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/advise.ts';
import { blocked } from '../../src/advice/rungs.ts';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { exampleSheet } from '../bike/example.ts';
import { adjustmentOf, believing, idsOf, model } from '../support/front-rules.ts';

const SLOW = 'front.rebound.low.too-slow';
const WORN = 'front.seals.worn';
const OPEN = 'front.rebound.low.open';
const bare = prepareBike(model);
const on = (sets: Readonly<Record<string, number>>, bench = bare, dangerous = false) =>
  advise(model, bench, believing(sets), { dangerous });

describe('what to do first', () => {
  it('is what is worth most', () => {
    const told = on({ [SLOW]: 0.6, 'front.spring.too-firm': 0.2 });
    expect(told.verdict).toBe('change');
    expect(idsOf(told.ranked)[0]).toBe(OPEN);
    expect(told.first).toBe(adjustmentOf(OPEN));
    expect(told.because).toBeUndefined();
  });

  it('is the repair as soon as it cures something in three of ten, however cheap a click is', () => {
    const told = on({ [SLOW]: 0.6, [WORN]: 0.31 });
    expect(idsOf(told.ranked)[0]).toBe('front.seals.service');
    expect(told.because).toBe('repair-first');
    expect(idsOf(on({ [SLOW]: 0.6, [WORN]: 0.29 }).ranked)[0]).toBe(OPEN);
  });

  it('is to leave it when nothing is off for certain enough, and unknown when no change is worth its trial', () => {
    expect(on({ [SLOW]: 0.04 })).toMatchObject({ verdict: 'leave', first: undefined, ranked: [] });
    const unknown = on({ 'front.spring.too-soft': 0.5 });
    expect(unknown).toMatchObject({ verdict: 'unknown', first: undefined, ranked: [] });
  });

  it('is nothing where something that the rules do not know is likelier than every cause and than nothing', () => {
    const verdict = (sets: Readonly<Record<string, number>>, none: number) =>
      advise(model, bare, believing(sets), { dangerous: false, none }).because;
    // It leads from 0.6·(1 − none) on, that is above 0.375.
    expect(verdict({ [SLOW]: 0.6 }, 0.3)).toBeUndefined();
    expect(verdict({ [SLOW]: 0.6 }, 0.39)).toBe('none-of-these');
    expect(verdict({ [SLOW]: 0.6 }, 0.37)).toBeUndefined();
    expect(verdict({ [SLOW]: 0.1 }, 0.45)).toBeUndefined();
  });

  it('is nothing where one impression is likelier, but only where the bike was looked at', () => {
    const because = (lookedAt: boolean, impression: number) => {
      const grounds = { foundNothing: () => true, complaintStands: () => false, lookedAt: () => lookedAt };
      const heeded = { dangerous: false, none: 0.6, impression, grounds };
      return advise(model, bare, believing({ [SLOW]: 0.6 }), heeded).because;
    };
    expect(because(true, 0.5)).toBe('one-impression');
    expect(because(false, 0.5)).toBeUndefined();
    expect(because(true, 0.2)).toBe('none-of-these');
    expect(because(false, 0.2)).toBe('none-of-these');
  });

  it('is the repair, and no tuning, after a dangerous answer', () => {
    const told = on({ [SLOW]: 0.9, [WORN]: 0.6 }, bare, true);
    expect(told).toMatchObject({ verdict: 'stop', because: 'danger' });
    expect(told.first).toBe(adjustmentOf('front.seals.service'));
  });

  it('names no repair after a dangerous answer where it would be a guess, or mend something else', () => {
    expect(on({ [SLOW]: 0.9, [WORN]: 0.3 }, bare, true).first).toBeUndefined();
    // Play found points to no cause that a service of the seals cures.
    const dangers = [{ question: 'packs', answer: 'yes', caution: 'loose' }];
    const told = advise(model, bare, believing({ [WORN]: 0.9 }), { dangerous: true, dangers });
    expect(told).toMatchObject({ verdict: 'stop', first: undefined, ranked: [] });
  });
});

describe('what knowing the causes would add', () => {
  it('is what the best choice in every set is worth, above what is worth most now', () => {
    const belief = believing({ [SLOW]: 0.5, 'front.spring.too-firm': 0.3 });
    const best = belief.weights.reduce((sum, w, h) => sum + w * bare.payoff.best[h]!, 0);
    const told = advise(model, bare, belief, { dangerous: false });
    const much = best - told.ranked[0]!.worth;
    expect(much).toBeGreaterThan(0.1);
    expect(told.worthKnowing(much - 1e-9)).toBe(true);
    expect(told.worthKnowing(much + 1e-9)).toBe(false);
  });
});

describe('what waits', () => {
  it('is all that may cure something, by chance over minutes, the first left out', () => {
    const told = on({ [SLOW]: 0.5, [WORN]: 0.2, 'front.spring.too-firm': 0.1 });
    // 0.25 in 60.3 min, 0.1 in 60.3, 0.1 in 10.3, 0.2 in 90.3; the knob itself is first, and closing it cures nothing.
    expect(idsOf(told.ranked)).toEqual([
      OPEN,
      'front.spring.softer',
      'front.rebuild',
      'front.seals.service',
      'front.rebound.low.softer-rebuild',
    ]);
  });

  it('holds nothing that cures less than one in twenty', () => {
    const told = on({ [SLOW]: 0.5, 'front.spring.too-firm': 0.049 });
    expect(idsOf(told.ranked)).not.toContain('front.spring.softer');
    expect(idsOf(on({ [SLOW]: 0.5, 'front.spring.too-firm': 0.051 }).ranked)).toContain(
      'front.spring.softer',
    );
  });
});

const sheet = exampleSheet('all-knobs');
const { 'rebound.low': knob, ...others } = sheet.ends.front.adjusters;
const withFront = (adjusters: typeof sheet.ends.front.adjusters) =>
  prepareBike(model, { ...sheet, ends: { ...sheet.ends, front: { ...sheet.ends.front, adjusters } } });

describe('a knob that is not there, or at its stop', () => {
  const without = withFront(others);
  const atStop = withFront({ ...others, 'rebound.low': { ...knob!, now: knob!.range! } });

  it.each([
    ['not there', without, /^this bike has no knob for the front low-speed rebound$/],
    ['at its stop', atStop, /^it is at its stop \(fully open\)$/],
  ])('gives way to the first of its next rungs that cures enough, when %s', (_, bench, why) => {
    const told = on({ [SLOW]: 0.9 }, bench);
    // The rung before it cures 0.2 · 0.9, less than a quarter.
    expect(idsOf(told.ranked)[0]).toBe('front.rebuild');
    expect(told.because).toBe('next-rung');
    expect(told.insteadOf).toEqual({
      adjustment: adjustmentOf(OPEN),
      why: expect.stringMatching(why) as string,
    });
  });

  it('is named among what cannot be done, with its rungs, when it would have cured more than it upsets', () => {
    const blockedOn = (on: PreparedBike, likely: number) =>
      blocked({ model, bench: on, belief: believing({ [SLOW]: likely }), known: undefined });
    const [first, ...more] = blockedOn(without, 0.3);
    expect(first).toMatchObject({ adjustment: adjustmentOf(OPEN) });
    expect(first!.next).toEqual(['front.rebound.low.softer-rebuild', 'front.rebuild']);
    expect(more).toEqual([]);
    expect(blockedOn(without, 0.2)).toEqual([]);
    expect(blockedOn(withFront(sheet.ends.front.adjusters), 0.9)).toEqual([]);
  });

  it('stays silent where another adjustment is worth more anyway', () => {
    const told = on({ [SLOW]: 0.3, 'front.spring.too-firm': 0.6 }, without);
    expect(idsOf(told.ranked)[0]).toBe('front.spring.softer');
    expect(told.insteadOf).toBeUndefined();
  });
});
