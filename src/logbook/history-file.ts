/**
 * The history as a file: one YAML document an entry, each closed by a line `...`.
 *
 * The closing line is what makes an entry whole. Whatever stands after the last one is an entry that was being written
 * when the process died (or that somebody is writing by hand); it counts for nothing until it is closed, and is put
 * aside, not thrown away, before the next one is written.
 */
import type { Problem } from '../form/problem.ts';
import type { OwnSetting } from '../bike/own-setting.ts';
import { entryForm, asRead, asWritten, type WrittenEntry } from './entry-form.ts';
import type { Entry } from './entry.ts';
import { readForm, writeYaml } from '../disk/yaml-file.ts';

const HEAD = '# What was done to this bike, oldest first. Each entry ends with a line of three dots.\n';
const CLOSING = /^\.\.\.[ \t]*\r?\n/gm;

export interface HistoryText {
  readonly entries: readonly Entry[];
  readonly problems: readonly Problem[];
  /** bytes up to the end of the last whole entry */
  readonly whole: number;
  /** lines up to there */
  readonly lines: number;
  /** what stands after it, when that is more than comments */
  readonly torn?: { readonly text: string; readonly line: number };
}

export interface KnownHistory {
  readonly bytes: Uint8Array;
  readonly entries: readonly Entry[];
  readonly lines: number;
}

/**
 * @param bytes the file as it is; the torn end may hold half a letter, so it is read byte by byte
 * @param known what was read before; if the file only grew since, only what is new is read
 * @param own the settings that packs in use add
 */
export function readHistoryText(
  bytes: Uint8Array,
  file: string,
  known?: KnownHistory,
  own: readonly OwnSetting[] = [],
): HistoryText {
  const grown = known !== undefined && startsWith(bytes, known.bytes);
  const entries = grown ? [...known.entries] : [];
  const problems: Problem[] = [];
  const start = grown ? known.bytes.length : 0;
  const raw = Buffer.from(bytes.subarray(start)).toString('latin1'); // a letter a byte: offsets are bytes
  let from = 0;
  let line = grown ? known.lines + 1 : 1;
  for (const closing of raw.matchAll(CLOSING)) {
    const to = closing.index + closing[0].length;
    const text = decode(bytes.subarray(start + from, start + closing.index));
    if (text === undefined) problems.push(notText(file, line));
    else readChunk(text, file, line, entries, problems, own);
    line += count(raw.slice(from, to));
    from = to;
  }
  const rest = Buffer.from(bytes.subarray(start + from)).toString('utf8');
  const torn = rest.split('\n').some((one) => one.trim() !== '' && !one.trimStart().startsWith('#'));
  return {
    entries,
    problems,
    whole: start + from,
    lines: line - 1,
    ...(torn ? { torn: { text: rest, line } } : {}),
  };
}

/** The part of a reading that can be built on: whole entries without a mistake. */
export function knownFrom(bytes: Uint8Array, read: HistoryText): KnownHistory | undefined {
  if (read.problems.length > 0) return undefined;
  return { bytes: bytes.subarray(0, read.whole), entries: read.entries, lines: read.lines };
}

function startsWith(bytes: Uint8Array, head: Uint8Array): boolean {
  return bytes.length >= head.length && Buffer.compare(bytes.subarray(0, head.length), head) === 0;
}

function notText(file: string, line: number): Problem {
  return {
    file,
    line,
    col: 1,
    code: 'unreadable',
    severity: 'error',
    message: 'This entry is not UTF-8 text.',
    remedy: 'Correct or remove it.',
  };
}

/** The text to add for one entry to a file that ends as told. */
export function entryText(
  entry: Entry,
  file: { readonly empty: boolean; readonly endsLine: boolean },
): string {
  return `${file.empty ? HEAD : file.endsLine ? '' : '\n'}---\n${writeYaml(asWritten(entry))}...\n`;
}

/** The documents between two closing lines: usually one; more when somebody left out the dots by hand. */
function readChunk(
  text: string,
  file: string,
  firstLine: number,
  entries: Entry[],
  problems: Problem[],
  own: readonly OwnSetting[],
): void {
  let line = firstLine;
  for (const part of text.split(/^(?=---[ \t]*\r?$)/m)) {
    const body = part.replace(/^---[ \t]*\r?$/m, '   ');
    if (body.split('\n').some((one) => one.trim() !== '' && !one.trimStart().startsWith('#'))) {
      const read = readForm(body, file, entryForm, line);
      if (read.value === undefined) problems.push(...read.problems);
      else entries.push(asRead(read.value as WrittenEntry, own));
    }
    line += count(part);
  }
}

function decode(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

function count(text: string): number {
  return text.split('\n').length - 1;
}
