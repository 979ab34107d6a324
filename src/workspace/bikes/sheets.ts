/** Which bike sheet a case is about: its own, or the one that the line names. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import type { OwnSetting } from '../../bike/own-setting.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Case } from '../../casework/case.ts';
import type { Io } from '../../host/io.ts';
import type { CaseRecord } from '../cases/case-texts.ts';
import type { LoadedSheet, SheetLoader } from './load-sheet.ts';

export interface Sheets {
  /** the sheet that the line names */
  readonly given: LoadedSheet | undefined;
  /**
   * The sheet of a case; the given one where the case names none, or a file that is not there.
   * @throws Refusal with every problem of the sheet
   */
  of(bike: Case['bike'], record: CaseRecord): Promise<LoadedSheet | undefined>;
  /** which of two sheets was passed over for this one, in so many lines; said once a sheet */
  passedOver(kase: Case, record: CaseRecord, sheet: BikeSheet | undefined): string[];
}

/**
 * @param file what the line names: a file, or the id of a bike with a log
 * @param own the settings that the rule packs in use add
 * @throws Refusal with every problem of the sheet that the line names
 */
export async function sheetsFor(
  file: string | undefined,
  own: readonly OwnSetting[],
  io: Io,
): Promise<Sheets> {
  const path = file === undefined ? undefined : await pathOf(file, io);
  let loading: Promise<SheetLoader> | undefined;
  const loader = (): Promise<SheetLoader> =>
    (loading ??= import('./load-sheet.ts').then(({ sheetLoader }) => sheetLoader(own, path, io)));
  const given = path === undefined ? undefined : await (await loader()).given(path);
  const said = new Set<BikeSheet | string>();
  return {
    given,
    async of(bike, record) {
      if (given !== undefined && isMissing(bike, record)) return given;
      if (bike === undefined) return given;
      if (typeof bike === 'string') return (await loader()).named(bike, record.folder);
      const { fromData } = await import('./load-sheet.ts');
      return fromData(bike, 'the bike in the case', own);
    },
    passedOver({ id, bike }, record, sheet) {
      if (given === undefined || sheet === undefined) return [];
      const isGone = sheet === given.sheet && isMissing(bike, record);
      const own = isGone ? resolve(record.folder, bike) : sheet;
      if ((sheet === given.sheet && !isGone) || said.has(own)) return [];
      said.add(own);
      if (isGone) return [`${id}: its own bike (${bike}) is not there, so --bike ${file} was used.`];
      const named = typeof bike === 'string' ? bike : 'written in the case';
      return [`${id}: this case has its own bike (${named}), so --bike ${file} was not used.`];
    },
  };
}

/** A file, or the id of a bike with a log; a name with an ending or a folder is a file, and no log is asked. */
async function pathOf(named: string, io: Io): Promise<string> {
  if (/[./\\]/.test(named) && existsSync(resolve(io.cwd, named))) return named;
  return (await import('./known-bikes.ts')).sheetOf(named, io);
}

/** Whether a case names a sheet by a file that is not there: then the line may name another in its place. */
function isMissing(bike: Case['bike'], { folder }: Pick<CaseRecord, 'folder'>): bike is string {
  return typeof bike === 'string' && !existsSync(resolve(folder, bike));
}
