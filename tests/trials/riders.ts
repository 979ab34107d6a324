/** The riders of the calibration: those for whom the change does nothing, those for whom it does, and those it harms. */
import { ADVISED, type Rider } from './simulate.ts';

const usual = { runNoise: 0.5, ratingNoise: 0.7 };
const noisy = { runNoise: 0.9, ratingNoise: 1 };
const steady = { runNoise: 0.2, ratingNoise: 0.4 };
const veryNoisy = { runNoise: 1.3, ratingNoise: 1.2 };
const half = { helps: 0.5, harms: 0.1 };
const twoBlocks = { looks: 2 };

/** Nothing that was turned matters: every `keep` or `further` is wrong. */
export const NOTHING_THERE: readonly Rider[] = [
  { name: 'steady rider', ...steady },
  { name: 'usual rider', ...usual },
  { name: 'noisy rider', ...noisy },
  { name: 'very noisy rider', ...veryNoisy },
  { name: 'usual rider, two blocks', ...usual, ...twoBlocks },
  { name: 'noisy rider, two blocks', ...noisy, ...twoBlocks },
  { name: 'very noisy rider, two blocks', ...veryNoisy, ...twoBlocks },
  { name: 'usual rider, three blocks', ...usual, looks: 3 },
  { name: 'usual rider, nobody advised it', ...usual, chances: half },
  { name: 'noisy rider, nobody advised it', ...noisy, chances: half },
  { name: 'usual rider, no longer sure (60 %)', ...usual, chances: { helps: 0.6, harms: 0.05 } },
  { name: 'rates one feeling only', ...usual, feelings: 1 },
  { name: 'gets better by 0.3 a run', ...usual, drift: (i) => 0.3 * i },
  { name: 'tires by 0.3 a run', ...usual, drift: (i) => -0.3 * i },
  { name: 'loses every fourth run', ...usual, loses: (i) => i % 4 === 3 },
  { name: 'open, believes in it by 0.3', ...usual, belief: 0.3 },
  { name: 'open, believes in it by 0.5', ...usual, belief: 0.5 },
  { name: 'open, believes in it by 0.5, three blocks', ...usual, belief: 0.5, looks: 3 },
  { name: 'short, usual rider', ...usual, short: true },
  { name: 'short, usual rider, two blocks', ...usual, short: true, ...twoBlocks },
  { name: 'short, noisy rider', ...noisy, short: true },
  { name: 'short, open, believes in it by 0.5', ...usual, belief: 0.5, short: true },
  { name: 'short, open, noisy rider who believes in it by 0.5', ...noisy, belief: 0.5, short: true },
  { name: 'both ways', ...usual, bothWays: true },
  { name: 'both ways, two blocks', ...usual, bothWays: true, ...twoBlocks },
  { name: 'both ways, likes any change by 0.5', ...usual, bothWays: true, likesChange: () => 0.5 },
];

/** Nothing is there, and the ratings are bent in a way that no comparison of a step with the reference can see. */
export const NOTHING_BUT_BENT: readonly Rider[] = [
  { name: 'learns, then levels off', ...usual, drift: (i) => 1.5 * (1 - Math.exp(-i / 2)) },
  { name: 'tires faster and faster', ...usual, drift: (i) => -0.04 * i * i },
  { name: 'hidden, yet likes any change by 0.5', ...usual, likesChange: () => 0.5 },
  { name: 'open, believes in it by 1', ...usual, belief: 1 },
];

/** Something is there to find: how often it is found. */
export const SOMETHING_THERE: readonly Rider[] = [
  { name: 'steady rider, +1', ...steady, step: 1 },
  { name: 'usual rider, +0.5', ...usual, step: 0.5 },
  { name: 'usual rider, +1', ...usual, step: 1 },
  { name: 'usual rider, +1.5', ...usual, step: 1.5 },
  { name: 'short, usual rider, +1.5', ...usual, step: 1.5, short: true },
  { name: 'noisy rider, +1', ...noisy, step: 1 },
  { name: 'usual rider, +1, two blocks', ...usual, step: 1, ...twoBlocks },
  { name: 'usual rider, +1, three blocks', ...usual, step: 1, looks: 3 },
  { name: 'noisy rider, +1, two blocks', ...noisy, step: 1, ...twoBlocks },
  { name: 'usual rider, +1, nobody advised it', ...usual, step: 1, chances: half },
  { name: 'usual rider, +1, no longer sure (60 %)', ...usual, step: 1, chances: { helps: 0.6, harms: 0.05 } },
  { name: 'open, +1, believes in it by 0.5', ...usual, step: 1, belief: 0.5 },
  { name: 'open, +1, believes nothing', ...usual, step: 1, belief: 0 },
  { name: 'both ways, +1 / -1', ...usual, step: 1, other: -1, bothWays: true },
  { name: 'both ways, +1 / -1, two blocks', ...usual, step: 1, other: -1, bothWays: true, ...twoBlocks },
  { name: 'both ways, peak half-way: 0 / -2', ...usual, step: 0, other: -2, bothWays: true, ...twoBlocks },
];

/** The step makes it worse by a point: every keep is harmful. */
export const HARM_THERE: readonly Rider[] = [
  { name: 'usual rider, -1', ...usual, step: -1 },
  { name: 'noisy rider, -1', ...noisy, step: -1 },
  { name: 'noisy rider, -1, two blocks', ...noisy, step: -1, ...twoBlocks },
  { name: 'very noisy rider, -1, two blocks', ...veryNoisy, step: -1, ...twoBlocks },
  { name: 'short, noisy rider, -1', ...noisy, step: -1, short: true },
  { name: 'open, -1, believes in it by 0.5', ...usual, step: -1, belief: 0.5 },
  { name: 'both ways, -1 / +1', ...usual, step: -1, other: 1, bothWays: true },
];

const believer = { belief: 0.5, short: true };

/** The same step of a rider alone, planned anew on another day until a verdict falls, and as often with each day by itself. */
export const ON_OTHER_DAYS: readonly Rider[] = [0, 1, 1.5, 2, -1].flatMap((step) =>
  [
    { ...usual, name: `usual rider, ${step}` },
    { ...noisy, name: `noisy rider, ${step}` },
  ].flatMap(({ name, ...rider }) => [
    ...[1, 2, 3].map((days) => ({ ...rider, ...believer, step, days, name: `${name}, days: ${days}` })),
    { ...rider, ...believer, step, days: 3, apart: true, name: `${name}, days: 3, each by itself` },
  ]),
);

export { ADVISED };
