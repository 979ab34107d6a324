import { describe, expect, it } from 'vitest';
import { makeBench } from '../../src/advice/bench.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { learn, PACK_WEIGHT, type Learned } from '../../src/evaluation/learn.ts';
import type { Logged } from '../../src/evaluation/learn-observe.ts';
import { seeded } from '../../src/evaluation/riders.ts';
import { strengthsOf } from '../../src/evaluation/strengths.ts';
import { rulesOf } from '../support/compile-text.ts';
import { WORKSHOP } from '../support/workshop-rules.ts';
import { drawnRules, madeLogs, withValues } from './made-logs.ts';

const rules = rulesOf({ 'rules.yaml': WORKSHOP });
const model = buildModel(rules);
const bench = makeBench(model);
const study = (logged: readonly Logged[]): Learned =>
  learn(model, logged, { weight: PACK_WEIGHT, mostRounds: 200, progress: () => {} });

describe('learning from logs', () => {
  it('holds known strengths within its nine-in-ten intervals about nine times in ten', () => {
    let within = 0;
    let all = 0;
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const random = seeded(seed / 10);
      const { rules: truth, values } = drawnRules(rules, PACK_WEIGHT, random);
      const { strengths, settled } = study(madeLogs(truth, { bench }, 300, random));
      expect(settled).toBe(true);
      for (const s of strengths) {
        const real = values.get(s.strength.id)!;
        all++;
        if (s.low <= real && real <= s.high) within++;
      }
    }
    expect(all).toBeGreaterThan(100);
    expect(within / all).toBeGreaterThan(0.84);
    expect(within / all).toBeLessThan(0.96);
  });

  it('finds a strength that is far from its word, and leaves the others', () => {
    const moved = 'packs worse {end}.rebound.low.too-slow';
    const random = seeded(0.7);
    const truth = withValues(rules, new Map([[moved, 0.25]]));
    const { strengths } = study(madeLogs(truth, { bench }, 600, random));
    const found = strengths.find((s) => s.strength.id === moved)!;
    expect(found.firm).toBe(true);
    // Nearer to the truth than to the pack's word, which the interval leaves out.
    expect(Math.abs(found.value - 0.25)).toBeLessThan(Math.abs(found.value - found.old));
    expect(found.high).toBeLessThan(found.old);
    expect(strengths.filter((s) => s.firm)).toHaveLength(1);
  });

  it('finds that one cause is rarer than the pack says', () => {
    const causes = rules.causes.map((c) => (/spring.too-soft/.test(c.id) ? { ...c, prior: c.prior / 5 } : c));
    const { priors } = study(madeLogs({ ...rules, causes }, { bench }, 600, seeded(0.3)));
    const found = priors.find((p) => p.rule.id === '{end}.spring.too-soft')!;
    expect(found.firm).toBe(true);
    expect(found.value).toBeLessThan(found.old / 2);
    expect(found.high).toBeLessThan(found.old);
  });

  it('moves nothing for five cases, not even where all five say the same', () => {
    const random = seeded(0.5);
    const truth = withValues(rules, new Map(strengthsOf(rules).map((s) => [s.id, 0.98])));
    const { strengths, priors, cases } = study(madeLogs(truth, { bench }, 5, random));
    expect(cases).toBe(5);
    expect(strengths.some((s) => Math.abs(s.value - s.old) > 0.01)).toBe(true);
    expect([...strengths, ...priors].filter((s) => s.firm)).toEqual([]);
  });

  it('stays exactly at the pack for no cases, and for cases without a ridden change', () => {
    const [logged] = madeLogs(rules, { bench }, 1, seeded(0.1));
    const without = { kase: { ...logged!.kase, results: [] }, bench };
    for (const learned of [study([]), study([without])]) {
      expect(learned.cases).toBe(0);
      for (const s of learned.strengths) expect(s.value).toBe(s.old);
      for (const p of learned.priors) expect(p.value).toBeCloseTo(p.old, 12);
    }
    expect(study([without]).leftOut).toBe(1);
  });
});
