/** Reading the YAML of a log, with the place of every mistake. */
import { isMap, LineCounter, parseDocument, stringify, type Document } from 'yaml';
import type * as z from 'zod';
import { twice } from '../rulebase/twice.ts';
import type { LogProblem } from './errors.ts';

export interface Read<T> {
  readonly value?: T;
  readonly problems: readonly LogProblem[];
}

const REMEDY = 'Correct this place in an editor.';
const ALIASES = 50;

/** @param firstLine the line of the file at which this text begins, 1-based */
export function readYaml(
  text: string,
  file: string,
  firstLine = 1,
): Read<Record<string, unknown>> & { readonly document?: Document; readonly lines: LineCounter } {
  const lines = new LineCounter();
  const document = parseDocument(text, {
    lineCounter: lines,
    schema: 'core',
    uniqueKeys: false,
    prettyErrors: false,
  });
  const problems = document.errors.map((error): LogProblem => {
    const { line, col } = lines.linePos(error.pos[0]);
    return {
      file,
      line: line + firstLine - 1,
      col,
      message: `${firstSentence(error.message)}`,
      remedy: REMEDY,
    };
  });
  for (const offset of twice(document)) {
    const { line, col } = lines.linePos(offset);
    const message = 'This key stands twice in the same map.';
    problems.push({ file, line: line + firstLine - 1, col, message, remedy: REMEDY });
  }
  if (problems.length > 0) return { problems, lines };
  if (!isMap(document.contents)) {
    return {
      problems: [{ file, line: firstLine, col: 1, message: 'Expected keys and values.', remedy: REMEDY }],
      lines,
    };
  }
  try {
    return {
      value: document.toJS({ maxAliasCount: ALIASES }) as Record<string, unknown>,
      problems: [],
      document,
      lines,
    };
  } catch (error) {
    const message = firstSentence((error as Error).message);
    return { problems: [{ file, line: firstLine, col: 1, message, remedy: REMEDY }], lines };
  }
}

/** The same, checked against a form. */
export function readForm<T>(text: string, file: string, form: z.ZodType<T>, firstLine = 1): Read<T> {
  const read = readYaml(text, file, firstLine);
  if (read.value === undefined) return { problems: read.problems };
  const checked = form.safeParse(read.value);
  if (checked.success) return { value: checked.data, problems: [] };
  const problems = checked.error.issues.map((issue): LogProblem => {
    const unknown = issue.code === 'unrecognized_keys' ? issue.keys[0] : undefined;
    const path = unknown === undefined ? issue.path : [...issue.path, unknown];
    const { line, col } = read.lines.linePos(offsetOf(read.document!, path as (string | number)[]));
    const where = path.length === 0 ? '' : `${path.join('.')}: `;
    return { file, line: line + firstLine - 1, col, message: `${where}${issue.message}.`, remedy: REMEDY };
  });
  return { problems };
}

/** Text of a file that other tools, and git, can read; values that look like something else are quoted. */
export function writeYaml(data: unknown): string {
  return stringify(data, { schema: 'core', lineWidth: 0, aliasDuplicateObjects: false });
}

/** Where a path stands in the text; the nearest thing above it when it is missing. */
function offsetOf(document: Document, path: readonly (string | number)[]): number {
  for (let length = path.length; length > 0; length--) {
    const here = path.slice(0, length);
    const parent = length === 1 ? document.contents : document.getIn(here.slice(0, -1), true);
    const pair = isMap(parent)
      ? parent.items.find((item) => String(item.key) === String(here.at(-1)))
      : undefined;
    const key = pair?.key as { range?: [number, number, number] } | null | undefined;
    const node = document.getIn(here, true) as { range?: [number, number, number] } | undefined;
    const offset = key?.range?.[0] ?? node?.range?.[0];
    if (offset !== undefined) return offset;
  }
  return 0;
}

function firstSentence(message: string): string {
  const line = message.split('\n')[0]!.trim();
  return line.endsWith('.') ? line : `${line}.`;
}
