/** What stands on the screen when an interview is over: the verdict and what belongs to it, and no more than fits. */
import { alarmLines, alarmsOf } from './verdict/alarms.ts';
import { askedLines } from './verdict/asked-lines.ts';
import { complaintLines } from './verdict/complaint-lines.ts';
import { askWords, type Audience, type WordedRules } from './evidence-words.ts';
import { plainResult } from './plain-words.ts';
import { firstOf, type Result } from './result/result.ts';
import { page, type Style } from './style.ts';
import {
  cautionLine,
  chanceLines,
  feelLine,
  insteadLine,
  noteLine,
  stepLines,
  undoLines,
  whyLines,
} from './verdict/step-lines.ts';
import { headLine, maybes, verdictLines, WOULD_TELL } from './verdict/verdict-lines.ts';
import { taskWords, type Words } from './verdict/voice.ts';
import { paragraph } from './wrap.ts';

export interface LastScreen {
  readonly style: Style;
  readonly rules: WordedRules;
  readonly audience: Audience;
  /** rows there are for it; undefined where nothing is pushed away */
  readonly rows: number | undefined;
  /** the key that shows all of it */
  readonly key: string;
}

/**
 * What may be left out, by the name it is told under; the first gets the room first. How far a step goes, and what it ends
 * at, belongs to the step; then what is left of the cautions, then why.
 */
const MAY = [
  'what to do after it',
  'caution',
  'what it will not fix',
  'what was tried',
  'your question',
  'two answers to check',
  'what comes next',
  'what would tell',
  'what to check',
  'the odds',
  'what was said',
  'what to feel for',
  'the reasons',
] as const;

/** A few lines that stay together. */
interface Piece {
  readonly lines: readonly string[];
  /** absent: it is never left out */
  readonly name?: (typeof MAY)[number];
}

/** Why not what looks best: whoever rode it wants to hear that it was not forgotten. */
function insteadOf(result: Result, { style, rules, audience }: Words): string[] {
  const line = insteadLine(audience === 'rider' ? plainResult(result, rules) : result);
  return line === undefined || result.verdict !== 'change' ? [] : [paragraph(line, style.width, '  ')];
}

/** Answers that do not fit together, before anything is set by them. */
function disagreeing({ fit: found, verdict }: Result, { style, rules, audience }: Words): string[] {
  if (found === null || found.reask.length < 2 || verdict === 'stop') return [];
  const asked = found.reask.slice(0, 2).map((id) => askWords(rules, id, audience));
  return [
    paragraph(`Two answers don't fit together. Check: ${asked.join(' And: ')}`, style.width, '  ! ', '    '),
  ];
}

/** Where nothing is advised, and nothing was left open to look at: the question that would tell most. */
function wouldTell(result: Result, words: Words): string[] {
  const { verdict, because, refused, assignments, next } = result;
  if (verdict !== 'unknown' || because !== null || refused.length + assignments.length > 0 || next === null)
    return [];
  // Where a change cannot be made, the verdict says so, and what would tell.
  if (verdictLines(result, words).some((line) => line.includes(WOULD_TELL))) return [];
  const asked = askWords(words.rules, next.question, words.audience);
  return [paragraph(asked, words.style.width, `  ${WOULD_TELL} `, '    ')];
}

export function lastScreen(result: Result, { style, rules, audience, rows, key }: LastScreen): string {
  const words: Words = { style, rules, audience };
  const pieces = piecesOf(result, words).filter((piece) => piece.lines.length > 0);
  const textOf = (shown: ReadonlySet<Piece>): string[] => [
    ...pieces.flatMap((p) => (shown.has(p) ? p.lines : [])),
    style.quiet(moreLine(pieces, shown, { key, style, others: othersOf(result) })),
  ];
  let shown: ReadonlySet<Piece> = new Set(pieces.filter((p) => p.name === undefined));
  for (const piece of byOrder(pieces)) {
    const wider = new Set([...shown, piece]);
    if (rows === undefined || textOf(wider).join('\n').split('\n').length <= rows) shown = wider;
  }
  return page(textOf(shown), style);
}

function byOrder(pieces: readonly Piece[]): readonly Piece[] {
  const order = ({ name }: Piece): number => (name === undefined ? -1 : MAY.indexOf(name));
  return pieces.toSorted((a, b) => order(a) - order(b));
}

/** In the order in which they stand. */
function piecesOf(result: Result, words: Words): Piece[] {
  const { style, rules, audience } = words;
  const first = result.verdict === 'change' ? firstOf(result) : undefined;
  const serious = result.cautions.filter(
    (c) => c.level !== 'note' && (result.verdict !== 'stop' || c.level !== 'stop'),
  );
  // What the bike may do to its rider now is no smaller matter than the step.
  const heeded = serious.filter((c, place) => place === 0 || c.likely === true);
  const cautions = serious.filter((c) => !heeded.includes(c));
  const must = (lines: readonly string[]): Piece => ({ lines });
  const may = (lines: readonly string[], name: NonNullable<Piece['name']>): Piece => ({ lines, name });
  return [
    must(alarmLines(alarmsOf(result, rules, audience), words)),
    must([headLine(result, words), ...verdictLines(result, words)]),
    must(first === undefined ? [] : [...stepLines(first, words), ...undoLines(first, words)]),
    must((first?.ridden ?? []).map((line) => paragraph(line, style.width, '  '))),
    must(heeded.map((c) => cautionLine(c, words))),
    may(first?.note == null ? [] : [noteLine(first.note, words)], 'what to do after it'),
    ...cautions.map((c) => may([cautionLine(c, words)], 'caution')),
    ...(result.trades ?? []).map((line) => may([paragraph(line, style.width, '  ')], 'what was tried')),
    may(first === undefined ? [] : chanceLines(first, words), 'the odds'),
    may(first === undefined ? [] : [feelLine(first, words)], 'what to feel for'),
    may(first === undefined ? [] : whyLines(result, first, words), 'the reasons'),
    may(insteadOf(result, words), 'what comes next'),
    ...complaintLines(result, words).map(({ line, unhelped }) =>
      may([line], unhelped ? 'what it will not fix' : 'what was said'),
    ),
    ...askedLines(result, words).map((line) => may([line], 'your question')),
    may(disagreeing(result, words), 'two answers to check'),
    may(wouldTell(result, words), 'what would tell'),
    ...result.assignments.map((a) =>
      may([paragraph(taskWords(a, words), style.width, '  To check: ', '    ')], 'what to check'),
    ),
  ];
}

/** Whether another cause, or a step for one, is named behind the key. */
function othersOf(result: Result): boolean {
  return result.verdict === 'change' ? result.adjustments.length > 1 : maybes(result).length > 0;
}

/** What is left out, by name, most important first: `m: 2 more cautions, the odds, what else it could be`. */
function moreLine(
  pieces: readonly Piece[],
  shown: ReadonlySet<Piece>,
  { key, style, others }: { readonly key: string; readonly style: Style; readonly others: boolean },
): string {
  const cut = byOrder(pieces.filter((p) => !shown.has(p))).map(({ name }) => name!);
  const cautions = cut.filter((name) => name === 'caution').length;
  const names = [
    ...(cautions === 0 ? [] : [cautions === 1 ? '1 more caution' : `${cautions} more cautions`]),
    ...new Set(cut.filter((name) => name !== 'caution')),
    ...(others ? ['what else it could be'] : []),
  ];
  const what = names.length === 0 ? 'all of it, and what would tell more' : names.join(', ');
  return paragraph(`${key}: ${what}`, style.width, '  ', '     ');
}
