/** What a judgement says, in sentences a rider and a mechanic can act on. */
import { amountWords } from '../bike/setting-words.ts';
import { asRead } from '../bike/units.ts';
import { capital, percent } from '../form/text.ts';
import type { Effect, Judgement } from './judge.ts';
import { leaning, showsNone } from './leaning.ts';
import { earlierSittings } from './pooled.ts';
import { counted } from './sequence.ts';
import { placeWords, standWords, wordsFor, type Trial } from './trial.ts';

/** The verdict in one sentence: what to do with the adjuster now. @param closed no more runs will be ridden */
export function verdictSentence(trial: Trial, judged: Judgement, closed = false): string {
  const stand = (set: number): string => standWords(trial.change, set);
  const name = `the ${wordsFor(trial.change)}`;
  const at = `${name} at ${stand(judged.set)}`;
  switch (judged.verdict) {
    case 'keep':
      if (judged.byGauge === true)
        return `Keep ${at}: the gauge asks for it, and it was not clearly rated worse.`;
      return judged.onWord === true
        ? `Keep ${at}, on the rider's word: rated better, but not surely.`
        : `Keep ${at}.`;
    case 'further':
      return `Keep ${at} for now, and try ${placeWords(trial.change, judged.next!)} next: it was still getting better.`;
    case 'half':
      return `Half the step: set ${name} to ${stand(judged.set)}. The best setting is somewhere in between. Test it.`;
    case 'back':
      return `${capital(backTo(trial, judged))}: nothing tried was worth keeping.`;
    case 'cannot-tell':
      // All runs are in, and no number of further ones would tell: that is the verdict, closed or not.
      if (isOver(judged) && leaning(judged) === 'better')
        return `Better, but not sure, and more runs like these won't tell. ${
          closed
            ? capital(backTo(trial, judged))
            : `Keep the step on the rider's word, or ${backTo(trial, judged)}`
        }${
          // Whoever did not know the settings gains nothing by it.
          trial.hidden === true ? '' : ', or test it again with somebody else setting it unseen'
        }. The ratings still count.`;
      if (isOver(judged)) return overSentence(trial, judged);
      if (closed) return `No verdict: ${backTo(trial, judged)}, as it was. The ratings still count.`;
      if (judged.more?.verdict !== undefined)
        return `${LEANING[leaning(judged)]}: ${againWords(trial, judged.more.runs)}.`;
      return `${LEANING[leaning(judged)]}. ${capital(backTo(trial, judged))} until more runs are in.`;
  }
}

/** More runs like these would bring nothing, and what was ridden leans to no better. */
function overSentence(trial: Trial, judged: Judgement): string {
  const back = backTo(trial, judged);
  if (tooScattered(judged))
    return `Can't tell: the ratings scatter too much, and more runs like these won't help. ${capital(back)}. ${
      isOneMark(trial)
        ? 'Rate every feeling when it is ridden again'
        : 'Ride it again where every run can be ridden alike'
    }. The ratings still count.`;
  return `${leaning(judged) === 'worse' ? 'Worse, if anything' : 'No clear difference'}: ${back}, and look elsewhere. The ratings still count.`;
}

/** Whether ratings without a verdict rule nothing out, and so the step may be named again. */
export function tooScattered(judged: Judgement): boolean {
  const real = judged.effects.filter(({ arm }) => arm !== 'sham');
  return leaning(judged) === 'none' && real.some(({ measured }) => !showsNone(measured));
}

const LEANING = {
  better: 'Better so far, but not sure yet',
  worse: 'Worse so far, but not sure yet',
  none: "Can't tell yet",
} as const;

/** Without a verdict, and more runs like these would bring none, or no other than to put it back, which can be done now. */
export function isOver({ verdict, more }: Pick<Judgement, 'verdict' | 'more'>): boolean {
  return verdict === 'cannot-tell' && (more === null || more?.verdict === 'back');
}

/** `ride the same runs once more (4 runs)`. @param more runs, so many times those of the trial */
export function againWords(trial: Trial, more: number): string {
  const times = more / counted(trial).length;
  return `ride the same runs ${TIMES[times] ?? `${times} times`} more (${more} runs)`;
}

const TIMES: Readonly<Record<number, string>> = { 1: 'once', 2: 'twice' };

/** A trial without a verdict that leans to better, kept on the rider's word; undefined where it leans nowhere. */
export function keptOnWord(judged: Judgement): Judgement | undefined {
  if (judged.verdict !== 'cannot-tell' || leaning(judged) !== 'better') return undefined;
  const [best] = judged.effects
    .filter(({ arm }) => arm !== 'sham')
    .toSorted((a, b) => b.difference - a.difference);
  const { arm, set } = best!;
  return { ...judged, verdict: 'keep', arm, set, onWord: true };
}

/** What a trial comes to: one that was closed as kept stays so, where its ratings alone would show nothing. */
export function asClosed({ verdict }: Trial, judged: Judgement): Judgement {
  return verdict === 'keep' ? (keptOnWord(judged) ?? judged) : judged;
}

/** `leave the front rebound at 10 clicks` where the last run was ridden there, otherwise put it back. */
function backTo(trial: Trial, { set }: Judgement): string {
  const last = trial.ridden.at(-1)?.arm;
  const there = trial.arms.find(({ name }) => name === last)?.set === set;
  const name = wordsFor(trial.change);
  return `${there ? 'leave' : 'put'} the ${name} ${there ? 'at' : 'back to'} ${standWords(trial.change, set)}`;
}

/**
 * What is looked at on the bike after a trial that kept nothing: `the front rebound is back at 10 clicks`. Undefined where
 * the last run was ridden there, or something was kept.
 */
export function putBackWords({
  arms: [reference, ...others],
  change,
  ridden,
  verdict,
}: Trial): string | undefined {
  const last = others.find(({ name }) => name === ridden.at(-1)?.arm);
  if (last === undefined || last.set === reference.set) return undefined;
  return verdict === 'back' || verdict === 'cannot-tell'
    ? `the ${wordsFor(change)} is back at ${standWords(change, reference.set)}`
    : undefined;
}

/** Where the bike stands in an open trial, while that is not where its sheet has it; undefined where the sheet holds. */
export function stoodLastWords({
  id,
  arms: [reference, ...others],
  change,
  ridden,
}: Trial): string | undefined {
  const last = others.find(({ name }) => name === ridden.at(-1)?.arm);
  return last === undefined || last.set === reference.set
    ? undefined
    : `Trial ${id} is open: its last run had the ${wordsFor(change)} at ${standWords(change, last.set)}, not at ${placeWords(change, reference.set)} as below.`;
}

/** The grounds of the verdict, most telling first. */
export function grounds(trial: Trial, judged: Judgement, closed = false): string[] {
  return [
    ...missingSentence(judged),
    ...judged.effects.map((effect) => effectSentence(trial, effect, judged)),
    ...openSentence(trial, judged),
    ...scatterSentence(trial, judged),
    ...likingSentence(judged),
    ...driftSentence(judged),
    ...timeSentences(judged),
    ...(closed ? [] : moreSentence(judged)),
    ...trial.notes,
  ];
}

function effectSentence(trial: Trial, effect: Effect, judged: Judgement): string {
  const { change } = trial;
  const [reference] = trial.arms;
  const place = (set: number): string => placeWords(change, set);
  const from = change.unit === 'clicks' ? ' from closed' : '';
  const step =
    change.names === undefined
      ? `${capital(amountWords(effect.set > reference.set, String(Math.abs(asRead(effect.set - reference.set, change.unit))), change.unit))} (at ${place(effect.set)}${from})`
      : capital(place(effect.set));
  const where = effect.arm === 'sham' ? 'Turned and turned back' : step;
  return `${where} against ${place(reference.set)}: rated ${pointsWords(effect.difference)}, likely ${rangeWords(effect)}: ${sayOf(trial, effect, judged)}. Ridden ${effect.runs} ${effect.runs === 1 ? 'time' : 'times'}${together(trial)}.`;
}

function together(trial: Trial): string {
  const more = earlierSittings(trial).length;
  return more === 0 ? '' : `, in ${more + 1} trials together`;
}

/** `2.3 points worse (of 7)`, `the same` */
function pointsWords(points: number): string {
  const size = Math.abs(points).toFixed(1);
  if (size === '0.0') return 'the same';
  return `${size} ${size === '1.0' ? 'point' : 'points'} ${points < 0 ? 'worse' : 'better'} (of 7)`;
}

/** `1.1 to 3.4 worse`, `0.8 worse to 1.1 better` */
function rangeWords({ low, high }: Pick<Effect, 'low' | 'high'>): string {
  const size = (points: number): string => Math.abs(points).toFixed(1);
  const [near, far] = Math.abs(low) < Math.abs(high) ? [low, high] : [high, low];
  if (low * high > 0) return `${size(near)} to ${size(far)} ${low < 0 ? 'worse' : 'better'}`;
  return `${size(low)} worse to ${size(high)} better`;
}

/** One word for what was rated; the chance only where the verdict rests on it, so that no line speaks against another. */
function sayOf(trial: Trial, effect: Effect, { verdict, arm, byGauge }: Judgement): string {
  if (effect.high < 0) return 'worse';
  const kept = byGauge !== true && (verdict === 'keep' || verdict === 'further');
  if (kept && effect.arm === arm)
    return `better, ${percent(effect.chanceWorthwhile)} chance it is worth keeping`;
  if (effect.low > 0) {
    // About the interval's own width, with what belief may add taken off.
    const { points, error } = effect.measured;
    if (trial.hidden !== true && points - 2 * error <= 0)
      return 'better, but no more than believing in the step could explain';
    return verdict === 'cannot-tell' ? 'better, but not sure enough to keep it' : 'better';
  }
  const leans = verdict === 'cannot-tell' ? leaning({ effects: [effect] }) : 'none';
  return leans === 'none' ? 'no clear difference' : `${leans}, if anything`;
}

/** Whether the rider may have heard what was set. */
function openSentence({ hidden, expected }: Trial, { effects }: Judgement): string[] {
  if (hidden === true || expected === undefined || effects.length === 0) return [];
  const who =
    hidden === false ? 'The rider knew the settings' : 'Nobody said the settings were hidden from the rider';
  return [
    `${who}. Knowing alone can move a rating by ${expected.open[0].toFixed(1)} points, so this counts for less.`,
  ];
}

function isOneMark({ ridden }: Trial): boolean {
  return ridden.every(({ ratings }) => Object.keys(ratings).length < 2);
}

function scatterSentence(trial: Trial, judged: Judgement): string[] {
  const { scatter, noise } = judged;
  if ((scatter !== true && !(isOver(judged) && tooScattered(judged))) || noise === undefined) return [];
  if (isOneMark(trial)) return ['One mark a run says little. Rate every feeling on the sheet.'];
  return [`The ratings jump by ${noise.toFixed(1)} points from run to run: too much to tell.`];
}

const MISSING: Readonly<Record<NonNullable<Judgement['missing']>, string>> = {
  change: 'No run with the change yet.',
  'reference-after':
    'Ride the reference once more after the change: without it, change and drift look the same.',
  'common-feeling': 'No feeling was rated in both settings, so they cannot be compared.',
};

function missingSentence({ missing }: Judgement): string[] {
  return missing === undefined ? [] : [MISSING[missing]];
}

/** From here on, liking any change is worth a word. */
const NOTABLE = 0.9;

function likingSentence({ liking }: Judgement): string[] {
  if (liking === undefined || liking.chance < NOTABLE) return [];
  return [
    `Whatever was changed felt better, by ${signed(liking.mean)} points. Riders tend to like a change: have somebody else set the adjuster.`,
  ];
}

function driftSentence({ drift }: Judgement): string[] {
  if (drift === undefined || (drift.low < 0 && drift.high > 0)) return [];
  return [
    `The ratings drifted by ${signed(drift.mean)} points a run, whatever was set. That is allowed for.`,
  ];
}

function timeSentences({ times = [], arm }: Judgement): string[] {
  return times.flatMap((time) => {
    if (time.arm !== arm || time.chanceFaster > 1 - NOTABLE) return [];
    return [
      `It feels better but is ${time.difference.toFixed(1)} s slower (${time.low.toFixed(1)} to ${time.high.toFixed(1)}). Decide which matters.`,
    ];
  });
}

function moreSentence({ more }: Judgement): string[] {
  if (more === undefined) return [];
  if (more === null) return ["More runs won't settle it."];
  const runs = `${more.runs} more ${more.runs === 1 ? 'run' : 'runs'}`;
  if (more.verdict === undefined) return [`Ride ${runs} to finish this round.`];
  if (more.verdict === 'back') return [`${capital(runs)} like these would say no more than that.`];
  return [`At this rate ${runs} should settle it.`];
}

function signed(points: number): string {
  const size = Math.abs(points).toFixed(1);
  return size === '0.0' ? size : `${points < 0 ? '−' : '+'}${size}`;
}
