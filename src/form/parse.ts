/** YAML text → plain data that still knows its places. Imported only when a file must really be read. */
import {
  LineCounter,
  isCollection,
  isMap,
  isNode,
  isScalar,
  parseAllDocuments,
  parseDocument,
  visit,
  type Document,
} from 'yaml';
import type { Place, Problem } from './problem.ts';
import { yamlFault } from './yaml-faults.ts';

/** No file a person writes is larger; anything above this is a mistake or an attack. */
const MOST_CHARACTERS = 2_000_000;
const MOST_ALIASES = 50;

export type Path = readonly PropertyKey[];

export interface Parsed {
  readonly file: string;
  /** undefined when the text could not be read at all */
  readonly data: unknown;
  readonly problems: readonly Problem[];
  /** where the value at a path stands; with `key`, where that key of the map at the path stands */
  readonly locate: (path: Path, key?: string) => Place;
}

// The library compares every key of a map with all before it; here each is looked up once.
// The library's own warnings would go to standard error past every command; what matters is said as a problem.
const OPTIONS = { schema: 'core', uniqueKeys: false, prettyErrors: false, logLevel: 'error' } as const;

/**
 * Reads one YAML (or JSON) text with the core schema; never throws, never stops at the first error.
 * @param firstLine the line of the file at which the text begins, 1-based
 */
export function parseYaml(text: string, file: string, firstLine = 1): Parsed {
  const lines = new LineCounter();
  const read = () => [parseDocument(text, { ...OPTIONS, lineCounter: lines })];
  return guarded(text, file, read, lines, firstLine)[0]!;
}

/** Reads a text that may hold several documents, with --- between them. */
export function parseYamlAll(text: string, file: string): Parsed[] {
  const lines = new LineCounter();
  return guarded(
    text,
    file,
    () => {
      const documents = parseAllDocuments(text, { ...OPTIONS, lineCounter: lines });
      return 'empty' in documents ? [] : documents.filter((d) => d.contents !== null || d.errors.length > 0);
    },
    lines,
  );
}

function guarded(
  text: string,
  file: string,
  read: () => Document.Parsed[],
  lines: LineCounter,
  firstLine = 1,
): Parsed[] {
  if (text.length > MOST_CHARACTERS) {
    return [
      failure(
        file,
        'too-large',
        `The file has ${text.length} characters.`,
        `Split it: ${MOST_CHARACTERS} is the limit.`,
      ),
    ];
  }
  try {
    return read().map((doc) => fromDocument(doc, file, lines, firstLine));
  } catch (error) {
    return [
      failure(
        file,
        'too-large',
        'The file is nested too deeply to read.',
        `Flatten it. (${(error as Error).name})`,
      ),
    ];
  }
}

function failure(file: string, code: 'too-large' | 'yaml', message: string, remedy: string): Parsed {
  const place: Place = { file, line: 0, col: 0 };
  return {
    file,
    data: undefined,
    problems: [{ ...place, code, severity: 'error', message, remedy }],
    locate: () => place,
  };
}

/** One broken line makes faults of all that follow; the first few say where it is. */
const MOST_FAULTS = 3;

function fromDocument(doc: Document.Parsed, file: string, lines: LineCounter, firstLine: number): Parsed {
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line: Math.max(1, line) + firstLine - 1, col: Math.max(1, col) };
  };
  const locate = (path: Path, key?: string): Place => {
    const node = nodeAt(doc, path, key);
    return node === undefined ? { file, line: firstLine, col: 1 } : at(node);
  };
  const faults = [...doc.errors, ...doc.warnings].toSorted((a, b) => a.pos[0] - b.pos[0]);
  const untold = faults.length - MOST_FAULTS;
  const problems: Problem[] = faults.slice(0, MOST_FAULTS).map((e, i) => ({
    ...at(e.pos[0]),
    code: 'yaml',
    severity: 'error',
    message: yamlFault(e.code).message,
    remedy:
      untold > 0 && i === MOST_FAULTS - 1
        ? `Fix these first. ${untold} more in this file may come from them.`
        : yamlFault(e.code).remedy,
  }));
  for (const offset of twice(doc))
    problems.push({
      ...at(offset),
      code: 'duplicate-key',
      severity: 'error',
      message: 'This key is here twice.',
      remedy: 'Keep one of the two.',
    });
  problems.sort((a, b) => a.line - b.line || a.col - b.col);
  if (problems.length > 0) return { file, data: undefined, problems, locate };
  try {
    return { file, data: doc.toJS({ maxAliasCount: MOST_ALIASES }) as unknown, problems, locate };
  } catch (error) {
    // The library finds an alias that names nothing only here, and says no place.
    const alias = firstUnnamed(doc);
    if (alias !== undefined)
      return {
        file,
        data: undefined,
        problems: [{ ...at(alias), code: 'yaml', severity: 'error', ...yamlFault('BAD_ALIAS') }],
        locate,
      };
    return /alias/i.test((error as Error).message)
      ? failure(
          file,
          'too-large',
          'The aliases of this file expand without bound.',
          'Write the repeated part out instead.',
        )
      : failure(file, 'yaml', oneLine((error as Error).message), 'Fix the YAML.');
  }
}

function oneLine(message: string): string {
  const line = (message.split('\n', 1)[0] ?? '').trim();
  return /[.!?]$/.test(line) ? line : `${line}.`;
}

/** The offset of the first alias that names nothing. */
function firstUnnamed(doc: Document.Parsed): number | undefined {
  let found: number | undefined;
  visit(doc, {
    Alias(_, alias) {
      if (alias.resolve(doc) !== undefined) return undefined;
      found = alias.range?.[0];
      return visit.BREAK;
    },
  });
  return found;
}

/** The offset of the deepest node a path reaches: a missing key is shown where its map begins. */
function nodeAt(doc: Document.Parsed, path: Path, key?: string): number | undefined {
  let node: unknown = doc.contents;
  let offset: number | undefined = isNode(node) ? node.range?.[0] : undefined;
  for (const step of path) {
    if (!isCollection(node)) break;
    const next: unknown = node.get(step, true);
    if (!isNode(next)) break;
    node = next;
    offset = next.range?.[0] ?? offset;
  }
  if (key !== undefined && isMap(node)) {
    const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === key);
    if (pair !== undefined && isNode(pair.key)) return pair.key.range?.[0] ?? offset;
  }
  return offset;
}

/** Keys that stand twice in one map, found in one walk: the offset of each, in the order of the text. */
function twice(document: Document): number[] {
  const found: number[] = [];
  visit(document, {
    Map(_, { items }) {
      const seen = new Set<unknown>();
      for (const { key } of items) {
        // What is no plain key, such as a list, cannot be told from another so simply; no file of ours has any.
        const value: unknown = isScalar(key) ? key.value : key;
        if (seen.has(value)) found.push(isScalar(key) ? (key.range?.[0] ?? 0) : 0);
        seen.add(value);
      }
    },
  });
  return found;
}
