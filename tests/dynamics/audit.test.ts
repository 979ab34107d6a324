import { describe, expect, it } from 'vitest';
import { auditRule, makeAuditor } from '../../src/dynamics/audit.ts';
import { defaultBike } from '../../src/dynamics/from-sheet.ts';

const bike = defaultBike('enduro');
const slowFork = { end: 'front', setting: 'rebound.high', direction: 'too-slow' } as const;

describe('the audit of a rule', () => {
  it('agrees with what the model shows, with the numbers at three paces', () => {
    const finding = auditRule(
      bike,
      { scenario: 'row', metric: 'travel-not-recovered.front', sign: 'up' },
      slowFork,
    );
    expect(finding).toMatchObject({ verdict: 'agree', unit: 'mm' });
    if (!('runs' in finding)) throw new Error('no runs');
    expect(finding.runs.map((r) => r.pace)).toEqual([0.85, 1, 1.15]);
    for (const run of finding.runs) expect(run.in).toBeGreaterThan(run.out);
  });

  it('disagrees with the opposite', () => {
    expect(
      auditRule(bike, { scenario: 'row', metric: 'travel-not-recovered.front', sign: 'down' }, slowFork),
    ).toMatchObject({ verdict: 'disagree' });
  });

  it('does not speak where the change is too small', () => {
    const rear = { end: 'rear', setting: 'tyre', direction: 'too-soft' } as const;
    for (const sign of ['up', 'down'] as const)
      expect(
        auditRule(bike, { scenario: 'lone-hit', metric: 'travel-used.front', sign }, rear),
      ).toMatchObject({ verdict: 'too-small' });
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
    const finding = auditRule(bike, claim, cause);
    expect(finding.verdict).toBe('unreachable');
    expect('why' in finding && finding.why).toContain(named);
  });

  it('gives the same finding from an auditor that has audited other rules', () => {
    const auditor = makeAuditor(bike);
    const claim = { scenario: 'berm', metric: 'pitch-at-exit', sign: 'up' } as const;
    const cause = { end: 'front', setting: 'rebound.low', direction: 'too-fast' } as const;
    auditor.audit(claim, slowFork);
    expect(auditor.audit(claim, cause)).toEqual(auditRule(bike, claim, cause));
  });
});
