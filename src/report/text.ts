/** One result for a tired mechanic: first the one thing to do, then why, then what waits. */
import { MOST_NAME, printable } from './foreign-text.ts';
import type { ResultAdjustment } from './result-adjustment.ts';
import type { Result } from './result.ts';
import { PLAIN, toAscii, type Style } from './style.ts';
import { inTen, percent, stopWords, withStep } from './phrases.ts';
import { paragraph } from './wrap.ts';

export interface TextOptions {
  readonly style?: Style;
  /** evidence, all candidates, knock-on and every caution */
  readonly full?: boolean;
  /** the last line of a short report: how to see all of it; empty for none */
  readonly more?: string;
}

export function textReport(result: Result, options: TextOptions = {}): string {
  const style = options.style ?? PLAIN;
  const full = options.full ?? false;
  const lines: string[] = [];
  const put = (text: string, lead = '  '): void => void lines.push(paragraph(text, style.width, lead));
  const head = (text: string): void => void lines.push('', style.strong(paragraph(text, style.width)));
  const names = [result.case, result.bike ?? ''].filter(Boolean).map((name) => printable(name, MOST_NAME));
  lines.push(style.quiet(paragraph(names.join('  ·  '), style.width)));
  for (const warning of result.warnings) put(style.warn(`Note: ${warning}`), '');
  verdict(result, put, head, style, full);
  if (result.adjustments.length > 1 && result.verdict !== 'stop') {
    head('Only if that is not it');
    result.adjustments.slice(1, full ? undefined : 3).forEach((a, i) => {
      put(`${a.do}${withStep(a)}. Helps in ${inTen(a.helps)}.`, `  ${i + 2}. `);
      for (const k of a.knockOn.slice(0, full ? undefined : 1)) put(`Also does: ${k}`, '     ');
    });
  }
  for (const b of result.blocked.filter((x) => x.id !== result.insteadOf?.id).slice(0, full ? undefined : 2))
    put(`Not possible here: ${b.do}; ${b.why}.`, '  ');
  asks(result, put, head);
  if (result.fit !== null && result.fit.reask.length > 1 && result.verdict !== 'stop') {
    head('The story does not hang together');
    put(`Ask again: ${result.fit.reask.join(' and ')}. These two answers fit the rest least.`);
  }
  if (result.unconfirmed.length > 0) {
    head('Said, but not confirmed (not counted)');
    for (const u of result.unconfirmed.slice(0, full ? undefined : 3))
      put(`"${printable(u.phrase, MOST_NAME)}" ${u.note}`, '  - ');
  }
  if (full) detail(result, put, head);
  cautions(result, put, head, style, full);
  const more = options.more ?? 'All of it: --full';
  if (!full && more !== '') put(style.quiet(more), '');
  const text = `${lines.join('\n').trimEnd()}\n`;
  return style.unicode ? text : toAscii(text);
}

type Put = (text: string, lead?: string) => void;

function verdict(result: Result, put: Put, head: (text: string) => void, style: Style, full: boolean): void {
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
        put(
          `${result.insteadOf.do} would have been first, but ${result.insteadOf.why}; this is the next rung.`,
        );
      if (first !== undefined) put(`Why: ${whyLine(result, first)}`);
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
  a.knockOn
    .slice(0, full ? undefined : 4)
    .forEach((k, i) => put(k, i === 0 ? '  Also does: ' : '             '));
}

/** What the first adjustment cures, with the two answers that speak most for it. */
function whyLine(result: Result, first: ResultAdjustment): string {
  const cause = result.causes.find((c) => c.id === first.cures) ?? result.causes[0]!;
  const speaks = cause.evidence
    .filter((e) => e.decibans > 0.5)
    .sort((a, b) => b.decibans - a.decibans)
    .slice(0, 2)
    .map((e) => `${e.question} = ${e.answer}`);
  return `${cause.name}, ${percent(cause.probability)}${speaks.length === 0 ? '' : ` (${speaks.join('; ')})`}.`;
}

function asks(result: Result, put: Put, head: (text: string) => void): void {
  if (result.next === null && result.assignments.length === 0) return;
  if (result.verdict === 'stop') return;
  head('Ask or check next');
  if (result.stop !== null) put(stopWords(result.stop));
  if (result.next !== null && result.stop !== 'dry') {
    put(
      `${result.stop === null ? '' : 'If you ask on: '}${result.next.ask} (${result.next.question}, ${result.next.how})`,
    );
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

function detail(result: Result, put: Put, head: (text: string) => void): void {
  head('What it could be');
  put(`nothing off: ${percent(result.nothing)}`);
  for (const c of result.causes) {
    put(`${c.name}: ${percent(c.probability)}  [${c.id}]`);
    for (const e of c.evidence)
      put(`${e.decibans >= 0 ? '+' : ''}${e.decibans.toFixed(1)} dB  ${e.question} = ${e.answer}`, '      ');
  }
  if (result.trials.length > 0) {
    head('What the trials said');
    for (const t of result.trials)
      put(
        `${t.change}: ${t.outcome}; moved most: ${t.cause} by ${t.decibans >= 0 ? '+' : ''}${t.decibans.toFixed(1)} dB`,
      );
  }
  if (result.fit !== null) put(`Fit of the story: z = ${result.fit.z.toFixed(2)}.`);
  put(`Rules: ${result.rules.name} ${result.rules.version} (${result.rules.digest.slice(0, 12)})`);
}
