/** What is written down by hand beside an open trial: its knob stays at the reference, and the rest of the bike as it is. */
import { settingWords } from '../../bike/setting-words.ts';
import { dialOf } from '../../bike/settings.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { EXIT, Refusal, type Io } from '../../host/io.ts';
import { packArgs, quoted } from '../../host/quoted.ts';
import { placeWords, standWords, wordsFor, type Trial } from '../../trials/trial.ts';

/**
 * Before a change is written down while a trial is open.
 * @param file the bike as the line named it
 * @param since what is taken back was done then; absent: it is done now
 * @returns what to tell, where runs were ridden on the bike as it was
 * @throws Refusal where it takes the knob of the trial away from the reference: nothing is to be written
 */
export function besideTrial(
  trial: Trial | undefined,
  [before, after]: readonly [BikeSheet, BikeSheet],
  file: string,
  { packs }: Pick<Io, 'packs'>,
  since?: string,
): string | undefined {
  if (trial === undefined) return undefined;
  const at = `--bike ${quoted(file)}${packArgs(packs)}`;
  const end = `earshot trial judge ${at} --trial ${quoted(trial.id)} --close`;
  const stands = standsNow(trial, after);
  const name = settingWords(trial.change.setting, after);
  if (stands !== standsNow(trial, before)) {
    if (stands === undefined || isReference(trial, stands)) return undefined;
    throw new Refusal(
      `Trial ${trial.id} is open and tests the ${name} against ${standWords(trial.change, trial.arms[0].set)}: set it by hand for each run, and record the run. Nothing was written. Carry on: earshot trial record ${at}\nOr end the trial first: ${end}`,
      EXIT.some,
    );
  }
  // What is taken back before anything was ridden on it does the trial good.
  const ridden = trial.ridden.filter((run) => since === undefined || (run.at ?? '') >= since);
  if (ridden.length === 0) return undefined;
  const back = since === undefined ? `Take it back: earshot log undo ${at}\nOr end` : 'End';
  return `Trial ${trial.id} of the ${name} is open: runs before this change and after it do not compare. ${back} the trial: ${end}`;
}

/** That an open trial no longer begins where the bike stands; undefined where it does, or nobody knows. */
export function strayWords(trial: Trial, sheet: BikeSheet, file: string): string | undefined {
  const { id, change, arms } = trial;
  const stands = standsNow(trial, sheet);
  if (stands === undefined || isReference(trial, stands)) return undefined;
  return `Trial ${id} began with the ${wordsFor(change)} at ${standWords(change, arms[0].set)}, and the sheet says ${placeWords(change, stands)} now. Set it back for the trial, or end the trial: earshot trial judge --bike ${quoted(file)} --trial ${quoted(id)} --close`;
}

/** Where the knob of the trial stands, in the trial's unit; undefined when nobody wrote it down. */
function standsNow({ change }: Trial, sheet: BikeSheet): number | undefined {
  const dial = dialOf(sheet, change);
  return 'message' in dial ? undefined : dial.now;
}

/** But for the dust of changing units. */
function isReference({ arms: [reference] }: Trial, stands: number): boolean {
  return Math.abs(stands - reference.set) < 1e-6 * Math.max(1, Math.abs(stands));
}
