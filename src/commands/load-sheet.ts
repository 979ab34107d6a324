/** Reads bike sheets for commands: each file once, whatever number of cases name it. */
import { resolve } from 'node:path';
import { readSheet } from '../bike/read.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { readText } from './read-file.ts';
import { Refusal } from './io.ts';

export interface LoadedSheet {
  readonly sheet: BikeSheet;
  readonly warnings: readonly string[];
}

/** @throws Refusal with every problem of the sheet, a line each */
export async function loadSheet(path: string, folder: string): Promise<LoadedSheet> {
  const text = await readText(path, folder);
  if (path.endsWith('.json')) {
    try {
      return fromData(JSON.parse(text), path);
    } catch (error) {
      if (error instanceof Refusal) throw error;
      throw new Refusal(`${path}: this is not JSON. Mend it, or save the sheet as YAML.`);
    }
  }
  const { parseYaml } = await import('../rulebase/parse.ts');
  const { problemLine } = await import('../rulebase/problem.ts');
  const parsed = parseYaml(text, path);
  if (parsed.data === undefined) throw new Refusal(parsed.problems.map(problemLine).join('\n'));
  return fromData(parsed.data, path, (at) => {
    const { line, col } = parsed.locate(at);
    return `${path}:${line}:${col}`;
  });
}

/** @param place where a path inside the sheet stands, for messages */
export function fromData(
  data: unknown,
  name: string,
  place: (path: readonly (string | number)[]) => string = (path) => [name, ...path].join(' › '),
): LoadedSheet {
  const { sheet, problems } = readSheet(data);
  const line = (p: (typeof problems)[number]): string => `${place(p.path)}: ${p.message} ${p.remedy}`;
  if (sheet === undefined)
    throw new Refusal(
      problems
        .filter((p) => p.severity === 'error')
        .map(line)
        .join('\n'),
    );
  return { sheet, warnings: problems.map(line) };
}

/** A loader that remembers what it loaded, also what it refused. */
export function sheetLoader(): (path: string, folder: string) => Promise<LoadedSheet> {
  const seen = new Map<string, Promise<LoadedSheet>>();
  return (path, folder) => {
    const key = resolve(folder, path);
    let loading = seen.get(key);
    if (loading === undefined) {
      loading = loadSheet(path, folder);
      seen.set(key, loading);
    }
    return loading;
  };
}
