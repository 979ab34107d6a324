/** The log of a bike for reading: what was done, what differs between two days, and where sheet and log disagree. */
import type { BikeSheet } from '../../bike/sheet.ts';
import { settingWords } from '../../bike/setting-words.ts';
import type { Drift, Difference } from '../../logbook/replay.ts';
import { shownValue, type Entry } from '../../logbook/entry.ts';
import { columns } from '../columns.ts';
import { printableLines } from '../foreign-text.ts';
import { interviewName } from '../phrases.ts';
import { changeWords, outcomeWord } from './change-words.ts';
import { page, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

/** @param settle the command that writes down what was counted, N for the numbers */
export function historyText(
  bike: string,
  settle: string,
  entries: readonly Entry[],
  hidden: number,
  drift: readonly Drift[],
  style: Style,
  /** names its settings as this bike has them */
  on?: BikeSheet,
): string {
  const lines = [style.strong(`Log of ${bike}`)];
  if (entries.length === 0) lines.push('', 'Nothing recorded yet.');
  else lines.push('');
  if (hidden > 0) lines.push(style.quiet(`  (${hidden} earlier)`));
  for (const entry of entries) lines.push(...entryLines(entry, style, on));
  if (drift.length > 0)
    lines.push(
      '',
      style.warn('The sheet and the log disagree'),
      ...drift.map(({ setting, sheet, log, unit }) =>
        paragraph(
          `${settingWords(setting, on)}: ${shownValue(sheet, unit)} on the sheet, ${shownValue(log, unit)} in the log. It was changed without being recorded.`,
          style.width,
          '  ',
        ),
      ),
      '  Count it on the bike, and write it down, with your number in place of N:',
      `  ${settle}`,
    );
  return page(lines, style);
}

const LEAD = 33;

/** Where all stood, the clicks together: where they are counted from is said once. */
function startLines(changes: NonNullable<Entry['changes']>, sheet: BikeSheet | undefined): string[] {
  const isKnob = ({ unit }: { readonly unit?: string }): boolean => unit === 'clicks';
  const knobs = changes
    .filter(isKnob)
    .map(({ setting, to }) => `${settingWords(setting, sheet)} ${shownValue(to, undefined)}`);
  const rest = changes
    .filter((change) => !isKnob(change))
    .map(({ setting, to, unit }) => `${settingWords(setting, sheet)} ${shownValue(to, unit)}`);
  return [
    ...(knobs.length === 0 ? [] : [`clicks from closed: ${knobs.join(', ')}`]),
    ...(rest.length === 0 ? [] : [rest.join(', ')]),
  ];
}

/** One entry: number, time, kind, and below each other what it did, why, and what is odd about it. */
export function entryLines(entry: Entry, style: Style, sheet?: BikeSheet): string[] {
  const when = `${entry.at.slice(0, 10)} ${entry.at.slice(11, 16)}Z`;
  const head = `${String(entry.entry).padStart(4)}  ${when}  ${entry.kind.padEnd(7)}`;
  const said =
    entry.kind === 'start'
      ? startLines(entry.changes ?? [], sheet)
      : (entry.changes ?? []).map(({ setting, from, to, unit }) =>
          from === undefined
            ? `${settingWords(setting, sheet)} ${shownValue(to, unit)}`
            : `${settingWords(setting, sheet)} ${from} → ${shownValue(to, unit)}`,
        );
  // The log gives an undo this reason when the user gave none.
  const taken = entry.undoes === undefined ? undefined : `takes back entry ${entry.undoes}`;
  if (entry.result !== undefined) {
    const { change, outcome, kept } = entry.result;
    said.push(`${changeWords(change, sheet)}: ${outcomeWord(outcome)}, ${kept ? 'kept' : 'not kept'}`);
  }
  if (entry.reason !== undefined && entry.reason !== taken)
    said.push(entry.kind === 'note' ? entry.reason : `because: ${entry.reason}`);
  if (taken !== undefined) said.push(taken);
  if (entry.case !== undefined) said.push(interviewName(entry.case));
  if (entry.kept !== undefined) said.push(`kept in ${entry.kept.file}`);
  if (entry.trial !== undefined) said.push(`trial ${entry.trial}`);
  if (entry.clockWentBack === true) said.push('dated before the entry above');
  // On a narrow screen what was done stands below when and how.
  const narrow = style.width < 2 * LEAD;
  const indent = ' '.repeat(narrow ? 6 : LEAD);
  const lines = said.map((line, i) =>
    paragraph(printableLines(line), style.width, i === 0 && !narrow ? head.padEnd(LEAD) : indent, indent),
  );
  return narrow ? [head.trimEnd(), ...lines] : lines;
}

/**
 * The differences with what was first counted in between taken as the state before: a setting is not different
 * because somebody wrote it down.
 */
export function sinceCounted(found: readonly Difference[], entries: readonly Entry[]): Difference[] {
  return found.flatMap((one): Difference[] => {
    if (one.before !== undefined) return [one];
    const counted = entries.find(
      ({ entry, kind, changes }) =>
        kind === 'start' && one.entries.includes(entry) && changes?.some((c) => c.setting === one.setting),
    );
    const before = counted?.changes?.find((change) => change.setting === one.setting)?.to;
    if (counted === undefined || before === undefined) return [one];
    if (before === one.after) return [];
    return [{ ...one, before, entries: one.entries.filter((entry) => entry > counted.entry) }];
  });
}

export function diffText(
  bike: string,
  between: readonly [string, string],
  found: readonly Difference[],
  style: Style,
  sheet?: BikeSheet,
): string {
  const lines = [
    style.strong(paragraph(`${bike}: what changed from ${between[0]} to ${between[1]}`, style.width)),
  ];
  if (found.length === 0) lines.push('', 'Nothing.');
  else lines.push('', style.strong(columns(['setting', 'before', 'after', 'entries'], [28, 15, 15])));
  for (const { setting, unit, before, after, entries } of found)
    lines.push(
      columns(
        [settingWords(setting, sheet), shownValue(before, unit), shownValue(after, unit), entries.join(', ')],
        [28, 15, 15],
      ),
    );
  return page(lines, style);
}
