/** What stands on the screen when an interview is over: the verdict and what belongs to it, and no more than fits. */
import { alarmLines, alarmsOf } from './alarms.ts';
import { complaintLines } from './complaint-lines.ts';
import { askWords, type Audience, type WordedRules } from './evidence-words.ts';
import { plainResult } from './plain-words.ts';
import { firstOf, type Result } from './result.ts';
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
} from './step-lines.ts';
import { headLine, verdictLines, WOULD_TELL } from './verdict-lines.ts';
import { taskWords, type Words } from './voice.ts';
import { paragraph } from './wrap.ts';

export interface LastScreen {
  readonly style: Style;
  readonly rules: WordedRules;
  readonly audience: Audience;
  /** rows there are for it; undefined where nothing is pushed away */
  readonly rows: number | undefined;
  /** how the rest is seen: `m more` */
  readonly more: string;
}

/** A few lines that stay together; the lower, the sooner it is left out. */
interface Piece {
  readonly lines: readonly string[];
  readonly rank: number;
}

/** Never left out. */
const MUST = Infinity;

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

export function lastScreen(result: Result, { style, rules, audience, rows, more }: LastScreen): string {
  const words: Words = { style, rules, audience };
  const first = result.verdict === 'change' ? firstOf(result) : undefined;
  const [strongest, ...cautions] = result.cautions.filter(
    (c) => c.level !== 'note' && (result.verdict !== 'stop' || c.level !== 'stop'),
  );
  const must = (lines: readonly string[]): Piece => ({ lines, rank: MUST });
  const pieces: Piece[] = [
    must(alarmLines(alarmsOf(result, rules, audience), words)),
    must([headLine(result, words), ...verdictLines(result, words)]),
    must(first === undefined ? [] : [...stepLines(first, words), ...undoLines(first, words)]),
    must((first?.ridden ?? []).map((line) => paragraph(line, style.width, '  '))),
    must(strongest === undefined ? [] : [cautionLine(strongest, words)]),
    ...(first?.note == null ? [] : [{ lines: [noteLine(first.note, words)], rank: 12 }]),
    ...cautions.map((c, i): Piece => ({ lines: [cautionLine(c, words)], rank: i === 0 ? 11 : 6 - i })),
    ...(first === undefined
      ? []
      : [
          { lines: chanceLines(first, words), rank: 10 },
          { lines: [feelLine(first, words)], rank: 8 },
          { lines: whyLines(result, first, words), rank: 3 },
        ]),
    { lines: insteadOf(result, words), rank: 12 },
    // Whoever told of two things sees first which of them the change is for.
    { lines: complaintLines(result, words), rank: 13 },
    { lines: disagreeing(result, words), rank: 14 },
    { lines: wouldTell(result, words), rank: 11 },
    {
      lines: result.assignments.map((a) =>
        paragraph(taskWords(a, words), style.width, '  To check: ', '    '),
      ),
      rank: result.verdict === 'unknown' ? 11 : 7,
    },
  ].filter((piece) => piece.lines.length > 0);
  const tall = (shown: readonly Piece[]): number =>
    shown
      .flatMap((p) => p.lines)
      .join('\n')
      .split('\n').length;
  let shown: readonly Piece[] = pieces;
  // One row for the line that says there is more.
  while (rows !== undefined && tall(shown) + 1 > rows) {
    const least = shown.reduce((low, p) => Math.min(low, p.rank), MUST);
    if (least === MUST) break;
    shown = shown.filter((p) => p.rank !== least);
  }
  return page([...shown.flatMap((p) => p.lines), style.quiet(more)], style);
}
