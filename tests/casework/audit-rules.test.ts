import { describe, expect, it } from 'vitest';
import { auditRules } from '../../src/casework/audit-rules.ts';
import { defaultBike } from '../../src/dynamics/index.ts';
import type { Question } from '../../src/rulebase/compiled.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const BIKES = (['trail', 'enduro', 'downhill'] as const).map(defaultBike);
const TREND = 'repeated-hits.trend@front';
const one = (change: (physics: NonNullable<Question['physics']>) => NonNullable<Question['physics']>) => ({
  ...rules,
  questions: rules.questions
    .filter((q) => q.id === TREND)
    .map((q) => ({ ...q, physics: change(q.physics!) })),
});

describe('the built-in pack against the model', () => {
  it('has no rule that the model speaks against without a reason given', () => {
    const { rows, without } = auditRules(rules, BIKES);
    const wrong = rows.filter((r) => r.verdict === 'disagree' && r.reason === undefined);
    expect(wrong.map((r) => `${r.question} › ${r.cause}`)).toEqual([]);
    expect(rows.length).toBeGreaterThan(50);
    expect(rows.every((r) => r.findings.length === BIKES.length)).toBe(true);
    const carrying = new Set(rules.questions.filter((q) => q.physics !== undefined).map((q) => q.id));
    expect(without).toHaveLength(
      rules.questions.filter((q) => q.either === undefined).length - carrying.size,
    );
  });
});

describe('a rule', () => {
  it('is spoken against when its sign is turned round', () => {
    const right = auditRules(
      one((p) => p),
      BIKES,
    ).rows;
    const turned = auditRules(
      one((p) => ({ ...p, sign: p.sign === 'up' ? 'down' : 'up' })),
      BIKES,
    ).rows;
    const slow = 'front.rebound.high.too-slow';
    expect(right.find((r) => r.cause === slow)!.verdict).toBe('agree');
    expect(turned.find((r) => r.cause === slow)!.verdict).toBe('disagree');
  });

  it('is named with the reason where the model has nothing for it', () => {
    const { rows, unreached } = auditRules(
      one((p) => ({ ...p, scenario: 'moon' })),
      BIKES,
    );
    expect(rows).toEqual([]);
    expect(unreached[0]).toMatch(/^repeated-hits\.trend@front › .*: the model has no scenario moon$/);
  });
});
