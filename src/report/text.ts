/** One result for a tired mechanic: first the one thing to do, its way back and its cautions, then why, then what waits. */
import { alarmLines, alarmsOf, quietPhrases } from './verdict/alarms.ts';
import { askedLines } from './verdict/asked-lines.ts';
import { complaintLines } from './verdict/complaint-lines.ts';
import { detail, type Head, type Put } from './full-detail.ts';
import { askWords, choiceWords, type Audience, type WordedRules } from './evidence-words.ts';
import { MOST_NAME, printable } from './foreign-text.ts';
import { whereText } from './interview-text.ts';
import { withoutStop, percent } from '../form/text.ts';
import { plainResult } from './plain-words.ts';
import { atOnceWords, heedWords, likelyOf, likelyWords, stopWords, withStep } from './phrases.ts';
import { type ResultAdjustment, firstOf, type Result } from './result/result.ts';
import { fit, PLAIN, type Style } from './style.ts';
import {
  cautionLine,
  chanceLines,
  feelLine,
  noteLine,
  orderTexts,
  stepLines,
  undoLines,
  whyLines,
} from './verdict/step-lines.ts';
import { headLine, maybes, refusedLines, toldAbove, verdictLines } from './verdict/verdict-lines.ts';
import { ideaWords, NO_WORDS, taskWords, type Words } from './verdict/voice.ts';
import { paragraph } from './wrap.ts';

/** Side effects that a short report shows. */
export const MOST_SIDE_EFFECTS = 2;

export interface TextOptions {
  readonly style?: Style;
  /** evidence, all candidates, knock-on and every caution */
  readonly full?: boolean;
  /** where the words of questions and answers are; without them their ids are printed */
  readonly rules?: WordedRules;
  /** a rider alone gets plain words; default: mechanic */
  readonly audience?: Audience;
  /** the last line of a short report: how to see all of it; empty for none */
  readonly more?: string;
}

export function textReport(result: Result, options: TextOptions = {}): string {
  const style = options.style ?? PLAIN;
  const full = options.full ?? false;
  const words: Words = {
    style,
    rules: options.rules ?? NO_WORDS,
    audience: options.audience ?? 'mechanic',
  };
  const lines: string[] = [];
  const put = (text: string, lead = '  '): void => void lines.push(paragraph(text, style.width, lead));
  const head = (text: string): void => void lines.push('', style.strong(paragraph(text, style.width)));
  const names = [result.case, result.bike ?? ''].filter(Boolean).map((name) => printable(name, MOST_NAME));
  lines.push(style.quiet(paragraph(names.join('  ·  '), style.width)));
  for (const warning of result.warnings) put(style.warn(`Note: ${warning}`), '');
  // Where nothing is advised, the verdict itself says what is not.
  if (result.verdict === 'change')
    for (const line of refusedLines(result, words.audience)) put(style.warn(line), '');
  const alarms = alarmsOf(result, words.rules, words.audience);
  lines.push(...alarmLines(alarms, words), '', headLine(result, words), ...verdictLines(result, words));
  const first = firstOf(result);
  if (result.verdict === 'change' && first !== undefined) {
    lines.push(...stepLines(first, words), ...chanceLines(first, words), ...undoLines(first, words));
    if (first.note !== null) lines.push(noteLine(first.note, words));
    for (const line of first.ridden) put(line);
  }
  for (const line of result.trades ?? []) put(line);
  for (const caution of cautionsShown(result, full)) lines.push(cautionLine(caution, words));
  if (result.verdict === 'change' && first !== undefined) reasons(result, first, put, lines, words, full);
  const may = full ? [] : maybes(result);
  if (may.length > 0) {
    head('What it may be');
    for (const idea of may) put(`${ideaWords(idea, words)} (${percent(idea.probability)})`, '  - ');
  }
  const complaints = [...complaintLines(result, words).map(({ line }) => line), ...askedLines(result, words)];
  if (complaints.length > 0) {
    head('What was said');
    lines.push(...complaints);
  }
  if (result.verdict !== 'stop') {
    waiting(result, put, head, words, full);
    asks(result, put, head, words, alarms, full);
    doubts(result, put, head, words, alarms, full);
  }
  if (full) detail(result, put, head, words);
  const more = options.more ?? 'More: --full';
  if (!full && more !== '') put(style.quiet(more), '');
  return fit(`${lines.join('\n').trimEnd()}\n`, style);
}

/** Below STOP its own text stands already. */
function cautionsShown(result: Result, full: boolean): Result['cautions'] {
  const list =
    result.verdict === 'stop' ? result.cautions.filter((c) => c.level !== 'stop') : result.cautions;
  return full ? list : list.filter((c) => c.level !== 'note');
}

/** What to feel for, why this one, and what it does besides. */
function reasons(
  result: Result,
  first: ResultAdjustment,
  put: Put,
  lines: string[],
  words: Words,
  full: boolean,
): void {
  lines.push(feelLine(first, words), ...whyLines(result, first, words));
  // What the model says of the bike in numbers is for a mechanic.
  if (words.audience === 'mechanic') sideEffects(first, full ? undefined : MOST_SIDE_EFFECTS, put, 2);
  for (const text of orderTexts(words.audience === 'rider' ? plainResult(result, words.rules) : result))
    put(text);
}

/** Below this chance of its cause a change is not worth a line. */
const WORTH_TRYING = 0.05;

