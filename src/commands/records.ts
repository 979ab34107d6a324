/** Case records out of files and streams, one at a time, each with its place; a bad one never stops the rest. */
import { readText } from './read-file.ts';
import { Refusal, type Io } from './io.ts';
import { limitedLines } from './lines.ts';

export interface CaseRecord {
  /** how the record is named in messages, e.g. `cases.ndjson:12` */
  readonly name: string;
  /** the folder its file is in, for paths inside the case */
  readonly folder: string;
  readonly data?: unknown;
  /** why there is no data */
  readonly fault?: string;
  /** line:col of a path inside the record, where that is known */
  readonly locate?: (path: readonly (string | number)[], key?: string) => string;
}

/** A case is a page of text; a line this long is not one. */
export const MOST_LINE_BYTES = 1024 * 1024;

export async function* readRecords(files: readonly string[], io: Io): AsyncGenerator<CaseRecord> {
  for (const file of files) {
    if (file === '-') yield* stream(io.stdin, 'stdin', io.cwd);
    else yield* readOne(file, io);
  }
}

async function* readOne(file: string, io: Io): AsyncGenerator<CaseRecord> {
  const { dirname, resolve } = await import('node:path');
  const folder = dirname(resolve(io.cwd, file));
  try {
    if (/\.(ndjson|jsonl)$/.test(file)) {
      await readable(file, io);
      const { createReadStream } = await import('node:fs');
      yield* lines(limitedLines(createReadStream(resolve(io.cwd, file)), MOST_LINE_BYTES), file, folder);
      return;
    }
    const text = await readText(file, io.cwd);
    yield* whole(text, file, folder);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    yield { name: file, folder, fault: error.message };
  }
}

/** The same checks as for a text that is read whole, without reading it. */
async function readable(file: string, io: Io): Promise<void> {
  const { open } = await import('node:fs/promises');
  const { resolve } = await import('node:path');
  try {
    const handle = await open(resolve(io.cwd, file));
    const isFolder = (await handle.stat()).isDirectory();
    await handle.close();
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
): AsyncGenerator<CaseRecord> {
  const all = limitedLines(input, MOST_LINE_BYTES)[Symbol.asyncIterator]();
  const head: string[] = [];
  let first = await all.next();
  while (
    first.done !== true &&
    first.value.text !== undefined &&
    (first.value.text.trim() === '' || first.value.text.trim().startsWith('#'))
  ) {
    head.push(first.value.text);
    first = await all.next();
  }
  if (first.done === true) {
    yield {
      name,
      folder,
      fault: `${name}: there is nothing to read. Send one case a line as JSON, or a case file.`,
    };
    return;
  }
  const begin = first.value;
  const rest = (async function* () {
    yield begin;
    for (let next = await all.next(); next.done !== true; next = await all.next()) yield next.value;
  })();
  // A first line too long to keep can only be one record of many.
  const start = begin.text?.trim() ?? '{}';
  // A pretty-printed JSON object begins with { alone on its line; a record a line closes on the same line.
  if (start.startsWith('{') && start !== '{') {
    yield* lines(rest, name, folder, head.length);
    return;
  }
  for await (const line of rest) {
    if (line.text === undefined) {
      yield { name, folder, fault: `${name}: ${line.fault}` };
      return;
    }
    head.push(line.text);
  }
  yield* whole(head.join('\n'), name, folder);
}

async function* lines(
  source: AsyncIterable<{ text?: string; fault?: string }>,
  file: string,
  folder: string,
  skipped = 0,
): AsyncGenerator<CaseRecord> {
  let number = skipped;
  for await (const { text, fault } of source) {
    number++;
    const name = `${file}:${number}`;
    if (text === undefined) {
      yield { name, folder, fault: `${name}: ${fault}` };
      continue;
    }
    const line = text.trim();
    if (line === '') continue;
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
  if (number === 0)
    yield { name: file, folder, fault: `${file}: the file is empty. Write one case a line as JSON.` };
}

async function* whole(text: string, file: string, folder: string): AsyncGenerator<CaseRecord> {
  if (text.trim() === '') {
    yield { name: file, folder, fault: `${file}: the file is empty. Write a case; see examples/cases.` };
    return;
  }
  if (/^\s*[[{]/.test(text)) {
    let data: unknown;
    try {
      data = JSON.parse(text);
    } catch (error) {
      // A flow-style YAML case also begins with a brace; only then is the YAML reader worth its time.
      if (file.endsWith('.json')) {
        yield {
          name: file,
          folder,
          fault: `${file}: this is not JSON (${jsonFault(error)}). Mend it, or save it as YAML.`,
        };
        return;
      }
      yield* yamlCases(text, file, folder);
      return;
    }
    const list = Array.isArray(data) ? data : [data];
    for (const [i, one] of list.entries())
      yield { name: list.length > 1 ? `${file}#${i + 1}` : file, folder, data: one };
    return;
  }
  yield* yamlCases(text, file, folder);
}

async function* yamlCases(text: string, file: string, folder: string): AsyncGenerator<CaseRecord> {
  const { parseYamlAll } = await import('../rulebase/parse.ts');
  const { problemLine } = await import('../rulebase/problem.ts');
  const documents = parseYamlAll(text, file);
  for (const [i, parsed] of documents.entries()) {
    const name = documents.length > 1 ? `${file}#${i + 1}` : file;
    if (parsed.data === undefined) {
      yield { name, folder, fault: parsed.problems.map(problemLine).join('\n') };
      continue;
    }
    const locate: NonNullable<CaseRecord['locate']> = (path, key) => {
      const { line, col } = parsed.locate(path, key);
      return `${line}:${col}`;
    };
    const list: unknown[] = Array.isArray(parsed.data) ? parsed.data : [parsed.data];
    for (const [j, one] of list.entries()) {
      yield list.length > 1
        ? { name: `${name}#${j + 1}`, folder, data: one, locate: (path, key) => locate([j, ...path], key) }
        : { name, folder, data: one, locate };
    }
  }
}

function jsonFault(error: unknown): string {
  // V8 quotes a part of the text, which may be long or odd; its first words are enough.
  return (error as Error).message
    .replace(/, ?"[\s\S]*$/, '')
    .replace(/\s+/g, ' ')
    .slice(0, 80);
}
