import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { learn, PACK_WEIGHT, type Learned } from '../../src/evaluation/learn.ts';
import type { Logged } from '../../src/evaluation/learn-observe.ts';
import { seeded } from '../../src/evaluation/riders.ts';
import { strengthsOf } from '../../src/evaluation/strengths.ts';
import { rulesOf } from '../support/compile-text.ts';
import { WORKSHOP } from '../support/workshop-rules.ts';
import { coverage } from './coverage.ts';
import { madeLogs, withValues } from './made-logs.ts';

const rules = rulesOf({ 'rules.yaml': WORKSHOP });
const model = buildModel(rules);
const bench = prepareBike(model);
const study = (logged: readonly Logged[]): Learned =>
  learn(model, logged, { weight: PACK_WEIGHT, mostRounds: 200, progress: () => {} });

describe('learning from logs', () => {
  it('holds known strengths within its nine-in-ten intervals about nine times in ten', () => {
    const { all, within, moved } = coverage(200, 6);
    expect(all).toBeGreaterThanOrEqual(100);
    expect(within / all).toBeGreaterThan(0.84);
    expect(within / all).toBeLessThan(0.96);
    // By logs of riders who follow the pack's own words, luck moves a word one time in twenty.
    expect(moved).toBeLessThanOrEqual(1);
  });

  it('holds most of them also where riders slip and mistake topics far more often than the pack takes them to, and moves nothing', () => {
    const { all, within, moved } = coverage(300, 5, true);
    // Without learning how these riders answer, six of ten hold, and every such log moves a word.
    expect(within / all).toBeGreaterThan(0.75);
    expect(moved).toBe(0);
  });

  it('says how careless the riders are only where they are', () => {
    const careless = {
      ...rules.numbers,
      trust: { recall: 0.2, ride: 0.2, stand: 0.02 },
      slip: { recall: 0.15, ride: 0.15, stand: 0 },
    };
    const told = study(madeLogs({ ...rules, numbers: careless }, { bench }, 300, seeded(0.3), 0.8, 0.2));
    expect(told.riders!.trust + told.riders!.slip).toBeGreaterThan(0.2);
    expect(told.strengths.some((s) => s.firm)).toBe(false);
    expect(study(madeLogs(rules, { bench }, 300, seeded(0.3), 0.8, 0.2)).riders).toBeUndefined();
  });

  it('finds a strength that is far from its word, and leaves the others', () => {
    const moved = 'packs worse {end}.rebound.low.too-slow';
    const truth = withValues(rules, new Map([[moved, 0.15]]));
    let held = 0;
    for (const seed of [0.31, 0.32]) {
      const { strengths } = study(madeLogs(truth, { bench }, 500, seeded(seed)));
      const found = strengths.find((s) => s.strength.id === moved)!;
      expect(found.old).toBe(0.75);
      expect(found.value).toBeLessThan(0.4);
      if (found.low <= 0.15 && 0.15 <= found.high) held++;
      expect(strengths.filter((s) => s.firm).map((s) => s.strength.id)).toEqual([moved]);
    }
    // Each of these intervals holds nine times in ten.
    expect(held).toBeGreaterThanOrEqual(1);
  });

  it('finds that one cause is rarer than the pack says', () => {
    const rare = (id: string): boolean => /spring.too-soft/.test(id);
    const causes = rules.causes.map((c) => (rare(c.id) ? { ...c, prior: c.prior / 5 } : c));
    let held = 0;
    for (const seed of [0.31, 0.32]) {
      const logs = madeLogs({ ...rules, causes }, { bench }, 900, seeded(seed), 0.8, 0.2);
      const { priors, cases, ridden } = study(logs);
      expect(cases).toBe(logs.filter(({ kase }) => kase.answers.length > 0).length);
      expect(ridden).toBeLessThan(0.85 * cases);
      const found = priors.find((p) => rare(p.rule.id))!;
      expect(found.value).toBeLessThan(found.old / 2);
      if (found.low <= found.old / 5 && found.old / 5 <= found.high) held++;
      expect(priors.filter((p) => p.firm).map((p) => p.rule.id)).toEqual(['{end}.spring.too-soft']);
    }
    expect(held).toBeGreaterThanOrEqual(1);
  });

  it('keeps the prior of what is not on the bike at its word, where the same log moves that of a spring', () => {
    const spring = (id: string): boolean => /spring/.test(id);
    const held = buildModel({
      ...rules,
      settings: rules.settings.map((s) => (spring(s.id) ? { ...s, kind: 'rider' as const } : s)),
    });
    const causes = rules.causes.map((c) => (spring(c.id) ? { ...c, prior: c.prior / 5 } : c));
    const logs = madeLogs({ ...rules, causes }, { bench }, 300, seeded(0.31), 0.8, 0.2);
    const of = (m: typeof model) =>
      learn(m, logs, { weight: PACK_WEIGHT, mostRounds: 60, progress: () => {} }).priors.filter((p) =>
        spring(p.rule.id),
      );
    const usual = of(model);
    expect(usual.length).toBeGreaterThan(1);
    for (const p of usual) expect(p.value).toBeLessThan(0.8 * p.old);
    for (const p of of(held)) {
      expect(p.value).toBeCloseTo(p.old, 12);
      expect(p.firm).toBe(false);
    }
  });

  it('moves no prior by a log of changed bikes alone, in which every cause looks common', () => {
    const logs = madeLogs(rules, { bench }, 800, seeded(0.33), 0.8, 0.2);
    const changed = logs.filter(({ kase }) => kase.results[0]?.outcome === 'better');
    expect(changed.length).toBeGreaterThan(100);
    const { priors, whole } = study(changed);
    expect(whole).toBe(false);
    expect(Math.max(...priors.map((p) => p.value / p.old))).toBeGreaterThan(1.5);
    expect(priors.filter((p) => p.firm)).toEqual([]);
  });

  it('moves nothing for five cases, not even where all five say the same', () => {
    const random = seeded(0.5);
    const truth = withValues(rules, new Map(strengthsOf(rules).map((s) => [s.id, 0.98])));
    const { strengths, priors, cases, settled } = study(madeLogs(truth, { bench }, 5, random));
    expect([cases, settled]).toEqual([5, true]);
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
