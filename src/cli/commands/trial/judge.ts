/** `earshot trial judge`: the verdict, and on a verdict the bike sheet and the log brought up to it. */
import { json } from '../../../form/text.ts';
import { command, flag, format, onBike, text } from '../../takes.ts';
import { printChange } from '../../../bike/change.ts';
import { isSameDeed, printDeed } from '../../../bike/deed.ts';
import { onMakersSheet } from '../../../bike/makers-sheet.ts';
import { settingWords } from '../../../bike/setting-words.ts';
import { movedBetween, withStands } from '../../../bike/setting-values.ts';
import type { SettingChange } from '../../../logbook/entry.ts';
import type { Papers } from '../../../logbook/documents.ts';
import { withSheet, type WriteSheet } from '../../../logbook/sheet-writing.ts';
import { GOOD_END } from '../../../report/bike/history-text.ts';
import { judgementText } from '../../../report/bike/trial-text.ts';
import { judge, type Judgement } from '../../../trials/judge.ts';
import { resultsOf, type TrialResult } from '../../../trials/outcome.ts';
import { runsLeft } from '../../../trials/sequence.ts';
import { standWords, tidy, type Trial } from '../../../trials/trial.ts';
import { asClosed, grounds, isOver, keptOnWord, verdictSentence } from '../../../trials/verdict-words.ts';
import type { BikeSheet } from '../../../bike/sheet.ts';
import { EXIT, Refusal, type Io } from '../../../host/io.ts';
import { loadSheet } from '../../../workspace/bikes/load-sheet.ts';
import { openBike, refusing, type OpenBike } from '../../../workspace/bikes/open-bike.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import { readText } from '../../../disk/read-file.ts';
import { sheetFile } from '../../../workspace/bikes/sheet-file.ts';
import { editedText } from '../../../workspace/bikes/sheet-text.ts';
import { chooseTrial, trialNow, trialsOf } from '../../../workspace/bikes/trial-shelf.ts';
import { mayBeWritten } from '../../../disk/write-new.ts';

export const trialJudge = command({
  about:
    "the verdict: keep it, put it back, go further, halve it, or can't tell; it goes on the sheet and in the log",
  options: {
    bike: onBike(),
    trial: text('id', 'which trial; not needed while only one is open'),
    close: flag('end it now: with the verdict so far, or back at the reference'),
    keep: flag("end it and keep the step on the rider's word, where it was rated better but not surely"),
    format: format('text', 'json'),
  },
  examples: [['earshot trial judge --bike my-bike.yaml', 'the verdict so far']],
  run: async (options, { io, style }) => {
    const bike = await openBike(options.bike, io);
    return await refusing(async () => {
      const trial = chooseTrial(await trialsOf(bike, io), options.trial, options.bike);
      const { judged, results, done, closes, again, sheet } = await judgeTrial(
        trial,
        bike,
        options.close || options.keep,
        io,
        options.keep ? onWord(trial) : undefined,
      );
      const said = again
        ? [`This verdict is already in the log (${trial.verdict}); nothing was written.`]
        : [...done, ...whatNext(trial, judged, closes, sheet, options.bike, io)];
      if (options.format === 'json')
        await io.out(
          json(asData(trial, judged, results, { recorded: done.length > 0, closed: closes || again })),
        );
      else await io.out(judgementText(trial, judged, said, closes || again, await style()));
      return EXIT.done;
    });
  },
});

/** @throws Refusal where there is nothing to keep, or no need of the rider's word */
function onWord(trial: Trial): Judgement {
  const judged = judge(trial);
  const kept = keptOnWord(judged);
  if (kept === undefined)
    throw new Refusal(
      `--keep is for a step that was rated better, but not surely. Here the verdict is: ${verdictSentence(trial, judged, true)}`,
    );
  return kept;
}

interface Judged {
  readonly judged: Judgement;
  readonly results: readonly TrialResult[];
  /** what was written, a line each */
  readonly done: readonly string[];
  readonly closes: boolean;
  /** it was judged before */
  readonly again: boolean;
  /** as it stands after that */
  readonly sheet: BikeSheet;
}

/**
 * Judges a trial; where that ends it, on request or by its verdict, sheet and log are brought up to it.
 * @param judged what is written down where the rider decided
 */
export async function judgeTrial(
  trial: Trial,
  bike: OpenBike,
  close: boolean,
  io: Io,
  judged: Judgement = asClosed(trial, judge(trial)),
): Promise<Judged> {
  const results = resultsOf(trial, judged);
  const closes = close || (judged.verdict !== 'cannot-tell' && runsLeft(trial) === 0);
  const again = trial.verdict !== undefined;
  const done = closes && !again ? await writeDown(trial, judged, results, bike, io) : [];
  const sheet =
    done.length === 0 ? bike.sheet : (await loadSheet(bike.path, io.cwd, bike.sheet.settings ?? [])).sheet;
  return { judged, results, done, closes, again, sheet };
}

function asData(
  trial: Trial,
  judged: Judgement,
  results: readonly TrialResult[],
  { recorded, closed }: { readonly recorded: boolean; readonly closed: boolean },
): object {
  return {
    format: 1,
    trial: trial.id,
    bike: trial.bike ?? null,
    setting: trial.change.setting,
    unit: trial.change.unit,
    says: verdictSentence(trial, judged, closed),
    grounds: grounds(trial, judged, closed),
    ...judged,
    results: results.map((one) => ({ ...one, change: printDeed(one.change) })),
    recorded,
  };
}

