/** The history of a bike: read at any time, added to under the lock, never rewritten. */
import { join } from 'node:path';
import { appendToFile, createFile, cutFile, PRIVATE, readIfThere, replaceFile } from '../disk/atomic-file.ts';
import type { OwnSetting } from '../bike/own-setting.ts';
import { draftForm, asWritten } from './entry-form.ts';
import { shownValue, type Entry, type EntryDraft, type SettingChange } from './entry.ts';
import { brokenFile, LogError } from '../disk/errors.ts';
import {
  entryText,
  knownFrom,
  readHistoryText,
  type HistoryText,
  type KnownHistory,
} from './history-file.ts';
import { renumbered, renumberedText } from './numbering.ts';
import { standings, type Standings } from './replay.ts';
import { takeBackDraft, type TakeBack } from './take-back.ts';

export interface History {
  readonly entries: readonly Entry[];
  /** an entry that was never finished; it counts for nothing and is put aside at the next write */
  readonly unfinished?: { readonly text: string; readonly line: number };
  /** in words, what is wrong with the numbers in the file: the entries here are numbered as they should be */
  readonly misnumbered?: string;
  /** the file is there, and nothing is in it: no program leaves it so */
  readonly isEmpty?: true;
}

export interface Appended {
  readonly entry: Entry;
  /** what the user should know, though it was written all the same */
  readonly warnings: readonly string[];
}

/** A history file, and what was read of it before: it only grows, so an append need not read it all again. */
export interface HistoryPlace {
  readonly folder: string;
  /** the settings that packs in use add */
  readonly own?: readonly OwnSetting[] | undefined;
  known?: KnownHistory | undefined;
}

/** @throws LogError with every mistake of a file edited by hand */
export async function readHistory(place: HistoryPlace): Promise<History> {
  const { history, there } = await readWhole(place);
  const { entries, misnumbered } = numbered(place, history);
  const { torn } = history;
  return {
    entries,
    ...(there && torn === undefined && entries.length === 0 ? { isEmpty: true } : {}),
    ...(torn === undefined ? {} : { unfinished: torn }),
    ...(misnumbered === undefined ? {} : { misnumbered }),
  };
}

/** Adds an entry. Only under the lock. */
export async function appendEntry(place: HistoryPlace, draft: EntryDraft, now: Date): Promise<Appended> {
  const { history } = await readWhole(place);
  checkDraft(draft);
  const { entries } = numbered(place, history);
  const before = standings(entries);
  const changes = draft.changes?.map((change) => withFrom(change, before));
  const warnings = changes?.flatMap((change) => contradiction(change, before)) ?? [];
  return await write(
    place,
    { ...draft, ...(changes === undefined ? {} : { changes }) },
    entries,
    now,
    warnings,
  );
}

/** Takes an entry back, by an entry of its own. Only under the lock. */
export async function takeBack(
  place: HistoryPlace,
  what: TakeBack,
  reason: string | undefined,
  now: Date,
): Promise<Appended> {
  const { entries } = numbered(place, (await readWhole(place)).history);
  return await write(place, takeBackDraft(entries, what, reason), entries, now, []);
}

async function write(
  place: HistoryPlace,
  draft: EntryDraft & { readonly undoes?: number },
  entries: readonly Entry[],
  now: Date,
  warnings: readonly string[],
): Promise<Appended> {
  const last = entries.at(-1);
  const behind = last !== undefined && now.getTime() < Date.parse(last.at);
  const entry: Entry = {
    entry: (last?.entry ?? 0) + 1,
    at: now.toISOString(),
    ...draft,
    ...(behind ? { clockWentBack: true } : {}),
  };
  const mended = await mendNumbers(place);
  const { aside, ...file } = await readyToAppend(place);
  await appendToFile(fileOf(place), entryText(entry, file));
  const kept =
    aside === undefined
      ? []
      : [`The unfinished entry at the end of ${fileOf(place)} was put aside, into ${aside}.`];
  const clock = `The clock says ${entry.at}, but the entry before is of ${last?.at}: one of the two is wrong. Their order is kept; correct the wrong one in ${fileOf(place)}.`;
  return { entry, warnings: [...mended, ...kept, ...warnings, ...(behind ? [clock] : [])] };
}

