/** Numbers and steps in words; one way of saying each, for every printed form. */
import { withoutStop, capital } from '../form/text.ts';
import type { Result, ResultAdjustment } from './result/result.ts';
import type { StopReason } from '../advice/stop.ts';
import { amountWords, spanWords } from '../bike/setting-words.ts';

/** A chance as a mechanic says it. */
export function inTen(p: number): string {
  if (p < 0.05) return 'under 1 in 20';
  if (p > 0.95) return 'over 19 in 20';
  return `${Math.max(1, Math.round(p * 10))} in 10`;
}

type Stepped = Pick<ResultAdjustment, 'by' | 'unit' | 'amount' | 'from' | 'to' | 'positions'>;

/** `2 clicks out (8 → 10 from closed)`, `5 psi more (82 → 87 psi)`; nothing when it is no number. */
export function stepWords(a: Stepped): string {
  if (a.amount !== null) return a.amount;
  if (a.by === null || a.unit === null) return '';
  // A switch goes from one name to another; without knowing from where, what to do says it all.
  if (a.unit === 'positions')
    return a.from === null || a.to === null
      ? ''
      : `${a.positions?.[a.from] ?? a.from} → ${a.positions?.[a.to] ?? a.to}`;
  const words = amountWords(a.by > 0, String(Math.abs(a.by)), a.unit);
  if (a.from === null || a.to === null)
    return a.unit === 'clicks' ? `${words} from the current setting` : words;
  return `${words} (${spanWords(a.from, a.to, a.unit)})`;
}

/** Why no more is asked; what can be tested is only said to be where something is advised. */
export function stopWords(stop: StopReason, verdict: Result['verdict']): string {
  const test = verdict === 'change' ? ' Go and test it.' : '';
  switch (stop) {
    case 'danger':
      return 'No more questions: deal with this first.';
    case 'enough':
      return `I've asked enough.${test}`;
    case 'settled':
      return `No likely answer would change this now.${test}`;
    case 'dry':
      return 'No question left would decide it.';
    case 'full':
      return `That is enough questions.${test}`;
  }
}

/** The change after a colon, where there is one. */
export function withStep(a: Stepped): string {
  const words = stepWords(a);
  return words === '' ? '' : `: ${words}`;
}

/** What is to be heeded of a step that waits, as sentences after a blank; of what was ridden, when and how it was rated is enough. */
export function heedWords({ heed, ridden }: Pick<ResultAdjustment, 'heed' | 'ridden'>): string {
  return [
    ...(heed === null ? [] : [capital(heed)]),
    ...ridden.slice(0, 1).map((line) => withoutStop(line.split('. ')[0]!)),
  ]
    .map((sentence) => ` ${sentence}.`)
    .join('');
}

/** An interview by its name; one that nobody named is called interview already. */
export function interviewName(id: string): string {
  return id.startsWith('interview') ? id : `interview ${id}`;
}

/** `40 min`, `2 h`, `1.5 h` */
export function timeWords(minutes: number): string {
  return minutes < 60 ? `${minutes} min` : `${Math.round(minutes / 6) / 10} h`;
}

type Likely = Pick<ResultAdjustment, 'likely' | 'helps'>;

/** The chance that is told of a change: that of the cause it is for, so that a cause has one number wherever it is named. */
export function likelyOf({ likely, helps }: Likely): number {
  return likely ?? helps;
}

/** Chances of separate causes that come to more than one, as they are told: that is no slip. @param told in tenths, or in percent */
export function atOnceWords(told: readonly number[], whole: 10 | 100): string | undefined {
  const sum = told.reduce((all, chance) => all + Math.round(chance * whole), 0);
  return sum > whole ? 'More than one can be true, so these odds add up to more than one.' : undefined;
}

/** `9 in 10 this is the cause` */
export function likelyWords(a: Likely): string {
  return `${inTen(likelyOf(a))} this is the cause`;
}

/** `9 in 10 this is the cause. One step: 7 in 10 better, 1 in 10 worse`; a repair is no step. */
export function chancesWords(
  a: Likely & Pick<ResultAdjustment, 'feelsBetter' | 'feelsWorse' | 'by' | 'minutes'>,
): string {
  // What takes no time leaves the bike as it is: nothing gets better or worse by it.
  if (a.minutes === 0) return likelyWords(a);
  if (a.feelsBetter === null || a.feelsWorse === null) return 'this is only a check; it changes nothing';
  return `${likelyWords(a)}. ${a.by === null ? 'After it' : 'One step'}: ${inTen(a.feelsBetter)} better, ${inTen(a.feelsWorse)} worse`;
}

/** What is to be noted, in one sentence without its stop; null where nothing is. */
export function noteOf(...all: readonly (string | undefined)[]): string | null {
  const said = all.filter((note) => note !== undefined);
  return said.length === 0 ? null : said.join('; ');
}
