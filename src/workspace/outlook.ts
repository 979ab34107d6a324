/** Where a bike stands, out of its sheet, its log and the interviews that were kept, and what is next. */
import { againstMaker, onMakersSheet } from '../bike/makers-sheet.ts';
import { settingWords } from '../bike/setting-words.ts';
import { standsOf } from '../bike/setting-values.ts';
import type { ChangeUnit } from '../bike/change.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { packArgs } from '../host/quoted.ts';
import type { Io } from '../host/io.ts';
import { driftOf, keptLast, untested, type Standings } from '../logbook/replay.ts';
import { shownValue, type Entry } from '../logbook/entry.ts';
import { leftGood } from '../logbook/left-good.ts';
import { takenBackNext } from '../logbook/take-back.ts';
import { trialsNow } from '../logbook/trials-now.ts';
import { changeWords, outcomeWord } from '../report/bike/change-words.ts';
import type { NextThing, Outlook } from '../report/bike/next-text.ts';
import type { Trial } from '../trials/trial.ts';
import { putBackWords, stoodLastWords } from '../trials/verdict-words.ts';
import type { OpenBike } from './bikes/open-bike.ts';
import { numberWord, setLine } from './bikes/set-line.ts';
import { openOnes, trialsOf } from './bikes/trial-shelf.ts';
import { strayWords } from './bikes/beside-trial.ts';
import { caseName } from './cases/kept-case.ts';
import { keptInterviews } from './cases/kept-interviews.ts';
import { lastInterview } from './cases/last-interview.ts';
import { openThings, restThing, targetsOpen } from './next-thing.ts';
import { stillOff, thenCheck } from './still-off.ts';
import { openWorkspace } from './workspace.ts';

/** Entries of the history that are shown. */
const RECENT = 3;

/** Where a bike stands, and what is next. @param file the bike as the line named it */
export async function outlookOf(
  file: string,
  bike: OpenBike,
  rules: readonly string[],
  io: Io,
): Promise<Outlook> {
  const [trials, { entries }, standings] = await Promise.all([
    trialsOf(bike, io),
    bike.log.readHistory(),
    bike.log.standings(),
  ]);
  const lastResult = entries.findLast((entry) => entry.result !== undefined);
  const since = lastResult === undefined ? undefined : new Date(lastResult.at);
  const workspace = await openWorkspace(io, rules, file, true);
  const { newest, stop, for: audience } = await keptInterviews(bike, workspace, entries, since, io);
  const settled =
    trials.some((trial) => trial.case === newest?.id) || entries.some((e) => settles(e, newest?.id));
  const last = lastJudged(entries, trials);
  const kept = keptLast(entries);
  // Measured again since, it still stands.
  const stands =
    kept?.kept === true && !kept.takenBack ? trials.find(({ id }) => id === lastResult?.trial) : undefined;
  const off = stands === undefined ? [] : await stillOff(stands, workspace, bike.sheet, file);
  const open = openThings({
    file: file,
    sheet: bike.sheet,
    trials: openOnes(trials),
    last,
    untested: untested(entries),
    left: leftGood(entries),
    // A spring that goes on is not what the rebound is set for.
    stillOff:
      off.length > 0 || stands === undefined ? off : thenCheck(stands, workspace, bike.sheet, entries, file),
    interview: settled || newest === undefined ? undefined : named(newest, io),
    words: { rules: workspace.rules, audience: audience ?? 'mechanic' },
    stop: stop === undefined ? undefined : named(stop, io),
  });
  const good = onMakersSheet(bike.sheet) ?? null;
  const before =
    open.length > 0 || kept?.kept !== true
      ? undefined
      : await lastInterview(bike.path, entries, workspace, io);
  const back = last === undefined ? undefined : putBackWords(last);
  return {
    bike: bike.sheet.name ?? bike.sheet.id,
    next: withPacks(
      spokenTo(
        open[0] ??
          restThing(file, kept && { ...kept, redo: isRedo(entries) }, good === true, before?.said, back),
        audience,
      ),
      rules,
    ),
    stands: withMaker(bike.sheet),
    onMakersSheet: good,
    open: [...open.slice(1), ...targetsOpen(bike.sheet, file)].map((thing) =>
      openLine(withPacks(spokenTo(thing, audience), rules)),
    ),
    done: entries
      .slice(-RECENT)
      .toReversed()
      .map((entry) => entryLine(entry, bike.sheet)),
    doubts: [
      ...openOnes(trials).flatMap((trial) =>
        [stoodLastWords(trial) ?? [], strayWords(trial, bike.sheet, file) ?? []].flat(),
      ),
      ...doubtsOf(bike.sheet, standings, file, rules),
    ],
  };
}