/** The entries under the numbers they should have. @throws LogError with every mistake of a file edited by hand */
function numbered(
  place: HistoryPlace,
  history: HistoryText,
): { readonly entries: readonly Entry[]; readonly misnumbered?: string } {
  const { entries, moved } = renumbered(checked(history).entries);
  const [first] = moved;
  if (first === undefined) return { entries };
  const more = moved.length === 1 ? '' : `, and ${moved.length - 1} more`;
  return {
    entries,
    misnumbered: `${fileOf(place)}: two entries share a number, or are out of order. Counted by their order, entry ${first.was} is entry ${first.is} here${more}. The next entry you write corrects the numbers in the file.`,
  };
}

/** Puts wrong numbers in the file right, with the old file kept beside it. @returns what to tell */
async function mendNumbers(place: HistoryPlace): Promise<string[]> {
  const { bytes, history } = await readWhole(place);
  const right = renumbered(history.entries);
  if (right.moved.length === 0) return [];
  const file = fileOf(place);
  const copy = await freeName(join(place.folder, 'history.before-numbering'));
  await createFile(copy, Buffer.from(bytes).toString('utf8'), PRIVATE);
  const whole = Buffer.from(bytes.subarray(0, history.whole)).toString('utf8');
  const rest = Buffer.from(bytes.subarray(history.whole)).toString('utf8');
  const text = renumberedText(
    whole,
    right,
    (entry) => entryText(entry, { empty: false, endsLine: true }),
    (one) => readHistoryText(Buffer.from(one), file, undefined, place.own).entries,
  );
  await replaceFile(file, `${text}${rest}`);
  place.known = undefined;
  return [`The entries of ${file} were numbered anew; as it was before it is in ${copy}.`];
}

async function freeName(stem: string): Promise<string> {
  for (let n = 1; ; n++) {
    const name = `${stem}${n === 1 ? '' : `-${n}`}.yaml`;
    if ((await readIfThere(name)) === undefined) return name;
  }
}

/** Puts an unfinished end aside, so that the next entry begins on a line of its own. */
async function readyToAppend(
  place: HistoryPlace,
): Promise<{ empty: boolean; endsLine: boolean; aside?: string }> {
  const { bytes, history } = await readWhole(place);
  if (history.torn === undefined) return { empty: bytes.length === 0, endsLine: bytes.at(-1) === 10 };
  const aside = join(place.folder, 'history.unfinished.yaml');
  await appendToFile(
    aside,
    `# an entry without its closing line, found at line ${history.torn.line} of history.yaml\n${history.torn.text}\n...\n`,
  );
  await cutFile(fileOf(place), history.whole);
  return { empty: history.whole === 0, endsLine: true, aside };
}

interface Whole {
  readonly bytes: Uint8Array;
  readonly history: HistoryText;
  /** whether there is a file */
  readonly there: boolean;
}

async function readWhole(place: HistoryPlace): Promise<Whole> {
  const file = fileOf(place);
  const found = await readIfThere(file);
  const bytes = found ?? new Uint8Array();
  const history = readHistoryText(bytes, file, place.known, place.own);
  place.known = knownFrom(bytes, history);
  return { bytes, history, there: found !== undefined };
}

function fileOf({ folder }: HistoryPlace): string {
  return join(folder, 'history.yaml');
}

function checked(history: HistoryText): HistoryText {
  if (history.problems.length > 0) throw brokenFile(history.problems);
  return history;
}

/** What cannot be read back must not be written. */
function checkDraft(draft: EntryDraft): void {
  const result = draftForm.safeParse(JSON.parse(JSON.stringify(asWritten(draft))));
  if (result.success) return;
  const said = result.error.issues
    .map((issue) => `${issue.path.join('.') || 'entry'}: ${issue.message}`)
    .join('; ');
  throw new LogError('bad-entry', `This cannot be recorded: ${said}.`, 'Nothing was written.');
}

function withFrom(change: SettingChange, before: Standings): SettingChange {
  const stands = before[change.setting];
  if (change.from !== undefined || stands === undefined) return change;
  const { setting, ...rest } = change;
  return { setting, from: stands.value, ...rest };
}

/** The bike was not where the log had it: somebody turned it without writing it down. */
function contradiction({ setting, from, unit }: SettingChange, before: Standings): string[] {
  const stands = before[setting];
  if (stands === undefined || from === undefined || from === stands.value) return [];
  return [
    `${setting} was expected at ${shownValue(stands.value, stands.unit)} (entry ${stands.entry}), but was at ${shownValue(from, unit)}: it was changed without being recorded.`,
  ];
}
