/** The first step in pieces: what is done and how it is undone, what it may bring, and why it comes first. */
import { waitsBehind } from '../../advice/put-first.ts';
import { capital, withStop, percent } from '../../form/text.ts';
import { evidenceText } from '../evidence-words.ts';
import { chancesWords, timeWords, withStep } from '../phrases.ts';
import { whereIs } from '../plain-words.ts';
import type { ResultAdjustment, Result } from '../result/result.ts';
import { causeWords, type Words } from './voice.ts';
import { LIKELY } from './verdict-lines.ts';
import { paragraph } from '../wrap.ts';

/** `Close the rear rebound: 2 clicks in: 9 → 7 from closed.`; for a rider with the way to turn. */
export function stepLines(a: ResultAdjustment, words: Words): string[] {
  const { style, audience } = words;
  const step = withStep(a);
  const before = beforeLines(a, words);
  if (audience === 'mechanic')
    return [...before, paragraph(`${style.strong(a.do)}${step}.`, style.width, '  ')];
  const where = whereIs(a, words.rules);
  return [
    ...before,
    // What to do, then how far, under the same name as on the pit sheet.
    paragraph(
      style.strong(step === '' ? withStop(a.plain) : `${withStop(a.plain)} How far: ${step.slice(2)}.`),
      style.width,
      '  ',
    ),
    ...(where === undefined ? [] : [paragraph(where, style.width, '  ')]),
  ];
}

/** What goes back before it, where something was tried in vain and left in. */
function beforeLines({ before }: ResultAdjustment, { style, audience }: Words): string[] {
  if (before === null) return [];
  const text = audience === 'mechanic' ? before.do : before.plain;
  return [paragraph(style.strong(text), style.width, '  '), paragraph('Then:', style.width, '  ')];
}

/** None where the bike is left as it is. */
export function chanceLines(a: ResultAdjustment, { style }: Words): string[] {
  if (a.minutes === 0) return [];
  return [paragraph(`Odds: ${chancesWords(a)}. Takes ${timeWords(a.minutes)}.`, style.width, '  ', '    ')];
}

/** None where there is nothing to undo. */
export function undoLines(a: ResultAdjustment, { style }: Words): string[] {
  return a.wayBack === 'none needed' ? [] : [paragraph(`To undo: ${a.wayBack}`, style.width, '  ', '    ')];
}

export function noteLine(note: string, { style }: Words): string {
  return paragraph(`${capital(note)}.`, style.width, '  ');
}

export function feelLine(a: ResultAdjustment, { style }: Words): string {
  return paragraph(`Feel for: ${a.feel}`, style.width, '  ', '    ');
}

export function cautionLine(caution: Result['cautions'][number], { style }: Words): string {
  return paragraph(caution.level === 'note' ? caution.text : style.warn(caution.text), style.width, '  ! ');
}

/**
 * What the first adjustment cures, with the two things that speak most for it; where the sheet does, that is one of them. A
 * trial that speaks against it as loudly is told too.
 */
export function whyLines(r: Result, first: ResultAdjustment, words: Words): string[] {
  const { style } = words;
  // A look that nothing waits for has no cause to speak for, be one ever so likely.
  const likely = r.causes.find(({ probability }) => probability >= LIKELY);
  if (r.because === 'measure-first' && r.insteadOf === null)
    return [
      paragraph(
        likely === undefined
          ? 'Why: no cause is likely enough yet. This check may settle it.'
          : `Why: likeliest so far is ${causeWords(likely, words)} (${percent(likely.probability)}), but no step for it is advised yet. This check may settle it.`,
        style.width,
        '  ',
        '    ',
      ),
    ];
  const cause = r.causes.find((c) => c.id === first.cures) ?? r.causes[0]!;
  // That nothing was noticed, found loose or read off its target is no reason for a change.
  const empty = new Set(words.rules.questions.map((q) => `${q.id} ${q.answers[q.default]?.id}`));
  const all = cause.evidence
    .filter((e) => e.decibans > AGAINST && !empty.has(`${e.question} ${e.answer}`))
    .toSorted((a, b) => b.decibans - a.decibans);
  // A number that was counted on the very thing that is turned is told, however little it may count.
  const counted = all.findIndex((e) => e.question === `bike.${first.setting}`);
  const speaks = counted < 2 ? all.slice(0, 2) : [all[counted]!, all[0]!];
  return [
    paragraph(
      `Why: ${causeWords(cause, words)} (${percent(cause.probability)})${speaks.length === 0 ? '.' : ', because:'}`,
      style.width,
      '  ',
      '    ',
    ),
    ...speaks.map((e) => paragraph(evidenceText(words.rules, e, words.audience), style.width, '    - ')),
    ...againstIt(cause, speaks).map((e) =>
      paragraph(`Against it: ${evidenceText(words.rules, e, words.audience)}`, style.width, '    - '),
    ),
  ];
}

type Evidence = Result['causes'][number]['evidence'];

/** Trials that would be among as many of the strongest, told or not, and speak against the cause; the loudest. */
function againstIt({ evidence }: Result['causes'][number], speaks: Evidence): Evidence {
  const least = Math.max(AGAINST, speaks.at(-1)?.decibans ?? 0);
  return evidence
    .filter(({ trial, decibans }) => trial !== undefined && -decibans >= least)
    .toSorted((a, b) => a.decibans - b.decibans)
    .slice(0, 1);
}

/** Decibans: what speaks for or against a cause by less is not told. */
const AGAINST = 0.5;

/** Why what looks best is not first; undefined where it is. */
export function insteadLine({
  insteadOf,
  because,
}: Pick<Result, 'insteadOf' | 'because'>): string | undefined {
  if (insteadOf === null) return undefined;
  return withStop(
    `"${insteadOf.do}" ${waitsBehind(because) ? `comes after this: ${insteadOf.why}` : `would come first, but ${insteadOf.why}`}`,
  );
}

/** Why this comes before anything else: what looks best, and any click. */
export function orderTexts(r: Pick<Result, 'insteadOf' | 'because'>): string[] {
  const instead = insteadLine(r);
  return [
    ...(instead === undefined ? [] : [instead]),
    ...(r.because === 'repair-first'
      ? ['Repair comes before any click: a worn part makes every setting feel wrong.']
      : []),
  ];
}
