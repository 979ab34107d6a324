/** Cases out of a text: one or several, as YAML or JSON, each with its place; a bad one never stops the rest. */
import type { Parsed } from '../../form/parse.ts';
import type { Problem } from '../../form/problem.ts';

export interface CaseRecord {
  /** how the record is named in messages, e.g. `cases.ndjson:12` */
  readonly name: string;
  /** the folder its file is in, for paths inside the case */
  readonly folder: string;
  readonly data?: unknown;
  /** why there is no data */
  readonly fault?: string;
  /** the whole file could not be read: wrong usage, not one bad record among others */
  readonly unreadable?: boolean;
  /** where a path inside the record stands in its file, where that is known */
  readonly locate?: Parsed['locate'];
}

/** The cases of a text that is read whole. */
export async function* whole(text: string, file: string, folder: string): AsyncGenerator<CaseRecord> {
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
          fault: `${file}: this is not JSON (${jsonFault(error)}). Fix it, or save it as YAML.`,
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

/** Files by their names, a line each, where what is in them is asked for. */
function areNames(text: string): boolean {
  return text.split('\n').every((line) => line.trim() === '' || NAME.test(line.trim()));
}

const NAME = /^[^:{[]+\.(?:ya?ml|json|ndjson|jsonl)$/i;

async function* yamlCases(text: string, file: string, folder: string): AsyncGenerator<CaseRecord> {
  if (areNames(text)) {
    const fault = `${file}: these are names of files, and no cases. Name them on the line: earshot diagnose FILE ...`;
    yield { name: file, folder, fault };
    return;
  }
  const { parseYamlAll } = await import('../../form/parse.ts');
  const { problemLine } = await import('../../form/problem.ts');
  const documents = parseYamlAll(text, file);
  for (const [i, parsed] of documents.entries()) {
    const name = documents.length > 1 ? `${file}#${i + 1}` : file;
    if (parsed.data === undefined) {
      yield { name, folder, fault: runTogether(parsed.problems, text).map(problemLine).join('\n') };
      continue;
    }
    const { locate } = parsed;
    const list: unknown[] = Array.isArray(parsed.data) ? parsed.data : [parsed.data];
    for (const [j, one] of list.entries()) {
      yield list.length > 1
        ? { name: `${name}#${j + 1}`, folder, data: one, locate: (path, key) => locate([j, ...path], key) }
        : { name, folder, data: one, locate };
    }
  }
}

/** Cases one after the other without --- between them are one map in which all keys stand twice: that is told once a case. */
function runTogether(problems: readonly Problem[], text: string): readonly Problem[] {
  const lines = text.split('\n');
  const isTop = ({ code, col }: Problem): boolean => code === 'duplicate-key' && col === 1;
  const begins = problems.filter((one) => isTop(one) && /^["']?case["']?\s*:/.test(lines[one.line - 1]!));
  if (begins.length === 0) return problems;
  return problems.flatMap((one) =>
    begins.includes(one)
      ? [{ ...one, message: 'Another case begins here.', remedy: 'Write a line with --- before it.' }]
      : isTop(one)
        ? []
        : [one],
  );
}

export function jsonFault(error: unknown): string {
  // V8 quotes a part of the text, which may be long or odd; its first words are enough.
  return (error as Error).message
    .replace(/, ?"[\s\S]*$/, '')
    .replace(/\s+/g, ' ')
    .slice(0, 80);
}
