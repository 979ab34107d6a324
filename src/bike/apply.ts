/** A change made on a bike sheet: never past a stop, never beyond the maker's limits, never from an unknown place. */
import { isCounted, printChange, type Change, type ChangeProblem } from './change.ts';
import type { Reading } from './circuits.ts';
import type { Dial, NoDial } from './dial/dial.ts';
import { dialOf, rowFor } from './settings.ts';
import { settingWords } from './setting-words.ts';
import type { BikeSheet } from './sheet.ts';

/** A change that can be made, in numbers to read out and to plan a trial with; all in `unit`. */
interface Step {
  readonly setting: string;
  readonly from: number;
  readonly to: number;
  readonly unit: Change['unit'];
  /** the stops, or the maker's limits */
  readonly min: number;
  readonly max: number;
  /** the smallest step that can be set */
  readonly grain: number;
  /** the names of what it can stand at, by number; absent for what is counted */
  readonly names?: readonly string[];
  /** what it makes untrue and takes off the sheet, as the file form names it: sag must be measured again */
  readonly stale: readonly Reading[];
}

export interface AppliedChange {
  readonly sheet: BikeSheet;
  readonly step: Step;
}

/** @returns the sheet after it, or why it cannot be done on this bike */
export function applyChange(sheet: BikeSheet, change: Change): AppliedChange | ChangeProblem {
  const part = printChange([change]);
  if (
    !Number.isFinite(change.by) ||
    change.by === 0 ||
    (isCounted(change.unit) && !Number.isInteger(change.by))
  )
    return {
      part,
      message: `${part} cannot be set.`,
      remedy: `Say how much, in ${isCounted(change.unit) ? 'whole ' : ''}${change.unit}.`,
    };
  const dial = dialOf(sheet, change);
  if ('message' in dial) return { part, ...dial };
  const { setting, unit, now, min, max, grain, names, stale } = dial;
  if (now === undefined)
    return {
      part,
      message: `${settingWords(setting, sheet)}: current setting not recorded, so there is no way back.`,
      remedy: dial.toFindOut,
      uncounted: { key: rowFor(change, sheet.settings)?.stand ?? setting, unit },
    };
  const to = onLimit(now + change.by, dial);
  if (to < min || to > max) return { part, ...tooFar(change, dial, now, to) };
  return {
    sheet: dial.turned(to),
    step: { setting, from: now, to, unit, min, max, grain, ...(names === undefined ? {} : { names }), stale },
  };
}

/** A value that is at a limit but for the dust of changing units is at that limit. */
function onLimit(value: number, { min, max }: Dial): number {
  const stop = [min, max].find((limit) => Math.abs(limit - value) < 1e-6 * Math.max(1, Math.abs(limit)));
  return stop ?? Number(value.toPrecision(9));
}

/** Why a change cannot be made from here, and how much of it can. */
function tooFar({ by }: Change, { setting, unit, ...dial }: Dial, now: number, to: number): NoDial {
  const [stop, is] = to < dial.min ? [dial.min, dial.minIs] : [dial.max, dial.maxIs];
  const message = `${setting} is at ${hundredths(now)}. ${hundredths(to)} ${unit} is beyond ${is}: ${hundredths(stop)}.`;
  // In thousandths, as the notation writes it; millionths are dust of changing units.
  const exact = Math.round((stop - now) * 1e6) / 1e3;
  if (Math.sign(exact) !== Math.sign(by) || Math.abs(exact) < 1)
    return { message, remedy: 'It goes no further that way: choose another adjustment.' };
  const room = { setting, unit, by: Math.trunc(exact) / 1e3 };
  if (Math.abs(room.by) < Math.abs(by)) return { message, remedy: `At most ${printChange([room])}.` };
  // Outside already, and coming back: then the limit is the least that will do.
  const back = { ...room, by: (Math.sign(by) * Math.ceil(Math.abs(exact))) / 1e3 };
  return { message, remedy: `At least ${printChange([back])}.` };
}

export interface AppliedChanges {
  /** absent when any of them cannot be made: half a change is another change */
  readonly sheet?: BikeSheet;
  readonly steps: readonly Step[];
  readonly problems: readonly ChangeProblem[];
}

/** Several changes in a row, with everything that stands against them at once. */
export function applyChanges(sheet: BikeSheet, changes: readonly Change[]): AppliedChanges {
  const steps: Step[] = [];
  const problems: ChangeProblem[] = [];
  let after = sheet;
  for (const change of changes) {
    const applied = applyChange(after, change);
    if ('message' in applied) problems.push(applied);
    else {
      after = applied.sheet;
      steps.push(applied.step);
    }
  }
  return problems.length > 0 ? { steps: [], problems } : { sheet: after, steps, problems };
}
function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