/**
 * The click, then the results, then the trial itself as closed: a kill in between leaves it open, and judging it again
 * writes what is missing. All of it alone among those that judge, and only on the runs that were judged.
 */
async function writeDown(
  trial: Trial,
  judged: Judgement,
  results: readonly TrialResult[],
  bike: OpenBike,
  io: Io,
): Promise<string[]> {
  const { log, path, sheet } = bike;
  return await withSheet(log, sheetFile(path, sheet.settings), async (write, finished) => {
    if (finished?.said !== undefined) io.err(`${finished.said}\n`);
    unchanged(trial, await log.loadTrials());
    const from = { trial: trial.id, ...(trial.case === undefined ? {} : { case: trial.case }) };
    const { entries } = await log.readHistory();
    const own = entries.filter((entry) => entry.trial === trial.id);
    const said: string[] = [];
    if (!own.some((entry) => entry.kind === 'change'))
      said.push(...(await turn(trial, judged, bike, from, write, io)));
    const { setting } = trial.change;
    for (const { change, outcome, kept, points, error } of results)
      if (!own.some((entry) => entry.result !== undefined && isSameDeed(entry.result.change, change)))
        await log.append({
          kind: 'result',
          result: { change, setting, outcome, kept, points, error },
          ...from,
        });
    if (results.length === 0 && !own.some((entry) => entry.kind === 'note'))
      await log.append({ kind: 'note', reason: verdictSentence(trial, judged, true), ...from });
    // A run that was recorded this very moment stays; it only came too late for the verdict.
    await log.saveTrial(trial.id, (papers) => ({ ...trialNow(trial.id, papers), verdict: judged.verdict }));
    return [...said, 'Written into the log.'];
  });
}

/** @throws Refusal when a run was recorded, or the trial judged, since it was read */
function unchanged(trial: Trial, papers: Papers): void {
  const now = trialNow(trial.id, papers);
  if (JSON.stringify(now) !== JSON.stringify(trial))
    throw new Refusal(
      `Somebody wrote to trial ${trial.id} just now, so nothing was judged. Judge it again.`,
      EXIT.some,
    );
}

/** Puts the sheet where the verdict says, together with its entry in the history. */
async function turn(
  trial: Trial,
  judged: Judgement,
  { path, log, sheet: { settings = [] } }: OpenBike,
  from: { readonly trial: string; readonly case?: string },
  write: WriteSheet,
  io: Io,
): Promise<string[]> {
  const { setting, unit } = trial.change;
  await mayBeWritten(path);
  const before = await readText(path, io.cwd);
  const { sheet } = await loadSheet(path, io.cwd, settings);
  const moved = withStands(sheet, [{ setting: standName(trial), value: judged.set, unit }]);
  for (const { message, remedy } of moved.refused) io.err(`${setting}: ${message} ${remedy}\n`);
  const changes = movedBetween(sheet, moved.sheet) as SettingChange[];
  if (changes.length === 0) return [];
  const reason = verdictSentence(trial, judged, true);
  const text = editedText(before, sheet, moved.sheet, path);
  await write({ kind: 'change', changes, intent: `trial ${trial.id}`, before, text }, () =>
    log.append({ kind: 'change', changes, reason, ...from }),
  );
  return [
    `The bike sheet now says ${settingWords(setting, sheet)} ${standWords(trial.change, judged.set)}. Make sure the bike is set the same.`,
  ];
}

/** A coil's rate and its preload are two things under one setting; the log names them apart. */
function standName({ change: { setting, unit } }: Trial): string {
  if (!setting.endsWith('.spring')) return setting;
  if (unit === 'N/mm' || unit === 'lb/in') return `${setting}.rate`;
  return unit === 'mm' || unit === 'in' || unit === 'turns' ? `${setting}.preload` : setting;
}

/** What to do after the verdict, and whether the bike ended well. */
export function whatNext(
  trial: Trial,
  judged: Judgement,
  closed: boolean,
  sheet: BikeSheet,
  file: string,
  { packs }: Io,
): string[] {
  const { setting, unit } = trial.change;
  const at = `--bike ${quoted(file)}${packArgs(packs)}`;
  const plan = (by: number): string =>
    `earshot trial plan ${at} --change ${quoted(printChange([{ setting, by: tidy(by), unit }]))}`;
  if (!closed) {
    const id = `--trial ${quoted(trial.id)}`;
    const judging = `earshot trial judge ${at} ${id}`;
    if (isOver(judged))
      return keptOnWord(judged) === undefined
        ? [`Drop it and look elsewhere: ${judging} --close`]
        : [`Keep it: ${judging} --keep`, `Or put it back: ${judging} --close`];
    const early = `That is how it looks so far. Nothing was written. Runs still to ride: ${runsLeft(trial)}. Judge too often and chance will fool you.`;
    return [
      ...(judged.verdict === 'cannot-tell' ? [] : [early]),
      `Carry on: earshot trial record ${at} ${id}`,
      ...(judged.verdict === 'cannot-tell'
        ? []
        : [`Or end it here: earshot trial judge ${at} ${id} --close`]),
    ];
  }
  const good = onMakersSheet(sheet) === true ? [GOOD_END] : [];
  if (judged.verdict === 'further') return [`Next trial: ${plan(judged.next! - judged.set)}`, ...good];
  if (judged.verdict === 'half')
    return [`Then test that setting: ${plan(trial.change.from - judged.set)}`, ...good];
  return [`What next: earshot next ${at}`, ...good];
}
