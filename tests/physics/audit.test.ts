import { describe, expect, it } from 'vitest';
import { AGREED, audit, type RuleClaim } from '../../src/physics/audit.ts';
import { plausibleBikes } from '../../src/physics/draws.ts';

const DRAWS = plausibleBikes(12, 7);
const slowFork = { end: 'front', setting: 'rebound.high', direction: 'too-slow' } as const;
const packs: RuleClaim = { scenario: 'row', metric: 'travel-not-recovered.front', sign: 'up' };
const one = (claim: RuleClaim, cause: Parameters<typeof audit>[1][number]['cause'], draws = DRAWS) =>
  audit(draws, [{ claim, cause }])[0]!;

describe('the audit of a rule', () => {
  it('agrees with what the bikes show, with the share that does and the median change', () => {
    const finding = one(packs, slowFork);
    expect(finding).toMatchObject({ verdict: 'agree', unit: 'mm', bikes: DRAWS.length });
    if (!('share' in finding)) throw new Error('no share');
    expect(finding.share).toBeGreaterThanOrEqual(AGREED);
    expect(finding.change).toBeGreaterThan(finding.floor);
  });

  it('disagrees with the opposite, share for share', () => {
    const [there, back] = [one(packs, slowFork), one({ ...packs, sign: 'down' }, slowFork)];
    if (!('share' in there) || !('share' in back)) throw new Error('no share');
    expect(back.verdict).toBe('disagree');
    expect(there.share + back.share).toBeCloseTo(1, 12);
  });

  it('calls it weak where the bikes do not agree with each other', () => {
    const verdicts = (['up', 'down'] as const).map((sign) =>
      one(
        { scenario: 'kerb', metric: 'overshoot.front', sign },
        { end: 'front', setting: 'rebound.high', direction: 'too-fast' },
      ),
    );
    expect(verdicts.map(({ verdict }) => verdict)).toEqual(['weak', 'weak']);
    for (const finding of verdicts) {
      if (!('share' in finding)) throw new Error('no share');
      expect(finding.share).toBeGreaterThan(1 - AGREED);
      expect(finding.share).toBeLessThan(AGREED);
    }
  });

  it('does not speak where the change is too small', () => {
    const rear = { end: 'rear', setting: 'tyre', direction: 'too-soft' } as const;
    for (const sign of ['up', 'down'] as const)
      expect(one({ scenario: 'lone-hit', metric: 'travel-used.front', sign }, rear).verdict).toBe(
        'too-small',
      );
  });

  it('leaves out bikes that do not have the setting', () => {
    const coils = plausibleBikes(30, 3);
    const finding = one(
      { scenario: 'landing', metric: 'travel-used.rear', sign: 'up' },
      { end: 'rear', setting: 'ramp-up', direction: 'too-little' },
      coils,
    );
    if (!('bikes' in finding)) throw new Error('no bikes');
    expect(finding.bikes).toBe(coils.filter((d) => d.bike.ends.rear.spring.kind === 'air').length);
    expect(finding.bikes).toBeLessThan(coils.length);
  });

  it.each([
    [{ scenario: 'rock-garden', metric: 'peak-force.front', sign: 'up' }, slowFork, 'rock-garden'],
    [{ scenario: 'kerb', metric: 'bar-vibration', sign: 'up' }, slowFork, 'bar-vibration'],
    [
      { scenario: 'kerb', metric: 'overshoot.front', sign: 'up' },
      { end: 'front', setting: 'rebound.high', direction: 'too-firm' },
      'too-firm',
    ],
    [
      { scenario: 'kerb', metric: 'overshoot.front', sign: 'up' },
      { end: 'front', setting: 'colour', direction: 'too-red' },
      'colour',
    ],
  ] as const)('says what it cannot reach: %j', (claim, cause, named) => {
    const finding = one(claim, cause);
    expect(finding.verdict).toBe('unreachable');
    expect('why' in finding && finding.why).toContain(named);
  });

  it('finds the same among many claims as alone, in the same order', () => {
    const claim = { scenario: 'berm', metric: 'pitch-at-exit', sign: 'up' } as const;
    const cause = { end: 'front', setting: 'rebound.low', direction: 'too-fast' } as const;
    const many = audit(DRAWS.slice(0, 3), [
      { claim: packs, cause: slowFork },
      { claim, cause },
      { claim, cause: slowFork },
    ]);
    expect(many[1]).toEqual(audit(DRAWS.slice(0, 3), [{ claim, cause }])[0]);
    expect(many[0]).toEqual(audit(DRAWS.slice(0, 3), [{ claim: packs, cause: slowFork }])[0]);
  });
});

describe('plausible bikes', () => {
  it('are the same for the same seed, others for another, and as many as asked for', () => {
    expect(plausibleBikes(6, 5)).toEqual(plausibleBikes(6, 5));
    expect(plausibleBikes(6, 5)).not.toEqual(plausibleBikes(6, 6));
    expect(plausibleBikes(6)).toHaveLength(6);
  });

  it('spread over kinds, riders, springs and paces', () => {
    const draws = plausibleBikes(100);
    const of = (read: (d: (typeof draws)[number]) => unknown): number => new Set(draws.map(read)).size;
    expect(of((d) => d.bike.kind)).toBe(3);
    expect(of((d) => d.bike.ends.rear.spring.kind)).toBe(2);
    const masses = draws.map((d) => d.bike.body.mass);
    expect(Math.max(...masses) - Math.min(...masses)).toBeGreaterThan(30);
    const paces = draws.map((d) => d.pace);
    expect(Math.min(...paces)).toBeLessThan(0.92);
    expect(Math.max(...paces)).toBeGreaterThan(1.08);
    for (const { bike } of draws) expect(bike.warnings).toEqual([]);
  });
});
