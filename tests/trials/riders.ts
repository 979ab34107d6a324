/** The riders of the calibration: those for whom the change does nothing, and those for whom it does. */
import type { Rider } from './simulate.ts';

const usual = { runNoise: 0.5, ratingNoise: 0.7 };

/** Nothing that was turned matters: every `keep` or `further` is wrong. */
export const NOTHING_THERE: readonly Rider[] = [
  { name: 'steady rider', runNoise: 0.2, ratingNoise: 0.4 },
  { name: 'usual rider', ...usual },
  { name: 'noisy rider', runNoise: 0.9, ratingNoise: 1 },
  { name: 'very noisy rider', runNoise: 1.3, ratingNoise: 1.2 },
  { name: 'rates one feeling only', ...usual, feelings: 1 },
  { name: 'gets better by 0.3 a run', ...usual, drift: (i) => 0.3 * i },
  { name: 'tires by 0.3 a run', ...usual, drift: (i) => -0.3 * i },
  { name: 'learns, then levels off', ...usual, drift: (i) => 1.5 * (1 - Math.exp(-i / 2)) },
  { name: 'tires faster and faster', ...usual, drift: (i) => -0.04 * i * i },
  { name: 'likes the second run of a pair by 0.5', ...usual, likesChange: () => 0.5 },
  { name: 'likes the second run of a pair by 1', ...usual, likesChange: () => 1 },
  { name: 'likes it less each time (1, 0.5, 0.25)', ...usual, likesChange: (n) => 0.5 ** n },
  { name: 'loses every fourth run', ...usual, loses: (i) => i % 4 === 3 },
  { name: 'loses every fifth run, two blocks', ...usual, loses: (i) => i % 5 === 4, looks: 2 },
  { name: 'judged after each of three blocks', ...usual, looks: 3 },
  { name: 'the same, noisy', runNoise: 0.9, ratingNoise: 1, looks: 3 },
  { name: 'the same, likes the second run by 0.5', ...usual, likesChange: () => 0.5, looks: 3 },
  { name: 'at the stop, so against a sham', ...usual, from: 0 },
  { name: 'at the stop, likes any change by 0.5', ...usual, from: 0, likesChange: () => 0.5 },
];

/** Something is there to find: how often it is found. */
export const SOMETHING_THERE: readonly Rider[] = [
  { name: '+0.5 / -0.5', ...usual, plus: 0.5, minus: -0.5 },
  { name: '+1 / -1', ...usual, plus: 1, minus: -1 },
  { name: '+1 / -1, three looks', ...usual, plus: 1, minus: -1, looks: 3 },
  { name: '+1.5 / -1.5', ...usual, plus: 1.5, minus: -1.5 },
  { name: '+1.5 / -1.5, steady rider', runNoise: 0.2, ratingNoise: 0.4, plus: 1.5, minus: -1.5 },
  { name: '+1.5 / -1.5, three looks', ...usual, plus: 1.5, minus: -1.5, looks: 3 },
  { name: 'peak at the new setting: +1 / -3', ...usual, plus: 1, minus: -3, looks: 3 },
  { name: 'peak half-way: 0 / -2', ...usual, plus: 0, minus: -2, looks: 3 },
  { name: 'peak at the reference: -1.5 / -1.5', ...usual, plus: -1.5, minus: -1.5, looks: 3 },
  { name: 'at the stop, +1.5', ...usual, plus: 1.5, from: 0, looks: 3 },
];

/** One direction is bad, the other does nothing: keeping it is wrong, though it costs nothing. */
export const ONE_SIDE_BAD: readonly Rider[] = [
  { name: 'plus -1.5, minus 0', ...usual, plus: -1.5, minus: 0 },
  { name: 'the same, three looks', ...usual, plus: -1.5, minus: 0, looks: 3 },
  { name: 'the same, noisy, three looks', runNoise: 0.9, ratingNoise: 1, plus: -1.5, minus: 0, looks: 3 },
];