/** Whether a redo puts on again what the trial that was judged last kept. */
function isRedo(entries: readonly Entry[]): boolean {
  const undone = takenBackNext(entries, 'redo')?.undoes;
  const trial = entries.findLast(({ result }) => result !== undefined)?.trial;
  return (
    undone !== undefined &&
    trial !== undefined &&
    entries.find(({ entry }) => entry === undone)?.trial === trial
  );
}

/** By its name where it is found by it, so that the command to be copied is short. */
function named<T extends { readonly path?: string }>(found: T, io: Io): T {
  return found.path === undefined ? found : { ...found, path: caseName(found.path, io) };
}

/** A note that what an interview asked for was done. */
function settles({ kind, case: id, kept }: Entry, interview: string | undefined): boolean {
  return kind === 'note' && kept === undefined && id !== undefined && id === interview;
}

/**
 * The trial behind the last entry of the history, unless something else was done to the bike since: what was taken back and put
 * on again is on.
 */
function lastJudged(entries: readonly Entry[], trials: readonly Trial[]): Trial | undefined {
  const { takenBack, ofTrials } = trialsNow(entries);
  const id = entries.findLast(({ kind, entry }) => kind !== 'note' && !ofTrials.has(entry))?.trial;
  return trials.find((trial) => trial.id === id && trial.verdict !== undefined && !takenBack.has(trial.id));
}

/** A rider who was spoken to as one is in the next interview too; one that is resumed knows by itself. */
function spokenTo(thing: NextThing, audience: 'rider' | undefined): NextThing {
  return audience !== undefined && thing.command?.startsWith('earshot interview --bike ') === true
    ? { ...thing, command: `${thing.command} --for ${audience}` }
    : thing;
}

/** A sheet, and what was asked and answered, may need the packs of this line: every next line has them too. */
function withPacks(thing: NextThing, rules: readonly string[]): NextThing {
  return thing.command === undefined ? thing : { ...thing, command: `${thing.command}${packArgs(rules)}` };
}

/** The command that does it stands below it. */
function openLine({ do: what, command: line }: NextThing): string {
  return line === undefined ? what : `${what}\n${line}`;
}

function withMaker(sheet: BikeSheet): Outlook['stands'] {
  const maker = new Map(againstMaker(sheet).map((knob) => [knob.setting, knob.maker]));
  return standsOf(sheet).map((stand) => {
    const known = maker.get(stand.setting);
    return known === undefined ? stand : { ...stand, maker: known };
  });
}

/** Somebody turned something without writing it down, or wrote it in one of them only. */
function doubtsOf(sheet: BikeSheet, logged: Standings, file: string, rules: readonly string[]): string[] {
  return driftOf(standsOf(sheet), logged).map(
    ({ setting, sheet: here, log, unit, entry }) =>
      `${settingWords(setting, sheet)}: the sheet says ${shownValue(here, unit)}, the log ${shownValue(log, unit)} (entry ${entry}). Look at the bike, and write down what is right: ${setLine([numberWord({ key: setting, unit: unit as ChangeUnit })], file, rules)}`,
  );
}

function entryLine({ at, kind, changes = [], result, reason }: Entry, sheet: BikeSheet): string {
  const day = at.slice(0, 10);
  if (result !== undefined)
    return `${day} tried ${changeWords(result.change, sheet)}: ${outcomeWord(result.outcome)}, ${result.kept ? 'kept' : 'not kept'}`;
  if (kind === 'start')
    return `${day} start: ${changes.length} ${changes.length === 1 ? 'setting' : 'settings'} written down`;
  if (kind === 'note') return `${day} ${reason}`;
  const moved = changes.map(
    ({ setting, from, to, unit }) =>
      `${settingWords(setting, sheet)} ${from ?? '?'} → ${shownValue(to, unit)}`,
  );
  return `${day} ${kind === 'undo' ? 'taken back: ' : kind === 'counted' ? 'counted: ' : ''}${moved.join(', ')}`;
}
