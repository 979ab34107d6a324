/** A trial on paper and in words: the sheet to fill by pen, what comes next, and the verdict. */
import type { Judgement } from '../../trials/judge.ts';
import type { PenRow, PenSheet } from '../../trials/pen-sheet.ts';
import { capital, decapital } from '../../form/text.ts';
import { quoted } from '../../host/quoted.ts';
import { runsLeft } from '../../trials/sequence.ts';
import { LOWEST } from '../../trials/record.ts';
import {
  placeWords,
  standWords,
  wordsFor,
  type Feeling,
  type RiddenRun,
  type Trial,
} from '../../trials/trial.ts';
import { grounds, verdictSentence } from '../../trials/verdict-words.ts';
import { turnWords, WARM_UP_LINE, wayBackLine } from '../pit-sheet/trial.ts';
import { page, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

/** Ids of feelings stand over columns at least this wide, so that a number fits by hand. */
const NARROWEST = 4;
const TIME_WIDTH = 7;

/**
 * @param name the setting in words
 * @param bike the bike in words
 * @param kept what became of the plan in the log, how the ratings come into it, and how it is dropped: a line each
 */
export function penSheetText(
  pen: PenSheet,
  name: string,
  bike: string,
  style: Style,
  kept: readonly string[] = [],
): string {
  const put = (text: string, lead = ''): string => paragraph(text, style.width, lead);
  const lines = [
    style.strong(put(`Trial ${pen.trial}  ·  ${bike}`)),
    put(
      `${capital(name)}${pen.names === undefined ? `, in ${unitWords(pen.unit)}` : ''}. Now at ${placeWords(pen, pen.reference)}: that is the reference.`,
    ),
    'Date ______________   Rider ______________',
    ...(pen.feel === undefined ? [] : ['', put(pen.feel, 'Feel for: ')]),
    ...(pen.cautions.length === 0 ? [] : ['', style.strong('Cautions')]),
    ...pen.cautions.map((caution) => style.warn(put(caution, '  ! '))),
    '',
    style.strong(
      put(
        pen.short === true
          ? `${pen.rows.length} runs, set by hand before each. With a helper: keep these settings from the rider.`
          : `${pen.rows.length} runs. For whoever turns the adjuster: keep this from the rider. Alone: set it yourself, and say so.`,
      ),
    ),
    ` run  set to  from the run before`,
    ...pen.rows.map((row) => setterLine(row, pen)),
    put(wayBackLine(pen), '  '),
    '',
    style.strong(put('For the rider: rate every run from 1 to 7; 7 is always good. Times are optional.')),
    ...pen.feelings.map(({ id, ask, low, high }) => put(`${ask}: 1 ${low}, 7 ${high}`, `  ${id}: `)),
    '',
    riderHeader(pen),
    ...pen.rows.map((row) => riderLine(row, pen)),
    '',
    ...(pen.rows[0]?.warmUp === true ? [put(WARM_UP_LINE, '  - ')] : []),
    ...pen.notes.map((note) => put(note, '  - ')),
    ...pen.rules.map((rule) => put(rule, '  - ')),
    ...(kept.length === 0 ? [] : ['', ...kept.map((line) => put(line))]),
  ];
  return finish(lines, style);
}

/**
 * A short trial on a screen: what to mind first, what to set last, so that it is in sight when the rest has scrolled
 * away. What is rated is asked after each run.
 *
 * @param of the setting and the bike in words
 * @param usual cautions that are said of every change, and stand here in few words
 */
export function planScreen(
  trial: Trial,
  pen: PenSheet,
  {
    name,
    bike,
    usual,
  }: { readonly name: string; readonly bike: string; readonly usual: ReadonlySet<string> },
  style: Style,
): string {
  const put = (text: string, lead = ''): string => paragraph(text, style.width, lead);
  const step = trial.arms[1].set;
  const [row] = pen.rows;
  const lines = [
    style.strong(put(`Trial ${pen.trial}  ·  ${bike}`)),
    put(
      `${capital(name)}${pen.names === undefined ? `, in ${unitWords(pen.unit)}` : ''}: ${placeWords(pen, pen.reference)} now, ${placeWords(pen, step)} to try.`,
    ),
    ...(pen.feel === undefined ? [] : [put(pen.feel, 'Feel for: ')]),
    ...pen.cautions
      .filter((caution) => !usual.has(caution))
      .map((caution) => style.warn(put(caution, '  ! '))),
    ...pen.notes.map((note) => put(note, '  - ')),
    ...pen.brief.map((rule) => put(rule, '  - ')),
    put(`Rated after each run, 1 to 7: ${pen.feelings.map(({ ask }) => decapital(ask)).join(', ')}.`, '  - '),
    ` run  set to  from the run before`,
    ...pen.rows.map((one) => setterLine(one, pen)),
    ...(row === undefined ? [] : [style.strong(put(setLine(trial, row)))]),
  ];
  return finish(lines, style);
}

function setterLine(row: PenRow, pen: PenSheet): string {
  return [
    String(row.run).padStart(4),
    placeWords(pen, row.set).padStart(6),
    turnWords(row.turn, pen.unit, row.arm === 'sham'),
  ].join('  ');
}

function riderHeader(pen: PenSheet): string {
  return [' run', ...pen.feelings.map(({ id }) => id.padEnd(NARROWEST)), 'time'].join('  ');
}

function riderLine(row: PenRow, pen: PenSheet): string {
  return [
    String(row.run).padStart(4),
    ...pen.feelings.map(({ id }) => '_'.repeat(Math.max(NARROWEST, id.length))),
    '_'.repeat(TIME_WIDTH),
  ].join('  ');
}

/** That a trial waits, with what carries it on. @param at names the bike on a command line */
export function openTrialLine(trial: Trial, at: string): string {
  const left = runsLeft(trial);
  const ridden = trial.ridden.length;
  const much =
    left === 0
      ? 'all its runs are ridden. Get the verdict'
      : `${ridden} of ${ridden + left} runs ridden. Carry on with it`;
  return `The trial of the ${wordsFor(trial.change)} is still open: ${much}: earshot trial ${left === 0 ? 'judge' : 'record'} ${at} --trial ${quoted(trial.id)}`;
}

/** The marks from the lowest up; what the ends mean the feeling says itself. */
export function markWords({ low, high }: Pick<Feeling, 'low' | 'high'>): readonly string[] {
  return [low, 'bad', 'poor', 'so-so', 'fair', 'good', high];
}

/** A run that was written down, in one line. */
export function runLine(trial: Trial, number: number, run: RiddenRun): string {
  const set = trial.arms.find((arm) => arm.name === run.arm)!.set;
  const rated = trial.feelings.flatMap(({ id, ask }) =>
    run.ratings[id] === undefined ? [] : `${ask.toLowerCase()} ${run.ratings[id]}`,
  );
  const time = run.seconds === undefined ? '' : `, ${run.seconds} s`;
  return `Run ${number}: ${wordsFor(trial.change)} at ${standWords(trial.change, set)}${run.arm === 'sham' ? ' (sham)' : ''}; ${rated.join(', ')}${time}.`;
}

/** After a run with the step in that had the worst mark in anything. @param end what ends the trial, to be copied */
export function worstLines(end: string): string {
  return `You gave a ${LOWEST} with the step in. If it scared you, or anything knocks, leaks or feels loose, put it back now and end the trial here:\n  ${end}\n`;
}

/** What to set for a run that comes next. */
export function setLine(trial: Trial, row: PenRow): string {
  const { unit } = trial.change;
  const how = turnWords(row.turn, unit, row.arm === 'sham');
  const careful = row.turn === 0 ? '' : ' Start easy, and check the brakes.';
  const turn = row.turn === 0 && row.arm !== 'sham' ? 'leave it' : how;
  return `Next is run ${row.run}: ${wordsFor(trial.change)} at ${standWords(trial.change, row.set)} (${turn}).${careful}`;
}

/**
 * @param said what was done with the verdict: the sheet, the log, the next step
 * @param closed no more runs will be ridden
 */
export function judgementText(
  trial: Trial,
  judged: Judgement,
  said: readonly string[],
  closed: boolean,
  style: Style,
): string {
  const lines = [
    style.strong(paragraph(verdictSentence(trial, judged, closed), style.width)),
    ...grounds(trial, judged, closed).map((ground) => paragraph(ground, style.width, '  - ', '    ')),
    ...(judged.judged === 0 ? [] : [paragraph(judgedOn(judged), style.width, '  - ', '    ')]),
    ...(said.length === 0 ? [] : ['', ...said.map((one) => paragraph(one, style.width))]),
  ];
  return finish(lines, style);
}

/** Which runs the verdict stands on, those of earlier trials among them. */
function judgedOn({ judged, before = 0, settling }: Judgement): string {
  const all = judged + before;
  const earlier = before === 0 ? '' : `, ${before} of them from earlier trials`;
  const left = settling === 0 ? '' : `; ${settling} before them left out`;
  return `Judged on ${all} ${all === 1 ? 'run' : 'runs'}${earlier}${left}.`;
}

function unitWords(unit: string): string {
  return unit === 'clicks' ? 'clicks from fully closed' : unit;
}

function finish(lines: readonly string[], style: Style): string {
  return page(lines, style);
}
