import { describe, expect, it } from 'vitest';
import { auditRules, unargued } from '../../src/casework/audit-rules.ts';
import { plausibleBikes } from '../../src/dynamics/index.ts';
import type { Question } from '../../src/rulebase/compiled.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
/** What the command asks: at least a hundred bikes. */
const BIKES = plausibleBikes(102);
const FEW = BIKES.slice(0, 9);
const TREND = 'repeated-hits.trend@front';
const one = (change: (physics: NonNullable<Question['physics']>) => NonNullable<Question['physics']>) => ({
  ...rules,
  questions: rules.questions
    .filter((q) => q.id === TREND)
    .map((q) => ({ ...q, physics: change(q.physics!) })),
});

describe('the built-in pack against the model', () => {
  // A hundred bikes take a while.
  it('has no rule that the bikes speak against, or do not agree on, without a reason given', () => {
    const { rows, without } = auditRules(rules, BIKES);
    const silent = rows.filter(unargued);
    expect(silent.map((r) => `${r.question} › ${r.cause}: ${r.verdict}`)).toEqual([]);
    expect(rows.length).toBeGreaterThan(50);
    const carrying = new Set(rules.questions.filter((q) => q.physics !== undefined).map((q) => q.id));
    const asked = rules.questions.filter((q) => q.either === undefined);
    expect(without).toHaveLength(asked.length - carrying.size);
  }, 600_000);
});

describe('a rule', () => {
  it('is spoken against when its sign is turned round', () => {
    const right = auditRules(
      one((p) => p),
      FEW,
    ).rows;
    const turned = auditRules(
      one((p) => ({ ...p, sign: p.sign === 'up' ? 'down' : 'up' })),
      FEW,
    ).rows;
    const slow = 'front.rebound.high.too-slow';
    expect(right.find((r) => r.cause === slow)!.verdict).toBe('agree');
    expect(turned.find((r) => r.cause === slow)!.verdict).toBe('disagree');
  });

  it('is named with the reason where the model has nothing for it', () => {
    const { rows, unreached } = auditRules(
      one((p) => ({ ...p, scenario: 'moon' })),
      FEW,
    );
    expect(rows).toEqual([]);
    expect(unreached.join('\n')).toMatch(
      /^repeated-hits\.trend@front › .*: the model has no scenario moon$/m,
    );
  });
});
