/** What `rules learn` reads: case files, folders of cases, and the logs of bikes with what their trials came to. */
import { readdirSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import type { BikeSheet } from '../../bike/sheet.ts';
import { withStands } from '../../bike/setting-values.ts';
import { vocabularyOf } from '../../casework/case.ts';
import { readCase } from '../../casework/reading/read-case.ts';
import { roundsOf, standsBefore } from '../../casework/rounds.ts';
import type { Logged } from '../../evaluation/learn-observe.ts';
import { readLogFile } from '../../logbook/log-file.ts';
import { openLog } from '../../logbook/log.ts';
import { ratedTrials } from '../../trials/outcome.ts';
import type { Workspace } from '../workspace.ts';
import { Refusal, type Io } from '../../host/io.ts';
import { sheetOf } from '../bikes/known-bikes.ts';
import { loadSheet } from '../bikes/load-sheet.ts';
import { refusing } from '../bikes/open-bike.ts';
import { readRecords } from './records.ts';
import { trialsOf } from '../bikes/trial-shelf.ts';

const CASE = /\.(ya?ml|json|ndjson|jsonl)$/;

/**
 * Of a folder: the log of every bike in it, or, where there is none, the case files in it. Of a bike's log: its trials,
 * each with the answers of the interview before it.
 * @param bikeFile the sheet of one bike, for its log
 * @returns the cases, and how many records could not be used; each of those is told on stderr
 * @throws Refusal for a folder with neither
 */
export async function loggedCases(
  workspace: Workspace,
  paths: readonly string[],
  bikeFile: string | undefined,
  io: Io,
): Promise<{ logged: Logged[]; failed: number; unreadable: boolean }> {
  const logged: Logged[] = [];
  const files: string[] = [];
  let failed = 0;
  let unreadable = false;
  const given =
    bikeFile === undefined
      ? undefined
      : (await loadSheet(sheetOf(bikeFile, io), io.cwd, workspace.rules.adjusters)).sheet;
  for (const path of paths) {
    if (path === '-' || !statSync(resolve(io.cwd, path), { throwIfNoEntry: false })?.isDirectory()) {
      files.push(path);
      continue;
    }
    const bikes = bikeLogs(resolve(io.cwd, path));
    for (const folder of bikes) {
      try {
        const one = await ofBike(workspace, folder, given, io);
        if (one !== undefined) logged.push(one);
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        failed++;
        io.err(`${folder}: ${error.message}\n`);
      }
    }
    if (bikes.length > 0) continue;
    const cases = readdirSync(resolve(io.cwd, path), { withFileTypes: true })
      .filter((f) => f.isFile() && CASE.test(f.name) && !f.name.startsWith('.'))
      .map((f) => join(path, f.name))
      .sort();
    if (cases.length === 0)
      throw new Refusal(
        `${path}: there is no case and no log in this folder. Name case files, or the folder of a log.`,
      );
    files.push(...cases);
  }
  for await (const record of readRecords(files, io)) {
    const opened = await workspace.open(record);
    if ('faults' in opened) {
      failed++;
      unreadable ||= record.unreadable === true;
      io.err(`${opened.faults.join('\n')}\n`);
    } else logged.push({ kase: opened.kase, bench: opened.bench });
  }
  return { logged, failed, unreadable };
}

/** The folder itself when it is a bike's log, else the logs in its `bikes`, or in it. */
function bikeLogs(folder: string): string[] {
  const isLog = (at: string): boolean =>
    statSync(join(at, 'log.yaml'), { throwIfNoEntry: false }) !== undefined;
  if (isLog(folder)) return [folder];
  const home = join(folder, 'bikes');
  const inside = statSync(home, { throwIfNoEntry: false })?.isDirectory() ? home : folder;
  return readdirSync(inside, { withFileTypes: true })
    .filter((f) => f.isDirectory())
    .map((f) => join(inside, f.name))
    .filter(isLog)
    .sort();
}

/** One case: the rounds of a bike, oldest first. Undefined when no trial on it has been judged yet. */
async function ofBike(
  workspace: Workspace,
  folder: string,
  given: BikeSheet | undefined,
  io: Io,
): Promise<Logged | undefined> {
  if (basename(dirname(folder)) !== 'bikes')
    throw new Refusal('A log is read where it was kept: in the folder bikes of its home.');
  return await refusing(async () => {
    const { bike } = (await readLogFile(folder))!;
    const log = await openLog(dirname(dirname(folder)), bike, {
      now: io.now,
      own: workspace.rules.adjusters,
    });
    const { entries } = await log.readHistory();
    const { papers } = await log.loadCases();
    const vocabulary = vocabularyOf(workspace.rules);
    const answersOf = (id: string) => {
      const paper = papers.find((one) => one.id === id);
      return paper === undefined ? undefined : readCase(paper.data, vocabulary, id).value?.answers;
    };
    const rounds = roundsOf(entries, answersOf, ratedTrials(await trialsOf({ log }, io)));
    const last = rounds.at(-1);
    if (last === undefined) return undefined;
    const before = given?.id === bike ? withStands(given, standsBefore(entries)).sheet : undefined;
    return {
      kase: { ...last, id: bike, earlier: rounds.slice(0, -1) },
      bench: await workspace.bench(before),
    };
  });
}
