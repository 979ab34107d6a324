/** One result for a tired mechanic: first the one thing to do, then why, then what waits. */
import { changeWords } from './change-words.ts';
import { askWords, capital, evidenceWords, type WordedRules } from './evidence-words.ts';
import { MOST_NAME, printable } from './foreign-text.ts';
import { whereText } from './interview-text.ts';
import { TRIED_BEFORE, type ResultAdjustment } from './result-adjustment.ts';
import type { Result } from './result.ts';
import { PLAIN, toAscii, type Style } from './style.ts';
import { inTen, percent, stopWords, withStep } from './phrases.ts';
import { paragraph } from './wrap.ts';

export interface TextOptions {
  readonly style?: Style;
  /** evidence, all candidates, knock-on and every caution */
  readonly full?: boolean;
  /** where the words of questions and answers are; without them their ids are printed */
  readonly rules?: WordedRules;
  /** the last line of a short report: how to see all of it; empty for none */
  readonly more?: string;
}

const NO_WORDS: WordedRules = { questions: [], settings: [] };

export function textReport(result: Result, options: TextOptions = {}): string {
  const style = options.style ?? PLAIN;
  const full = options.full ?? false;
  const rules = options.rules ?? NO_WORDS;
  const lines: string[] = [];
  const put = (text: string, lead = '  '): void => void lines.push(paragraph(text, style.width, lead));
  const head = (text: string): void => void lines.push('', style.strong(paragraph(text, style.width)));
  const names = [result.case, result.bike ?? ''].filter(Boolean).map((name) => printable(name, MOST_NAME));
  lines.push(style.quiet(paragraph(names.join('  ·  '), style.width)));
  for (const warning of result.warnings) put(style.warn(`Note: ${warning}`), '');
  const alarms = result.verdict === 'stop' ? new Map<string, string>() : alarmsOf(result, rules);
  for (const alarm of alarms.values()) put(style.warn(`Before riding, since ${alarm}`), '! ');
  verdict(result, rules, put, head, style, full);
  cautions(result, put, head, style, full);
  if (result.verdict !== 'stop') {
    waiting(result, put, head, full);
    asks(result, rules, put, head, full);
  }
  if (result.fit !== null && result.fit.reask.length > 1 && result.verdict !== 'stop') {
    head('The story does not hang together');
    put('These answers fit the rest least. Ask again:');
    for (const id of result.fit.reask) put(askWords(rules, id), '  - ');
  }
  const open = result.unconfirmed.filter((u) => !alarms.has(u.question ?? ''));
  if (open.length > 0 && result.verdict !== 'stop') {
    head('Said, but not confirmed (not counted)');
    for (const u of open.slice(0, full ? undefined : 3))
      put(`"${printable(u.phrase, MOST_NAME)}" ${u.note}`, '  - ');
  }
  if (full) detail(result, rules, put, head);
  const more = options.more ?? 'All of it: --full';
  if (!full && more !== '') put(style.quiet(more), '');
  const text = `${lines.join('\n').trimEnd()}\n`;
  return style.unicode ? text : toAscii(text);
}

/** The verdict in a line, for below a report that may have pushed its own head off the screen. */
export function inShort(result: Result, style: Style): string {
  const first = result.adjustments.find((a) => a.id === result.first);
  const says = {
    stop: 'do not ride this bike',
    change: first === undefined ? '' : `${first.do}${withStep(first)}`,
    leave: 'leave the bike as it is',
    unknown: 'change nothing yet',
  }[result.verdict];
  const cautions = result.verdict === 'change' ? ' The cautions above belong to it.' : '';
  const text = style.strong(paragraph(`In short: ${says}.${cautions}`, style.width));
  return `${style.unicode ? text : toAscii(text)}\n`;
}

/** What was said of a danger and nobody asked about: each question once, with the words that point to it. */
function alarmsOf(result: Result, rules: WordedRules): Map<string, string> {
  const asked = new Map<string, string>();
  for (const { phrase, question, answer } of result.unconfirmed) {
    const found = rules.questions.find((q) => q.id === question);
    if (found?.dangerous[answer ?? ''] === undefined || asked.has(found.id)) continue;
    asked.set(found.id, `"${printable(phrase, MOST_NAME)}" was said: ${askWords(rules, found.id)}`);
  }
  return asked;
}

function isSafety(rules: WordedRules, id: string | null): boolean {
  return rules.questions.find((q) => q.id === id)?.safety === true;
}

type Put = (text: string, lead?: string) => void;

function verdict(
  result: Result,
  rules: WordedRules,
  put: Put,
  head: (text: string) => void,
  style: Style,
  full: boolean,
): void {
  const lead = result.causes[0];
  const first = result.adjustments.find((a) => a.id === result.first);
  switch (result.verdict) {
    case 'stop':
      head(style.warn('STOP: do not ride this bike, do not tune around it'));
      for (const c of result.cautions.filter((x) => x.level === 'stop')) put(c.text);
      if (first !== undefined) put(`${first.do}.`);
      return;
    case 'change':
      head('Do this first');
      if (first !== undefined) doFirst(first, put, style, full);
      if (result.insteadOf !== null)
        put(`"${result.insteadOf.do}" would have been first, but ${result.insteadOf.why}. This comes next.`);
      if (first !== undefined) why(result, first, rules, put);
      if (result.because === 'repair-first')
        put('Repair comes before any click: a worn part makes every setting feel wrong.');
      return;
    case 'leave':
      head('Leave it alone');
      put(
        `Nothing on the bike looks off (${percent(result.nothing)}). That is an answer: the settings are not what the rider felt, or the ride was as it should be.`,
      );
      if (lead !== undefined) put(`Strongest rival: ${lead.name}, ${percent(lead.probability)}.`);
      return;
    case 'unknown':
      head('Not known yet: change nothing');
      put(
        `No change is worth its trial so far. Nothing off: ${percent(result.nothing)}; ${result.causes
          .slice(0, 2)
          .map((c) => `${c.name}: ${percent(c.probability)}`)
          .join('; ')}.`,
      );
      return;
  }
}

