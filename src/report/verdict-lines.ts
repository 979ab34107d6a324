/** A result in pieces, each a few lines under one label: what the reports and the last screen of an interview are made of. */
import { alarmTexts } from './alarms.ts';
import { shownCauses, type ShownCause } from './ideas.ts';
import { capital } from '../form/capital.ts';
import { askWords, evidenceWords, type Audience, type WordedRules } from './evidence-words.ts';
import { MOST_NAME, printable } from './foreign-text.ts';
import { percent } from '../form/percent.ts';
import { chancesWords, timeWords, withStep } from './phrases.ts';
import { plainResult, whereIs } from './plain-words.ts';
import type { ResultAdjustment } from './result-adjustment.ts';
import type { Result } from './result.ts';
import type { Style } from './style.ts';
import { paragraph } from './wrap.ts';

export interface Words {
  readonly style: Style;
  readonly rules: WordedRules;
  readonly audience: Audience;
}

/** Whose words are used, whatever they are printed on. */
export type Voice = Pick<Words, 'rules' | 'audience'>;

export const NO_WORDS: WordedRules = { questions: [], settings: [], causes: [], adjustments: [] };

export function firstOf(result: Result): ResultAdjustment | undefined {
  return result.adjustments.find((a) => a.id === result.first);
}

/** Why what looks best is not first; undefined where it is. */
export function insteadLine({
  insteadOf,
  because,
}: Pick<Result, 'insteadOf' | 'because'>): string | undefined {
  if (insteadOf === null) return undefined;
  const later = because === 'put-back' || because === 'measure-first' || because === 'measured-first';
  return `"${insteadOf.do}" ${later ? `comes after this: ${insteadOf.why}` : `would come first, but ${insteadOf.why}`}.`;
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

/** Below this a cause is no news beside a bike that is right. */
const WORTH_NAMING = 0.05;

/** The verdict in a line. */
export function headLine(result: Result, { style }: Words): string {
  switch (result.verdict) {
    case 'stop':
      return style.strong(style.warn(paragraph('STOP: do not ride this bike', style.width)));
    case 'change':
      return style.strong('Do this first');
    case 'leave':
      return style.strong('Leave it alone');
    case 'unknown':
      return style.strong('Not sure yet: change nothing');
  }
}

/** `Close the rear rebound: 2 clicks in: 9 → 7 from closed.`; for a rider with the way to turn. */
export function stepLines(a: ResultAdjustment, words: Words): string[] {
  const { style, audience } = words;
  const step = withStep(a);
  if (audience === 'mechanic') return [paragraph(`${style.strong(a.do)}${step}.`, style.width, '  ')];
  const where = whereIs(a, words.rules);
  return [
    // How far comes first: it is what is looked up again at the bike.
    paragraph(
      style.strong(step === '' ? stop(a.plain) : `${capital(step.slice(2))}: ${stop(a.plain)}`),
      style.width,
      '  ',
    ),
    ...(where === undefined ? [] : [paragraph(where, style.width, '  ')]),
  ];
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

/** What is to be found out; for a rider in the rider's words. */
export function taskWords(
  { question, text }: Result['assignments'][number],
  { rules, audience }: Voice,
): string {
  const asked = rules.questions.find((q) => q.id === question);
  return audience === 'rider' && asked !== undefined && text.startsWith(asked.ask)
    ? `${asked.plain}${text.slice(asked.ask.length)}`
    : text;
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

/** What the result says of leaving alone, not knowing, or stopping. */
export function verdictLines(r: Result, words: Words): string[] {
  return verdictTexts(r, words).map((text) => paragraph(text, words.style.width, '  '));
}

/** The same, a text each: for printed forms that fold lines themselves. */
export function verdictTexts(r: Result, words: Voice): string[] {
  const [lead] = shownCauses(r);
  const first = firstOf(r);
  switch (r.verdict) {
    case 'stop':
      return [
        ...r.cautions.filter((c) => c.level === 'stop').map((c) => c.text),
        ...(first === undefined ? [] : [`${first.do}.`]),
      ];
    case 'change':
      return [];
    case 'leave':
      return [
        `Nothing on the bike looks off (${percent(r.nothing)}). The settings are not the problem.`,
        'Write down every number as it stands now.',
        ...(lead === undefined || lead.probability < WORTH_NAMING
          ? []
          : [`Next most likely: ${ideaWords(lead, words)}, ${percent(lead.probability)}.`]),
      ];
    case 'unknown':
      if (r.because === 'none-of-these')
        return [
          `The answers fit none of the causes known here (something else: ${percent(r.none)}). Have a qualified mechanic look at the bike, and somebody experienced watch it ridden.`,
        ];
      if (r.because === 'one-impression')
        return [
          'Nearly all answers follow one impression, whatever was asked. Before anything is changed, have the bike looked over in the stand, or let somebody else ride it.',
        ];
      if (r.because === 'unexplained')
        return [
          `What was noticed stands, and nothing known here explains it well enough (nothing off: ${percent(r.nothing)}). Change nothing. Have a qualified mechanic look at the bike, and somebody experienced watch it ridden.`,
        ];
      return notYet(r, words);
  }
}

/** What is likeliest, and why that is not enough to change anything on. */
function notYet(r: Result, words: Voice): string[] {
  // By the very numbers that are told.
  const [lead, next] = [
    { said: 'nothing off', probability: r.nothing },
    ...shownCauses(r).map((shown) => ({ said: ideaWords(shown, words), probability: shown.probability })),
  ]
    .toSorted((a, b) => b.probability - a.probability)
    .map(({ said, probability }) => `${said}, ${percent(probability)}`);
  const { refused, blocked } = words.audience === 'rider' ? plainResult(r, words.rules) : r;
  const cannot = blocked.filter(({ id }) => turnsLead(id, r, words));
  return [
    `Likeliest so far: ${lead}${next === undefined ? '' : `; then ${next}`}.`,
    ...(refused.length + cannot.length === 0
      ? ['That is not enough to change anything on.']
      : [...[...refused, ...cannot].map(({ do: what, why }) => `Not "${what}": ${why}.`), wayOut(r, words)]),
  ];
}

/** Whether an adjustment turns what the likeliest cause is about. */
function turnsLead(id: string, { causes }: Result, { rules }: Voice): boolean {
  const lead = rules.causes.find((c) => c.id === causes[0]?.id);
  const setting = lead === undefined ? undefined : rules.settings[lead.setting];
  const turned = rules.adjustments.find((a) => a.id === id)?.change?.setting;
  return (
    turned !== undefined &&
    turned === `${setting?.end === undefined ? '' : `${setting.end}.`}${setting?.adjuster}`
  );
}

export const WOULD_TELL = 'What would tell:';

/** What is left where what looked best is refused: the look that would tell, or somebody who can look. */
function wayOut(r: Result, words: Voice): string {
  const telling = tellingOf(r, words)?.text;
  return telling === undefined
    ? 'No question is left that would tell. Have a qualified mechanic look at the bike.'
    : `${WOULD_TELL} ${telling}`;
}

/** What to find out first: what is about the end of the likeliest cause, open or left open; undefined: nothing. */
export function tellingOf(
  r: Result,
  words: Voice,
): { readonly question: string; readonly text: string } | undefined {
  const { rules, audience } = words;
  const here = (question: string): boolean => isAbout(question, r, rules);
  const task = r.assignments.find(({ question }) => here(question)) ?? r.assignments[0];
  if (r.next !== null && (task === undefined || here(r.next.question))) {
    const { question } = r.next;
    return { question, text: stop(askWords(rules, question, audience)) };
  }
  return task === undefined ? undefined : { question: task.question, text: stop(taskWords(task, words)) };
}

/** A smaller step of what was ridden in vain, in change notation, where nothing else is advised. */
export function smallerStep({ verdict, because, refused }: Result): string | undefined {
  return verdict !== 'unknown' || because !== null
    ? undefined
    : (refused.find(({ less }) => less !== null)?.less ?? undefined);
}

/** Whether a question is about the end of the likeliest cause, or about none. */
function isAbout(question: string, { causes }: Result, rules: WordedRules): boolean {
  const lead = rules.causes.find(({ id }) => id === causes[0]?.id);
  const end = lead === undefined ? undefined : rules.settings[lead.setting]?.end;
  const asked = rules.questions.find((q) => q.id === question)?.end;
  return end === undefined || asked === undefined || asked === end;
}

/** What a mechanic, who might do it all the same, is told beside a change; beside no change the verdict itself tells it. */
export function refusedLines(
  { verdict, refused }: Pick<Result, 'verdict' | 'refused'>,
  audience: Audience,
): string[] {
  if (verdict !== 'change' || audience !== 'mechanic') return [];
  return refused.map(({ do: what, why }) => `Not advised: "${what}", because ${why}.`);
}

/** The line of a list: a cause, or the two circuits of one damper. */
export function ideaWords({ cause, name }: ShownCause, words: Voice): string {
  if (name === cause.name) return causeWords(cause, words);
  const { rules, audience } = words;
  return audience === 'rider' ? (rules.causes.find((c) => c.id === cause.id)?.pair?.plain ?? name) : name;
}

export function causeWords(
  { id, name }: { readonly id: string; readonly name: string },
  { rules, audience }: Voice,
): string {
  return audience === 'rider' ? (rules.causes.find((c) => c.id === id)?.plain ?? name) : name;
}

export function alarmLines(alarms: ReadonlyMap<string, string>, { style }: Words): string[] {
  return alarmTexts(alarms).map((text) => paragraph(style.warn(text), style.width, '! '));
}

/** What becomes of every complaint, a line each; none where the first change is for the only one. */
export function complaintLines(r: Result, words: Words): string[] {
  if (r.verdict === 'stop') return [];
  const list = r.complaints;
  if (list.length === 0 || (list.length === 1 && isAimed(list[0]!))) return [];
  const said = new Map<string, Result['complaints'][number][]>();
  for (const one of list) said.set(one.phrase, [...(said.get(one.phrase) ?? []), one]);
  // Part of another phrase, with the same fate, is no complaint of its own.
  const parts = [...said.keys()].filter((phrase) =>
    [...said].some(
      ([other, all]) =>
        other !== phrase &&
        other.includes(phrase) &&
        fateOf(all, r, words) === fateOf(said.get(phrase)!, r, words),
    ),
  );
  for (const phrase of parts) said.delete(phrase);
  return [...said].map(([phrase, all]) =>
    paragraph(
      `"${printable(phrase, MOST_NAME)}": ${fateOf(all, r, words)}`,
      words.style.width,
      '  - ',
      '    ',
    ),
  );
}

/** @param all what one phrase was confirmed to mean */
function fateOf(all: Result['complaints'], r: Result, { rules, audience }: Words): string {
  // The same words, for the change and against it: two answers about them do not go together.
  if (all.some(isAimed) && all.some(({ promise }) => promise === 'none'))
    return 'two answers about it disagree. Check which is right before you change anything.';
  const { promise, instead, ask } = all.find(isAimed) ?? all[0]!;
  if (promise === 'fix') return 'this change should fix it.';
  if (promise === 'aimed') return 'this change may help.';
  const question = ask === null ? undefined : stop(askWords(rules, ask, audience));
  const other =
    // What was ridden in vain is no way out of anything.
    instead === null || r.verdict !== 'change' || r.refused.some(({ id }) => id === instead.id)
      ? undefined
      : stop(audience === 'rider' ? instead.plain : instead.do);
  if (promise === 'help') return `this change may help. If not: ${other ?? question ?? 'ask again.'}`;
  const next =
    question !== undefined
      ? `Check: ${question}`
      : other !== undefined
        ? `Next for it: ${other}`
        : r.because === 'measure-first'
          ? 'Ask again after this look.'
          : 'Watch for it on the next ride.';
  if (r.verdict !== 'change' || firstOf(r)?.feelsBetter === null) return next;
  // What the words alone could mean says nothing against the change.
  return `${promise === null ? 'not confirmed yet' : 'this change will not fix it'}. ${next}`;
}

/** What the rider said that the first change is for; undefined where it is for nothing that was said. */
export function aimedAt({ complaints }: Pick<Result, 'complaints'>): string | undefined {
  const phrase = complaints.find(isAimed)?.phrase;
  return phrase === undefined ? undefined : printable(phrase, MOST_NAME);
}

function isAimed({ promise }: Result['complaints'][number]): boolean {
  return promise === 'fix' || promise === 'aimed';
}

function stop(text: string): string {
  return /[.?!]$/.test(text) ? text : `${text}.`;
}

/** What the first adjustment cures, with the two things that speak most for it; where the sheet does, that is one of them. */
export function whyLines(r: Result, first: ResultAdjustment, words: Words): string[] {
  const { style } = words;
  // A look that nothing waits for has no cause to speak for.
  if (r.because === 'measure-first' && r.insteadOf === null)
    return [
      paragraph(
        'Why: nothing is likely enough yet to change anything on, and this look may tell.',
        style.width,
        '  ',
        '    ',
      ),
    ];
  const cause = r.causes.find((c) => c.id === first.cures) ?? r.causes[0]!;
  // That nothing loose or leaking was found is no reason for a click.
  const empty = new Set(
    words.rules.questions.flatMap((q) => (q.safety ? [`${q.id} ${q.answers[q.default]?.id}`] : [])),
  );
  const all = cause.evidence
    .filter((e) => e.decibans > 0.5 && !empty.has(`${e.question} ${e.answer}`))
    .toSorted((a, b) => b.decibans - a.decibans);
  // A number that was counted on the very thing that is turned is told, however little it may count.
  const counted = all.findIndex((e) => e.question === `bike.${first.setting}`);
  const speaks = counted < 2 ? all.slice(0, 2) : [all[counted]!, all[0]!];
  return [
    paragraph(
      `Why: ${causeWords(cause, words)}, ${percent(cause.probability)}${speaks.length === 0 ? '.' : ', because:'}`,
      style.width,
      '  ',
      '    ',
    ),
    ...speaks.map((e) => paragraph(told(e, words), style.width, '    - ')),
  ];
}

/** `What bothers the rider most? Corners and berms` */
export function told(e: Parameters<typeof evidenceWords>[1], { rules, audience }: Words): string {
  const { question, answer } = evidenceWords(rules, e, audience);
  return /[?.]$/.test(question) ? `${question} ${capital(answer)}` : `${question}: ${answer}`;
}