/** From here on a change is a job in the workshop, minutes. */
const JOB = 20;

/** What was passed over for a job of the workshop on the same cause: where that does not cure it, less of the same will not. */
function isPassedOver({ cures, minutes }: ResultAdjustment, first: ResultAdjustment | undefined): boolean {
  return (
    first !== undefined && cures !== null && cures === first.cures && minutes < JOB && first.minutes >= JOB
  );
}

function waiting(result: Result, put: Put, head: Head, words: Words, full: boolean): void {
  const others = result.adjustments
    .slice(1, full ? undefined : 3)
    // Nobody tries what helps once in twenty times.
    .filter((a) => full || (likelyOf(a) >= WORTH_TRYING && !isPassedOver(a, firstOf(result))));
  if (others.length > 0) {
    head("If that doesn't fix it");
    others.forEach((a, i) => {
      const lead = `  ${i + 2}. `;
      // The same cause has its number above.
      const odds =
        a.cures !== null && a.cures === firstOf(result)?.cures ? 'for the same cause' : likelyWords(a);
      const what = words.audience === 'rider' ? withoutStop(a.plain) : `${a.do}${withStep(a)}`;
      put(`${what}: ${odds}.${heedWords(a)}`, lead);
      if (full && words.audience === 'mechanic') sideEffects(a, undefined, put, lead.length);
    });
    const separate = new Map(
      [...result.adjustments.slice(0, 1), ...others].map((a) => [a.cures ?? a.id, likelyOf(a)]),
    );
    // Every cause and its chance stands in the detail, where that is said of them.
    const atOnce = full ? undefined : atOnceWords([...separate.values()], 10);
    if (atOnce !== undefined) put(atOnce);
    put('Ask again before you try one of these. Each has its own cautions.');
  }
  if (words.audience === 'mechanic')
    for (const b of result.blocked
      // What the verdict itself, or what comes first, says already is not said again.
      .filter(
        (x) =>
          result.verdict === 'change' &&
          x.id !== result.insteadOf?.id &&
          result.refused.every(({ id }) => id !== x.id),
      )
      .slice(0, full ? undefined : 1))
      put(`Not possible on this bike: "${b.do}", because ${b.why}.`, '  ');
}

/** What a change does besides, a line each under one label. */
function sideEffects(a: ResultAdjustment, most: number | undefined, put: Put, indent: number): void {
  const label = `${' '.repeat(indent)}Side effects: `;
  a.knockOn.slice(0, most).forEach((k, i) => put(k, i === 0 ? label : ' '.repeat(label.length)));
}

function asks(
  result: Result,
  put: Put,
  head: Head,
  { rules, audience }: Words,
  alarms: ReadonlyMap<string, string>,
  full: boolean,
): void {
  // What must be checked before riding, or would tell most where nothing is advised, stands on top already.
  const told = toldAbove(result, { rules, audience });
  const next = alarms.has(result.next?.question ?? '') || result.next?.question === told ? null : result.next;
  const tasks = result.assignments.filter(({ question }) => question !== told);
  // A check that is named for a complaint would tell more of that.
  const done =
    result.stop !== null && (result.stop !== 'dry' || result.complaints.every(({ ask }) => ask === null));
  const ask = result.stop === 'dry' ? null : next;
  if (tasks.length === 0 && (next === null || (ask === null && !done))) return;
  head(
    ask === null && tasks.length > 0 ? 'To check' : result.stop === null ? 'Next question' : 'More questions',
  );
  if (done) put(stopWords(result.stop, result.verdict));
  if (ask !== null) {
    const { how, minutes, question } = ask;
    const where = whereText(how, minutes);
    const safety = rules.questions.find((q) => q.id === question)?.safety === true;
    const lead =
      safety && result.verdict !== 'change'
        ? 'Before riding: '
        : result.stop === null
          ? ''
          : 'One more, if you like: ';
    const words = rules === NO_WORDS ? ask.ask : askWords(rules, question, audience);
    const choice = choiceWords(rules, question, audience);
    put(`${lead}${words}${where === '' ? '' : ` (${where})`}${choice}${full ? ` [${question}]` : ''}`);
  }
  for (const a of tasks) put(taskWords(a, { rules, audience }), '  - ');
}

/** Answers that do not fit together, and words that nobody confirmed. */
function doubts(
  result: Result,
  put: Put,
  head: Head,
  { rules, audience }: Words,
  alarms: ReadonlyMap<string, string>,
  full: boolean,
): void {
  if (result.fit !== null && result.fit.reask.length > 1) {
    head("Some answers don't fit together. Ask again:");
    for (const id of result.fit.reask) put(askWords(rules, id, audience), '  - ');
  }
  const settled = new Set(result.complaints.flatMap((c) => (c.helped === null ? [] : c.phrase)));
  // What is said of a complaint, with the question that settles it, is not said again.
  const asked = ({ phrase, question }: Result['unconfirmed'][number]): boolean =>
    result.complaints.some((c) => c.phrase === phrase && c.ask !== null && c.ask === question);
  const open = quietPhrases(result.unconfirmed, rules, alarms).filter(
    (u) => !settled.has(u.phrase) && !asked(u),
  );
  if (open.length === 0) return;
  head('Said, but not confirmed (not counted)');
  for (const u of open.slice(0, full ? undefined : 3))
    put(`"${printable(u.phrase, MOST_NAME)}" ${u.note}`, '  - ');
}
