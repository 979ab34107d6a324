/** Reads bike sheets for commands: each file once, whatever number of cases name it. */
import { resolve } from 'node:path';
import type { SheetProblem } from '../bike/fields.ts';
import type { OwnSetting } from '../bike/own-setting.ts';
import { readSheet } from '../bike/read.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { readText } from './read-file.ts';
import type { Parsed } from '../rulebase/parse.ts';
import { Refusal } from './io.ts';
import { quoted } from './quoted.ts';

export interface LoadedSheet {
  readonly sheet: BikeSheet;
  readonly warnings: readonly string[];
}

/**
 * @param own the settings that the rule packs in use add
 * @throws Refusal with every problem of the sheet, a line each
 */
export async function loadSheet(
  path: string,
  folder: string,
  own: readonly OwnSetting[],
): Promise<LoadedSheet> {
  const text = await readText(path, folder);
  const { parseYaml } = await import('../rulebase/parse.ts');
  const { problemLine } = await import('../rulebase/problem.ts');
  // All JSON is YAML, so its places are known the same way.
  const parsed = parseYaml(text, path);
  if (parsed.data === undefined) throw new Refusal(parsed.problems.map(problemLine).join('\n'));
  if (parsed.data === null)
    throw new Refusal(
      `${path}:1:1: This file is empty. Make a sheet at the prompt: earshot bike new ${quoted(path)} --force`,
    );
  if (path.endsWith('.json') && !isJson(text))
    throw new Refusal(`${path}: this is not JSON. Fix it, or save the sheet as YAML.`);
  return fromData(parsed.data, path, own, parsed.locate);
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

/** @param locate where a path inside the sheet stands in its file; absent when it is from no file of its own */
export function fromData(
  data: unknown,
  name: string,
  own: readonly OwnSetting[],
  locate?: Parsed['locate'],
): LoadedSheet {
  const { sheet, problems: found } = readSheet(data, own);
  const place = (path: readonly (string | number)[]): string => {
    if (locate === undefined) return [name, ...path].join(' › ');
    const { line, col } = locate(path);
    return `${name}:${line}:${col}`;
  };
  const problems = locate === undefined ? found : inOrder(found, locate);
  const line = (p: SheetProblem): string => `${place(p.path)}: ${p.message} ${p.remedy}`;
  if (sheet === undefined)
    throw new Refusal(
      problems
        .filter((p) => p.severity === 'error')
        .map(line)
        .join('\n'),
    );
  return { sheet, warnings: problems.map(line) };
}

/** From the top of the file down, as they are mended. */
function inOrder(problems: readonly SheetProblem[], locate: Parsed['locate']): SheetProblem[] {
  return problems
    .map((problem) => ({ problem, at: locate(problem.path) }))
    .toSorted((a, b) => a.at.line - b.at.line || a.at.col - b.at.col)
    .map(({ problem }) => problem);
}

/** A loader that remembers what it loaded, also what it refused. */
export function sheetLoader(
  own: readonly OwnSetting[],
): (path: string, folder: string) => Promise<LoadedSheet> {
  const seen = new Map<string, Promise<LoadedSheet>>();
  return (path, folder) => {
    const key = resolve(folder, path);
    let loading = seen.get(key);
    if (loading === undefined) {
      loading = loadSheet(path, folder, own);
      seen.set(key, loading);
    }
    return loading;
  };
}
