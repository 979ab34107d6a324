/** Case records out of files and streams, one at a time, each with its place; a bad one never stops the rest. */
import { closeSync, createReadStream, fstatSync, openSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { Refusal, type Io } from '../../host/io.ts';
import { jsonFault, whole, type CaseRecord } from './case-texts.ts';
import { keptCase } from './kept-case.ts';
import { limitedLines, type Line } from '../../disk/lines.ts';
import { readText, type Bounds } from '../../disk/read-file.ts';

/** A case is a page of text; a line this long is not one. */
export const MOST_LINE_BYTES = 1024 * 1024;

/** Letters of a text that is read whole from a stream; the reader of YAML takes no more. */
const MOST_TEXT = 2_000_000;
const TOO_LONG = `there is no case in its first ${MOST_TEXT} letters. Send one case a line as JSON.`;

/** Records that came in together: lines not yet parsed, or records as they are. */
export type Batch = LineBatch | { readonly records: readonly CaseRecord[] };

/** Only data, so that it can be handed to another thread. */
export interface LineBatch {
  readonly file: string;
  readonly folder: string;
  /** number of the first line in the file, from 1 */
  readonly first: number;
  readonly lines: readonly Line[];
}

/** @param bounds of files read whole */
export async function* readRecords(
  files: readonly string[],
  io: Io,
  bounds: Bounds = {},
): AsyncGenerator<CaseRecord> {
  for await (const batch of readBatches(files, io, bounds)) yield* recordsOf(batch);
}

export async function* readBatches(
  files: readonly string[],
  io: Io,
  bounds: Bounds = {},
): AsyncGenerator<Batch> {
  for (const file of files) {
    if (file === '-') yield* stream(io.stdin, 'stdin', io.cwd);
    else yield* readOne(file, io, bounds);
  }
}

export function* recordsOf(batch: Batch): Generator<CaseRecord> {
  if ('records' in batch) {
    yield* batch.records;
    return;
  }
  const { file, folder, first, lines } = batch;
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i]!;
    const name = `${file}:${first + i}`;
    if (typeof line !== 'string') {
      yield { name, folder, fault: `${name}: ${line.fault}` };
      continue;
    }
    if (line.trim() === '') continue;
    try {
      yield { name, folder, data: JSON.parse(line) as unknown };
    } catch (error) {
      yield {
        name,
        folder,
        fault: `${name}: this line is not JSON (${jsonFault(error)}). Write one JSON object a line.`,
      };
    }
  }
}

async function* readOne(given: string, io: Io, bounds: Bounds): AsyncGenerator<Batch> {
  const file = keptCase(given, io);
  const folder = dirname(resolve(io.cwd, file));
  try {
    if (bounds.plain !== true && /\.(ndjson|jsonl)$/.test(file)) {
      await readable(file, io);
      const source = createReadStream(resolve(io.cwd, file));
      yield* lineBatches(limitedLines(source, MOST_LINE_BYTES), file, folder);
      return;
    }
    yield* oneByOne(whole(await readText(file, io.cwd, bounds), file, folder));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    yield { records: [{ name: file, folder, fault: error.message, unreadable: true }] };
  }
}

/** Cases of a file come one by one, so that each is told as soon as it is ready. */
async function* oneByOne(records: AsyncIterable<CaseRecord>): AsyncGenerator<Batch> {
  for await (const record of records) yield { records: [record] };
}

async function* lineBatches(
  source: AsyncIterable<readonly Line[]>,
  file: string,
  folder: string,
  before = 0,
): AsyncGenerator<Batch> {
  let first = 1 + before;
  for await (const lines of source) {
    yield { file, folder, first, lines };
    first += lines.length;
  }
  if (first === 1)
    yield {
      records: [{ name: file, folder, fault: `${file}: the file is empty. Write one case a line as JSON.` }],
    };
}

/** The same checks as for a text that is read whole, without reading it. */
async function readable(file: string, io: Io): Promise<void> {
  try {
    const handle = openSync(resolve(io.cwd, file), 'r');
    const isFolder = fstatSync(handle).isDirectory();
    closeSync(handle);
    if (!isFolder) return;
  } catch {
    // readText below says why, in words.
  }
  await readText(file, io.cwd);
}

/** Standard input: a JSON object a line when it begins with {, otherwise one text. */
async function* stream(
  input: AsyncIterable<Uint8Array>,
  name: string,
  folder: string,
): AsyncGenerator<Batch> {
  const all = limitedLines(input, MOST_LINE_BYTES);
  /** lines before the first one that says something; of those only their number is kept */
  let before = 0;
  let head: Line[] | undefined;
  while (head === undefined) {
    const next = await all.next();
    if (next.done === true) {
      const fault = `${name}: there is nothing to read. Send one case a line as JSON, or a case file.`;
      yield { records: [{ name, folder, fault }] };
      return;
    }
    const at = next.value.findIndex(
      (line) => line !== '' && (typeof line !== 'string' || !/^\s*(#|$)/.test(line)),
    );
    before += at < 0 ? next.value.length : at;
    if (at >= 0) head = next.value.slice(at);
  }
  const begin = head[0]!;
  const from = async function* (first: Line[]): AsyncGenerator<Line[]> {
    yield first;
    yield* all;
  };
  // A first line too long to keep can only be one record of many.
  const start = typeof begin === 'string' ? begin.trim() : '{}';
  // A pretty-printed JSON object begins with { alone on its line; a record a line closes on the same line.
  if (start.startsWith('{') && start !== '{') {
    yield* lineBatches(from(head), name, folder, before);
    return;
  }
  const tooLong = { records: [{ name, folder, fault: `${name}: ${TOO_LONG}` }] };
  if (before > MOST_TEXT) return yield tooLong;
  const texts: string[] = ['\n'.repeat(before)];
  let size = before;
  for await (const lines of from(head)) {
    for (const line of lines) {
      if (typeof line !== 'string') {
        yield { records: [{ name, folder, fault: `${name}: ${line.fault}` }] };
        return;
      }
      texts.push(line);
      size += line.length + 1;
      if (size > MOST_TEXT) return yield tooLong;
    }
  }
  yield* oneByOne(whole(`${texts[0]}${texts.slice(1).join('\n')}`, name, folder));
}
