import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { chance, chanceFelt } from '../../src/advice/help-harm.ts';
import { membersOf } from '../../src/diagnosis/hypotheses.ts';
import { outcomeProbability } from '../../src/diagnosis/results.ts';
import { adjustmentOf, believing, model } from '../support/front-rules.ts';

const bench = prepareBike(model);
const SLOW = 'front.rebound.low.too-slow';
const FAST = 'front.rebound.low.too-fast';
const OPEN = adjustmentOf('front.rebound.low.open');

describe('what a rider will report after one step', () => {
  it('by hand: the rows of the pack, weighed by what the step does', () => {
    const { helped, nothing, harmed } = model.rules.numbers.results;
    const belief = believing({ [SLOW]: 0.7, [FAST]: 0.2 });
    // Right 0.1 of the time: upset in a quarter of it.
    const upset = model.rules.numbers.advice['upset-when-right'];
    for (const report of ['better', 'worse'] as const) {
      const right = upset * harmed[report] + (1 - upset) * nothing[report];
      expect(chance(belief, bench.prospect(OPEN)[report])).toBeCloseTo(
        0.7 * helped[report] + 0.2 * harmed[report] + 0.1 * right,
        12,
      );
    }
  });

  it('is what a change that does nothing brings, as far as it may be none of the causes', () => {
    const { nothing } = model.rules.numbers.results;
    const belief = believing({ [SLOW]: 0.7 });
    for (const report of ['better', 'worse'] as const) {
      const prospect = bench.prospect(OPEN);
      const felt = (none: number): number => chanceFelt(model, belief, none, { prospect, report });
      expect(felt(0)).toBeCloseTo(chance(belief, prospect[report]), 12);
      expect(felt(1)).toBeCloseTo(nothing[report], 12);
      expect(felt(0.25)).toBeCloseTo(0.75 * felt(0) + 0.25 * nothing[report], 12);
    }
  });

  it('is the mean of what the trial model says of every set, with several causes off', () => {
    const belief = believing({
      [SLOW]: 0.3,
      [`${SLOW} front.spring.too-soft`]: 0.2,
      [`${FAST} front.seals.worn`]: 0.1,
    });
    for (const index of bench.payoff.adjustments) {
      for (const report of ['better', 'worse'] as const) {
        let mean = 0;
        belief.weights.forEach((w, h) => {
          mean += w * outcomeProbability(model, bench.effect(index), membersOf(model.space, h), report);
        });
        expect(chance(belief, bench.prospect(index)[report])).toBeCloseTo(mean, 12);
      }
    }
  });
});
