/** How much a rider's ratings scatter, learnt while the reference is settling in. */
import type { NoisePrior } from './model.ts';
import { runScores } from './score.ts';
import { opening, STEADY } from './sequence.ts';
import type { RiddenRun } from './trial.ts';

/**
 * The prior for the scatter, with what the opening runs say about it.
 *
 * Two runs on one setting differ by √2 times the scatter of one, so half the squared difference estimates the
 * variance on one degree of freedom. Only the differences that were too large to start the trial count: those that
 * passed were selected for being small. A rider who takes long to settle is thus a noisy one, or was still
 * learning; both make the judge more careful, neither makes it bolder than the prior.
 */
export function openingNoise(ridden: readonly RiddenRun[], prior: NoisePrior): NoisePrior {
  const scores = runScores(opening(ridden)) ?? [];
  const large = scores
    .slice(1)
    .map((score, i) => score - scores[i]!)
    .filter((difference) => Math.abs(difference) > STEADY);
  const weight = prior.weight + large.length;
  const sum = large.reduce((total, difference) => total + difference ** 2 / 2, prior.weight * prior.sd ** 2);
  return { sd: Math.sqrt(sum / weight), weight };
}
