/** The log of one bike. Reading needs no lock; every write takes it, and is on the disk when it returns. */
import { join } from 'node:path';
import type { OwnSetting } from '../bike/own-setting.ts';
import { sweepAside } from '../disk/aside.ts';
import { makeFolder, PRIVATE, replaceFile } from '../disk/atomic-file.ts';
import type { Entry, EntryDraft } from './entry.ts';
import { LogError } from '../disk/errors.ts';
import { SHEET_PLACE, sheetPlace } from './home.ts';
import {
  appendEntry,
  readHistory,
  takeBack,
  type Appended,
  type History,
  type HistoryPlace,
} from './history.ts';
import { withLock } from './lock.ts';
import { readLogFile, writeLogFile } from './log-file.ts';
import { loadPapers, savePaper, type Papers, type Plain } from './documents.ts';
import { difference, standings, type Difference, type Standings } from './replay.ts';
import { oddities } from './oddities.ts';
import { safeName } from '../disk/safe-name.ts';
import { stayInside } from '../disk/stay-inside.ts';

export interface LogOptions {
  readonly now: () => Date;
  /** the settings that packs in use add */
  readonly own?: readonly OwnSetting[] | undefined;
  /** is given, at every reading, each line on what is odd about the history */
  readonly tell?: ((line: string) => void) | undefined;
}

export interface BikeLog {
  readonly bike: string;
  readonly folder: string;
  append(draft: EntryDraft): Promise<Appended>;
  /** takes back the last change */
  undo(reason?: string): Promise<Appended>;
  /** takes back the last undo */
  redo(reason?: string): Promise<Appended>;
  readHistory(): Promise<History>;
  /** where everything stands: clicks, pressures, parts */
  standings(): Promise<Standings>;
  diff(one: Date, other: Date): Promise<Difference[]>;
  saveCase(id: string, data: Plain, finished?: boolean): Promise<string>;
  loadCases(): Promise<Papers>;
  /**
   * Saves a trial as it shall be, made from what stands in the log at that moment: what was read before may be old.
   * @param make gets all trials as they are now; what it throws leaves everything as it was
   */
  saveTrial(id: string, make: (now: Papers) => Plain): Promise<string>;
  loadTrials(): Promise<Papers>;
  /** takes down where the file of the bike's sheet is, so that the bike is found by its id */
  savePlace(path: string): Promise<void>;
}

/**
 * Opens the log of a bike. A bike without a log gets its folder with the first write.
 *
 * @throws LogError with place and remedy; nothing is changed then
 */
export async function openLog(home: string, bike: string, options: LogOptions): Promise<BikeLog> {
  const folder = join(home, 'bikes', safeName(bike, 'bike'));
  const found = await readLogFile(folder);
  if (found !== undefined && found.bike.normalize('NFC') !== bike.normalize('NFC')) {
    throw new LogError(
      'other-bike',
      `${folder} is the log of ${found.bike}, not of ${bike}.`,
      'Give the bike another id.',
      { file: folder },
    );
  }
  return logOf({ home, bike, folder, ...options });
}

interface Place extends LogOptions {
  readonly home: string;
  readonly bike: string;
  readonly folder: string;
}

function logOf(place: Place): BikeLog {
  const { bike, folder } = place;
  const history: HistoryPlace = { folder, own: place.own };
  const entries = async (): Promise<readonly Entry[]> => (await readHistory(history)).entries;
  return {
    bike,
    folder,
    append: (draft) => writing(place, () => appendEntry(history, draft, place.now())),
    undo: (reason) => writing(place, () => takeBack(history, 'undo', reason, place.now())),
    redo: (reason) => writing(place, () => takeBack(history, 'redo', reason, place.now())),
    readHistory: async () => {
      const read = await readHistory(history);
      if (place.tell === undefined) return read;
      const tried = read.entries.length === 0 && (await loadPapers(folder, 'trials')).papers.length > 0;
      for (const line of oddities(read, folder, tried)) place.tell(line);
      return read;
    },
    standings: async () => standings(await entries()),
    diff: async (one, other) => difference(await entries(), one, other),
    saveCase: (id, data, finished = true) =>
      writing(place, () => savePaper(folder, 'cases', id, data, finished)),
    loadCases: () => loadPapers(folder, 'cases'),
    saveTrial: (id, make) =>
      writing(place, async () =>
        savePaper(folder, 'trials', id, make(await loadPapers(folder, 'trials')), true),
      ),
    loadTrials: () => loadPapers(folder, 'trials'),
    savePlace: async (path) => {
      if (sheetPlace(place.home, bike) === path) return;
      await writing(place, () => replaceFile(join(folder, SHEET_PLACE), `${path}\n`, PRIVATE));
    },
  };
}

/** Under the lock, in a folder that is there, is really inside the home, and holds no leftovers of killed writers. */
async function writing<T>(place: Place, work: () => Promise<T>): Promise<T> {
  const { home, bike, folder } = place;
  makeFolder(folder);
  await stayInside(home, folder);
  return await withLock(folder, async () => {
    await sweepAside(folder);
    for (const drawer of ['cases', 'trials']) {
      await stayInside(folder, join(folder, drawer));
      await sweepAside(join(folder, drawer));
    }
    // Read again: the log may have come to be, or be of a newer version, since it was opened.
    if ((await readLogFile(folder)) === undefined) await writeLogFile(folder, { bike });
    return await work();
  });
}
