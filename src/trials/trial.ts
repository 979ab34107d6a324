/** The words of a trial: one change on one adjuster, ridden against the reference and rated run by run. */
import type { ChangeUnit } from '../bike/change.ts';
import { settingWords, valueWords } from '../bike/setting-words.ts';
import { asRead } from '../bike/units.ts';
import type { Numbers } from '../rulebase/numbers-schema.ts';

/**
 * `plus` opens the adjuster (or adds pressure), `minus` does the opposite. `sham` is turned and turned back: planned no
 * more, and still read.
 */
export type ArmName = 'reference' | 'plus' | 'minus' | 'sham';

/** What is to be tried: one adjuster, from where it stands to where it might go. */
export interface Change {
  /** which setting, e.g. front.rebound.low */
  readonly setting: string;
  /** what it is called on this bike; absent in trials planned before */
  readonly words?: string;
  readonly from: number;
  readonly to: number;
  /** clicks from fully closed, psi, turns, … */
  readonly unit: ChangeUnit;
  /** the names of what it can stand at, by number from 0; absent for what is counted */
  readonly names?: readonly string[];
  /** the stops, or the maker's limits, in the same unit; absent where none is written down */
  readonly min?: number;
  readonly max?: number;
  /** the smallest step that can be set; 1 for clicks */
  readonly grain: number;
}

/** What the diagnosis expected of the advised step before the trial; 0..1, and not more than 1 together. */
export interface Chances {
  readonly helps: number;
  readonly harms: number;
}

/** How many points a change makes that helps, does nothing or harms, and how often a whole trial is misled: the pack's. */
export type Expected = Pick<Numbers['trial'], 'points' | 'misled' | 'open'>;

/** One thing to rate from 1 to 7; 7 is always the good end. */
export interface Feeling {
  readonly id: string;
  readonly ask: string;
  /** what a 1 and what a 7 means */
  readonly low: string;
  readonly high: string;
}

export interface Arm {
  readonly name: ArmName;
  /** where the adjuster stands for this arm, in the unit of the change */
  readonly set: number;
}

export interface RiddenRun {
  readonly arm: ArmName;
  /** feeling id → 1..7; a feeling may be left out */
  readonly ratings: Readonly<Record<string, number>>;
  /** run time, s */
  readonly seconds?: number;
  /** when it was ridden, as the caller's clock said */
  readonly at?: string;
  readonly note?: string;
}

/** A run whose asking was broken off: what was said until then. */
export interface BegunRun {
  /** whether the settings are hidden from the rider, for the whole trial */
  readonly hidden?: boolean;
  readonly arm?: ArmName;
  readonly ratings: Readonly<Record<string, number>>;
  readonly seconds?: number;
  readonly note?: string;
}

/** A trial of the same step, ridden before on the bike as it stood: its ratings count in the verdict too. */
export type EarlierTrial = Pick<Trial, 'id' | 'hidden' | 'short' | 'ridden'>;

export interface Trial {
  /** format version */
  readonly trial: 1;
  readonly id: string;
  readonly bike?: string;
  /** the interview whose adjustment is tried */
  readonly case?: string;
  readonly change: Change;
  /** the reference, the step that was advised, and the other direction where it was asked for */
  readonly arms: readonly [Arm, Arm] | readonly [Arm, Arm, Arm];
  /** absent in trials of before: then nothing was expected */
  readonly chances?: Chances;
  readonly expected?: Expected;
  /** the step brings what a gauge read off nearer to its target: it is kept unless it rides worse */
  readonly byGauge?: true;
  /** whether the rider did not know how the bike was set; absent as long as nobody said */
  readonly hidden?: boolean;
  /** oldest first; absent: this step was not ridden before on the bike as it stands */
  readonly before?: readonly EarlierTrial[];
  /** four runs in turn and no warm-up, so that one rider alone gets through it */
  readonly short?: true;
  readonly feelings: readonly Feeling[];
  /** what to feel for, from the rule behind the adjustment */
  readonly feel?: string;
  readonly cautions: readonly string[];
  /** how the plan differs from the usual one, and why */
  readonly notes: readonly string[];
  readonly ridden: readonly RiddenRun[];
  /** the next run, as far as it was told */
  readonly begun?: BegunRun;
  /** set once the trial is closed, so that it is no longer an open thing */
  readonly verdict?: string;
}

export type TrialProblemCode =
  | 'id'
  | 'no-step'
  | 'outside'
  | 'grain'
  | 'other-way'
  | 'feelings'
  | 'unknown-arm'
  | 'unknown-feeling'
  | 'rating'
  | 'no-rating'
  | 'seconds'
  | 'closed';

/** What is wrong with a plan or a recorded run: where, what, and the remedy. */
export interface TrialProblem {
  readonly code: TrialProblemCode;
  /** the field that is meant, e.g. ratings.grip */
  readonly at: string;
  readonly message: string;
  readonly remedy: string;
}

export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly TrialProblem[] };

/** What the setting is called on the bike that rides the trial. */
export function wordsFor({ setting, words }: Pick<Change, 'setting' | 'words'>): string {
  return words ?? settingWords(setting);
}

/** `10 clicks from closed`, `1.6 bar`, or the name of a position. */
export function standWords({ unit, names }: Pick<Change, 'unit' | 'names'>, set: number): string {
  return names?.[set] ?? valueWords(asRead(set, unit), unit);
}

/** The same without its unit: `10`, `1.6`, or the name of a position. */
export function placeWords(
  { unit, names }: { readonly unit: string; readonly names?: readonly string[] | undefined },
  set: number,
): string {
  return names?.[set] ?? String(asRead(set, unit));
}

/** Steps such as 0.1 bar must not show as 0.30000000000000004. */
export function tidy(x: number): number {
  return Math.round(x * 1e9) / 1e9;
}

export function limitsOf({ min = -Infinity, max = Infinity }: Change): { min: number; max: number } {
  return { min, max };
}

/** The arm of that name, if the trial has one. */
export function armOf(trial: Trial, name: ArmName): Arm | undefined {
  return trial.arms.find((arm) => arm.name === name);
}

const COMPLAINT = '{complaint}';

/**
 * What is rated after every run.
 * @param all those of the rules
 * @param complaint the rider's own words that the change is for; without them nothing is rated that asks for them
 */
export function feelingsFor(all: readonly Feeling[], complaint: string | undefined): Feeling[] {
  return all.flatMap((feeling) => {
    if (!feeling.ask.includes(COMPLAINT)) return [feeling];
    return complaint === undefined
      ? []
      : [{ ...feeling, ask: feeling.ask.replace(COMPLAINT, `"${complaint}"`) }];
  });
}
