/** Reads bike sheets for commands: each file once, whatever number of cases name it. */
import { resolve } from 'node:path';
import { inOrder, pathLine, type PathProblem } from '../../form/problem.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { readQuickly } from '../../bike/form/read-quickly.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { mayBeNamed } from './named-sheet.ts';
import { MOST_SHEET_BYTES, readText } from '../../disk/read-file.ts';
import type { Parsed } from '../../form/parse.ts';
import { Refusal, type Io } from '../../host/io.ts';
import { quoted } from '../../host/quoted.ts';

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
  const text = await readText(path, folder, { most: MOST_SHEET_BYTES });
  const { parseYaml } = await import('../../form/parse.ts');
  const { problemLine } = await import('../../form/problem.ts');
  // All JSON is YAML, so its places are known the same way.
  const parsed = parseYaml(text, path);
  if (parsed.data === undefined) throw new Refusal(parsed.problems.map(problemLine));
  if (parsed.data === null)
    throw new Refusal([
      `${path}:1:1: This file is empty. Make a sheet at the prompt: earshot bike new ${quoted(path)} --force`,
    ]);
  if (path.endsWith('.json') && !isJson(text))
    throw new Refusal(`${path}: this is not JSON. Fix it, or save the sheet as YAML.`);
  return fromData(parsed.data, path, own, parsed.locate);
}

/**
 * The sheet that a case names. Of a file that is no bike sheet nothing is told but that: a case may
 * be from anybody, and name anything.
 * @throws Refusal as above
 */
async function loadNamed(path: string, folder: string, own: readonly OwnSetting[]): Promise<LoadedSheet> {
  const text = await readText(path, folder, { plain: true, most: MOST_SHEET_BYTES });
  if (!/^[ \t]*\{?[ \t]*["']?bike["']?[ \t]*:/m.test(text))
    throw new Refusal(`${path}: this is not a bike sheet. A bike sheet begins with bike: 1.`);
  return await loadSheet(path, folder, own);
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
export async function fromData(
  data: unknown,
  name: string,
  own: readonly OwnSetting[],
  locate?: Parsed['locate'],
): Promise<LoadedSheet> {
  const { sheet, problems: found } =
    readQuickly(data, own) ?? (await import('../../bike/form/read.ts')).readSheet(data, own);
  const problems = locate === undefined ? found : inOrder(found, locate);
  const line = (p: PathProblem): string => pathLine(name, p, locate);
  if (sheet === undefined) throw new Refusal(problems.filter((p) => p.severity === 'error').map(line));
  return { sheet, warnings: problems.map(line) };
}

export interface SheetLoader {
  /** the sheet that the line names */
  given(path: string): Promise<LoadedSheet>;
  /** the sheet that a case in that folder names */
  named(path: string, folder: string): Promise<LoadedSheet>;
}

/** A loader that remembers what it loaded, also what it refused. */
export function sheetLoader(own: readonly OwnSetting[], line: string | undefined, io: Io): SheetLoader {
  const loaded = new Map<string, Promise<LoadedSheet>>();
  const named = new Map<string, Promise<LoadedSheet>>();
  const once = <T>(seen: Map<string, T>, key: string, make: () => T): T => {
    let one = seen.get(key);
    if (one === undefined) seen.set(key, (one = make()));
    return one;
  };
  return {
    given: (path) => once(loaded, resolve(io.cwd, path), () => loadSheet(path, io.cwd, own)),
    named: (path, folder) =>
      once(named, `${folder}\0${path}`, async () => {
        mayBeNamed(path, folder, line, io);
        return await once(loaded, resolve(folder, path), () => loadNamed(path, folder, own));
      }),
  };
}