function doFirst(a: ResultAdjustment, put: Put, style: Style, full: boolean): void {
  put(`${style.strong(a.do)}${withStep(a)}.`);
  if (a.note !== null) put(`Note: ${a.note}.`);
  put(`Helps in ${inTen(a.helps)}, makes it worse in ${inTen(a.harms)}. Takes ${a.minutes} min.`);
  put(`Feel for: ${a.feel}`);
  put(`Way back: ${a.wayBack}`);
  knockOn(a, full ? undefined : 4, put, 2);
}

/** What the first adjustment cures, with the two answers that speak most for it. */
function why(result: Result, first: ResultAdjustment, rules: WordedRules, put: Put): void {
  const cause = result.causes.find((c) => c.id === first.cures) ?? result.causes[0]!;
  const speaks = cause.evidence
    .filter((e) => e.decibans > 0.5)
    .sort((a, b) => b.decibans - a.decibans)
    .slice(0, 2);
  put(
    `Why: ${cause.name}, ${percent(cause.probability)}${speaks.length === 0 ? '.' : '; most of all from:'}`,
  );
  for (const e of speaks) put(told(rules, e), '       - ');
}

/** `What bothers the rider most? Corners and berms` */
function told(rules: WordedRules, e: { readonly question: string; readonly answer: string }): string {
  const { question, answer } = evidenceWords(rules, e.question, e.answer);
  return question.endsWith('?') || question.endsWith('.')
    ? `${question} ${capital(answer)}`
    : `${question}: ${answer}`;
}

function waiting(result: Result, put: Put, head: (text: string) => void, full: boolean): void {
  if (result.adjustments.length > 1) {
    head('Only if that is not it');
    result.adjustments.slice(1, full ? undefined : 3).forEach((a, i) => {
      const lead = `  ${i + 2}. `;
      const before = a.note?.startsWith(TRIED_BEFORE) === true ? ` ${capital(a.note)}.` : '';
      put(`${a.do}${withStep(a)}. Helps in ${inTen(a.helps)}.${before}`, lead);
      knockOn(a, full ? undefined : 1, put, lead.length);
    });
    put('These have cautions of their own: ask again before doing one.');
  }
  for (const b of result.blocked.filter((x) => x.id !== result.insteadOf?.id).slice(0, full ? undefined : 2))
    put(`Not possible here: "${b.do}", because ${b.why}.`, '  ');
}

/** What a change does besides, a line each under one label. */
function knockOn(a: ResultAdjustment, most: number | undefined, put: Put, indent: number): void {
  const label = `${' '.repeat(indent)}Also does: `;
  a.knockOn.slice(0, most).forEach((k, i) => put(k, i === 0 ? label : ' '.repeat(label.length)));
}

function asks(
  result: Result,
  rules: WordedRules,
  put: Put,
  head: (text: string) => void,
  full: boolean,
): void {
  if (result.next === null && result.assignments.length === 0) return;
  head('Ask or check next');
  if (result.stop !== null) put(stopWords(result.stop));
  if (result.next !== null && result.stop !== 'dry') {
    const { ask, how, minutes, question } = result.next;
    const where = whereText(how, minutes);
    const lead = isSafety(rules, question)
      ? 'Before riding: '
      : result.stop === null
        ? ''
        : 'If you ask on: ';
    put(`${lead}${ask}${where === '' ? '' : ` (${where})`}${full ? ` [${question}]` : ''}`);
  }
  for (const a of result.assignments) put(a.text, '  - ');
}

function cautions(result: Result, put: Put, head: (text: string) => void, style: Style, full: boolean): void {
  const list =
    result.verdict === 'stop' ? result.cautions.filter((c) => c.level !== 'stop') : result.cautions;
  const shown = full ? list : list.filter((c) => c.level !== 'note').slice(0, 4);
  if (shown.length === 0) return;
  head('Cautions');
  for (const c of shown) put(c.level === 'note' ? c.text : style.warn(c.text), '  ! ');
}

/** Less than this, in decibans, says nothing. */
const NOTHING_SAID = 0.05;

function detail(result: Result, rules: WordedRules, put: Put, head: (text: string) => void): void {
  head('What it could be');
  put(`nothing off: ${percent(result.nothing)}`);
  for (const c of result.causes) {
    put(`${c.name}: ${percent(c.probability)}  [${c.id}]`);
    for (const e of c.evidence)
      if (Math.abs(e.decibans) >= NOTHING_SAID)
        put(told(rules, e), `    ${signedDecibans(e.decibans).padStart(6)} dB  `);
  }
  if (result.trials.length > 0) {
    head('What the trials said');
    const names = new Map(result.causes.map((c) => [c.id, c.name]));
    for (const t of result.trials)
      put(
        `${changeWords(t.change)}: ${t.outcome}; moved most: ${names.get(t.cause) ?? t.cause} by ${signedDecibans(t.decibans)} dB`,
      );
  }
  head('How it was reckoned');
  if (result.fit !== null)
    put(
      `Fit of the story: z = ${result.fit.z.toFixed(2).replace('-', '−')} (the higher, the less it hangs together).`,
    );
  put(`Rules: ${result.rules.name} ${result.rules.version} (${result.rules.digest.slice(0, 12)})`);
}

function signedDecibans(decibans: number): string {
  return `${decibans >= 0 ? '+' : '−'}${Math.abs(decibans).toFixed(1)}`;
}
