import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { expectedCure, expectedWorth, valueOfKnowing } from '../../src/advice/payoff.ts';
import { isWorthKnowing } from '../../src/advice/stop.ts';
import { chance } from '../../src/advice/help-harm.ts';
import type { Belief } from '../../src/diagnosis/belief.ts';
import { marginals, membersOf } from '../../src/diagnosis/hypotheses.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { reach } from '../../src/diagnosis/results.ts';
import { rulesOf } from '../support/compile-text.ts';
import { WORKSHOP } from '../support/workshop-rules.ts';
import { model as front } from '../support/front-rules.ts';

const workshop = buildModel(rulesOf({ 'a.yaml': WORKSHOP }));

/** Worth of an adjustment in a set, by the words of the definition: what it cures, less what it spoils, less its costs. */
function worthIn({ rules }: typeof front, index: number, set: readonly number[]): number {
  const a = rules.adjustments[index]!;
  const { 'trial-cost': trial, 'minute-cost': minute, 'upset-when-right': upset } = rules.numbers.advice;
  let worth = -trial - minute * a.minutes;
  for (const { setting, toward, share } of a.moves) {
    const off = set.find((c) => rules.causes[c]!.setting === setting);
    if (off === undefined) worth -= upset * share;
    else worth += off === toward ? -share : share;
  }
  for (const [cause, share] of a.fixes) if (set.includes(cause)) worth += share;
  return worth;
}

describe.each([
  ['a front end with a pair of knobs', front],
  ['a workshop of both ends', workshop],
])('on %s', (_, model) => {
  const bench = prepareBike(model);
  const sets = Array.from({ length: model.space.size }, (_, h) => membersOf(model.space, h));
  const beliefs = fc
    .array(fc.double({ min: 0, max: 1, noNaN: true }), {
      minLength: model.space.size,
      maxLength: model.space.size,
    })
    .filter((raw) => raw.some((w) => w > 0.01))
    .map((raw): Belief => {
      const total = raw.reduce((sum, w) => sum + w, 0);
      const weights = Float64Array.from(raw, (w) => w / total);
      const room = [new Float64Array(model.space.size), new Float64Array(model.space.causes)] as const;
      return {
        weights,
        causes: marginals(model.space, weights, ...room),
        nothing: weights[0]!,
        logEvidence: 0,
      };
    });
  const mean = (belief: Belief, of: (set: readonly number[]) => number): number =>
    sets.reduce((sum, set, h) => sum + belief.weights[h]! * of(set), 0);

  it('the best worth of every set is that of its definition, and never less than leaving it', () => {
    sets.forEach((set, h) => {
      const all = model.rules.adjustments.map((_, a) => worthIn(model, a, set));
      expect(bench.payoff.best[h]).toBeCloseTo(Math.max(0, ...all), 12);
    });
  });

  it('expected worth and cure are means over the sets', () => {
    fc.assert(
      fc.property(beliefs, (belief) => {
        const expected = expectedWorth(bench.payoff, belief.causes);
        const cure = expectedCure(bench.payoff, belief.causes);
        model.rules.adjustments.forEach((_, a) => {
          const { cures } = bench.effect(a);
          expect(expected[a]).toBeCloseTo(
            mean(belief, (set) => worthIn(model, a, set)),
            10,
          );
          expect(cure[a]).toBeCloseTo(
            mean(belief, (set) => set.reduce((sum, c) => sum + cures[c]!, 0)),
            10,
          );
        });
        const chosen = Math.max(...expected);
        const known = mean(belief, (set) =>
          Math.max(0, ...model.rules.adjustments.map((_, a) => worthIn(model, a, set))),
        );
        const worth = known - Math.max(0, chosen);
        expect(valueOfKnowing(bench.payoff, belief.weights, chosen)).toBeCloseTo(worth, 10);
        for (const enough of [0.5 * worth - 1e-9, worth - 1e-9, worth + 1e-9, 2 * worth + 1e-9])
          expect(isWorthKnowing(bench.payoff, model.space, belief.weights, chosen, enough)).toBe(
            enough < worth,
          );
      }),
      { numRuns: 20 },
    );
  });

  it('the chances to help and to harm are means of how far it reaches in each set', () => {
    fc.assert(
      fc.property(beliefs, (belief) => {
        model.rules.adjustments.forEach((_, a) => {
          const effect = bench.effect(a);
          const { helps, harms } = bench.prospect(a);
          expect(chance(belief, helps)).toBeCloseTo(
            mean(belief, (set) => reach(model, effect, set).cure),
            10,
          );
          expect(chance(belief, harms)).toBeCloseTo(
            mean(belief, (set) => reach(model, effect, set).spoil),
            10,
          );
        });
      }),
      { numRuns: 20 },
    );
  });
});
