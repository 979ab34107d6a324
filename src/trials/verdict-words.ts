/** What a judgement says, in sentences a rider and a mechanic can act on. */
import { percent } from '../form/percent.ts';
import type { Effect, Judgement } from './judge.ts';
import { standWords, tidy, wordsFor, type Trial } from './trial.ts';

/** The verdict in one sentence: what to do with the adjuster now. @param closed no more runs will be ridden */
export function verdictSentence(trial: Trial, judged: Judgement, closed = false): string {
  const stand = (set: number): string => standWords(trial.change, set);
  const name = `the ${wordsFor(trial.change)}`;
  const at = `${name} at ${stand(judged.set)}`;
  switch (judged.verdict) {
    case 'keep':
      return `Keep ${at}.`;
    case 'further':
      return `Keep ${at} for now, and try ${trial.change.names?.[judged.next!] ?? tidy(judged.next!)} next: it was still getting better.`;
    case 'half':
      return `Half the step: put ${name} to ${stand(judged.set)}; the best lies between, and that is to be tried, not known.`;
    case 'back':
      return `Put ${name} back to ${stand(judged.set)}: nothing that was tried is worth having.`;
    case 'cannot-tell':
      if (closed)
        return `Ended without a verdict: put ${name} back to ${stand(judged.set)}, where it stood before. The ratings still count.`;
      return `Cannot tell. Put ${name} back to ${stand(judged.set)} until more runs tell.`;
  }
}

/** The grounds of the verdict, most telling first. */
export function grounds(trial: Trial, judged: Judgement, closed = false): string[] {
  return [
    ...missingSentence(judged),
    ...judged.effects.map((effect) => effectSentence(trial, effect)),
    ...openSentence(trial, judged),
    ...scatterSentence(judged),
    ...likingSentence(judged),
    ...driftSentence(judged),
    ...timeSentences(judged),
    ...(closed ? [] : moreSentence(judged)),
    ...trial.notes,
  ];
}

function effectSentence(trial: Trial, effect: Effect): string {
  const where = effect.arm === 'sham' ? 'The sham' : standWords(trial.change, effect.set);
  const worth =
    effect.arm === 'sham' ? '' : `; ${percent(effect.chanceWorthwhile)} chance that it is worth having`;
  return `${where} against the reference: ${signed(effect.difference)} points, likely ${signed(effect.low)} to ${signed(effect.high)}${worth}. Ridden ${effect.runs} ${effect.runs === 1 ? 'time' : 'times'}.`;
}

/** Whether the rider may have heard what was set. */
function openSentence({ hidden, expected }: Trial, { effects }: Judgement): string[] {
  if (hidden === true || expected === undefined || effects.length === 0) return [];
  const who =
    hidden === false
      ? 'The rider knew the settings'
      : 'Nobody said that the settings were hidden from the rider';
  return [
    `${who}. Belief alone can be worth ${expected.open[0].toFixed(1)} points, so this counts for less.`,
  ];
}

function scatterSentence({ scatter, noise }: Judgement): string[] {
  if (scatter !== true || noise === undefined) return [];
  return [
    `The ratings scatter by ${noise.toFixed(1)} points from run to run. That takes a second block of runs.`,
  ];
}

const MISSING: Readonly<Record<NonNullable<Judgement['missing']>, string>> = {
  change: 'No run with a change has been ridden yet.',
  'reference-after':
    'A reference run after the change is missing; without it a change and a drift look alike.',
  'common-feeling': 'The runs share no feeling that was rated in both, so they cannot be compared.',
};

function missingSentence({ missing }: Judgement): string[] {
  return missing === undefined ? [] : [MISSING[missing]];
}

/** From here on, liking any change is worth a word. */
const NOTABLE = 0.9;

function likingSentence({ liking }: Judgement): string[] {
  if (liking === undefined || liking.chance < NOTABLE) return [];
  return [
    `Whatever was changed felt better, by ${signed(liking.mean)} points: part of this is the habit of liking a change. Have somebody else set the adjuster.`,
  ];
}

function driftSentence({ drift }: Judgement): string[] {
  if (drift === undefined || (drift.low < 0 && drift.high > 0)) return [];
  return [`Every setting drifted by ${signed(drift.mean)} points a run; that is taken out.`];
}

function timeSentences({ times = [], arm }: Judgement): string[] {
  return times.flatMap((time) => {
    if (time.arm !== arm || time.chanceFaster > 1 - NOTABLE) return [];
    return [
      `It is slower by ${time.difference.toFixed(1)} s (${time.low.toFixed(1)} to ${time.high.toFixed(1)}), though it feels better: decide which of the two matters.`,
    ];
  });
}

function moreSentence({ more }: Judgement): string[] {
  if (more === undefined) return [];
  if (more === null)
    return ['No number of runs that is worth a day would tell: leave it, and look elsewhere.'];
  const runs = `${more.runs} more ${more.runs === 1 ? 'run' : 'runs'}`;
  if (more.verdict === undefined) return [`Ride ${runs} to finish the block.`];
  return [`If it goes on like this, ${runs} would tell.`];
}

function signed(points: number): string {
  const size = Math.abs(points).toFixed(1);
  return size === '0.0' ? size : `${points < 0 ? '−' : '+'}${size}`;
}
