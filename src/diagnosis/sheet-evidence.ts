/** What the bike sheet says by itself: clicks, sag and tyre pressure against where they should be. */
import { ownStand } from '../bike/dial/dials.ts';
import { sheetFact } from '../bike/facts.ts';
import { sagHeldUp, sagOnRide, tyreByMass, type TyreForMass } from '../bike/end-readings.ts';
import { rowsOf } from '../bike/settings.ts';
import { isRigid, type BikeSheet } from '../bike/sheet.ts';
import { isSuspension, type Setting } from '../rulebase/compiled.ts';
import type { Model } from './model.ts';

export interface SheetFinding {
  /** index into settings */
  readonly setting: number;
  readonly reads: 'clicks' | 'sag' | 'tyre';
  /** how far from where it should be: clicks, percentage points of travel, percent of pressure */
  readonly deviation: number;
  /** set where the sag is held up by more preload than a coil should have: the deviation is of the sag without that */
  readonly heldUp?: true;
  /** set where a tyre without a target is told against what is usual for the rider's weight */
  readonly byMass?: true;
  /** [cause index, decibans] for each direction */
  readonly decibans: readonly (readonly [number, number])[];
}

/** Findings for every setting the sheet says something about. */
export function sheetFindings(model: Model, sheet: BikeSheet): SheetFinding[] {
  const { rules } = model;
  return rules.settings.flatMap((setting, index): SheetFinding[] => {
    if (setting.sheet === undefined) return [];
    const byMass = tyreFarOff(sheet, setting, rules.sheetCheck.near['tyre-for']);
    const deviation = byMass ?? deviationOf(sheet, setting);
    if (deviation === undefined) return [];
    const { right, low, high, 'most-db': most } = rules.numbers.sheet[setting.sheet];
    const decibans = setting.causes.flatMap((cause): (readonly [number, number])[] => {
      const reads = rules.causes[cause]!.reads;
      if (reads === undefined) return [];
      const db = 10 * Math.LOG10E * logRatio(deviation, reads === 'low' ? low : high, right);
      return [[cause, Math.min(most, Math.max(-most, db))]];
    });
    return [
      {
        setting: index,
        reads: setting.sheet,
        deviation,
        decibans,
        ...heldUpOf(sheet, setting),
        ...(byMass === undefined ? {} : { byMass: true as const }),
      },
    ];
  });
}

/** Prior odds a cause after the sheet. */
export function oddsWithSheet(
  model: Model,
  findings: readonly SheetFinding[],
  sheet?: BikeSheet,
): Float64Array {
  const odds = Float64Array.from(model.odds);
  for (const { decibans } of findings) for (const [cause, db] of decibans) odds[cause]! *= 10 ** (db / 10);
  for (const cause of sheet === undefined ? [] : absentCauses(model, sheet)) odds[cause]! *= ABSENT;
  return odds;
}

/** Odds that what the bike does not have is off all the same: a sheet may be wrong, and no logarithm may be of nought. */
const ABSENT = 1e-9;

/** Causes that cannot be: of a suspension that this end lacks, or of a part that the sheet says is not there. */
function absentCauses({ rules }: Model, sheet: BikeSheet): number[] {
  return rules.settings.flatMap((setting) => {
    const own = sheet.settings?.find(({ id }) => id === setting.id);
    const gone =
      (own !== undefined && ownStand(sheet, own) === 'none') ||
      (setting.end !== undefined && isRigid(sheet, setting.end) && isSuspension(setting)) ||
      hasOtherSpring(sheet, setting);
    return gone ? setting.causes : [];
  });
}

function hasOtherSpring(sheet: BikeSheet, { end, springs }: Setting): boolean {
  const spring = end === undefined ? undefined : sheetFact(sheet, `${end}.spring`);
  return springs !== undefined && spring !== undefined && !springs.includes(spring);
}

function heldUpOf(sheet: BikeSheet, { end, sheet: reads }: Setting): { readonly heldUp?: true } {
  if (end === undefined || reads !== 'sag') return {};
  return (sagHeldUp(sheet.ends[end], end) ?? 0) > 0 ? { heldUp: true } : {};
}

/** Percent off what is usual for the rider's weight, of a tyre without a target; undefined where that is not far. */
function tyreFarOff(
  sheet: BikeSheet,
  { end, sheet: reads }: Setting,
  by: TyreForMass | undefined,
): number | undefined {
  if (end === undefined || reads !== 'tyre' || sheet.ends[end].tyre?.wanted !== undefined) return undefined;
  const tyre = tyreByMass(sheet, end, by);
  return tyre === undefined || tyre.is === 'usual' ? undefined : tyre.deviation;
}

function deviationOf(sheet: BikeSheet, setting: Setting): number | undefined {
  if (setting.end === undefined) return undefined;
  const end = sheet.ends[setting.end];
  switch (setting.sheet) {
    case 'clicks': {
      const row = rowsOf(sheet.settings).find((one) => one.setting === setting.id);
      const { now, maker } = row?.shown(sheet) ?? {};
      return now === undefined || maker === undefined ? undefined : now - maker;
    }
    case 'sag': {
      const sag = sagOnRide(end);
      const heldUp = sagHeldUp(end, setting.end) ?? 0;
      // Nobody winds a collar that far but to bring the sag right.
      if (heldUp > 0) return 100 * (heldUp + (sag ?? 0) - (sag === undefined ? 0 : (end.sagWanted ?? sag)));
      return sag === undefined || end.sagWanted === undefined ? undefined : 100 * (sag - end.sagWanted);
    }
    case 'tyre': {
      const { now, wanted } = end.tyre ?? {};
      return now === undefined || wanted === undefined ? undefined : (100 * (now - wanted)) / wanted;
    }
    case undefined:
      return undefined;
  }
}

/** Whether the sheet has what a ruler or a gauge read at a setting, with a target beside it or without. */
export function hasReading(sheet: BikeSheet, { end, sheet: reads }: Pick<Setting, 'end' | 'sheet'>): boolean {
  if (end === undefined) return false;
  if (reads === 'tyre') return sheet.ends[end].tyre?.now !== undefined;
  return reads === 'sag' && sagOnRide(sheet.ends[end]) !== undefined;
}

type Normal = readonly [mean: number, sd: number];

/**
 * ln of how much likelier a reading is when the setting is off in a direction than when it is right.
 *
 * The ratio of two normal densities is a parabola over the reading: past its vertex the wider of the two would win on
 * the wrong side as well, and a sag far below what is wanted would speak for a spring too soft. A reading there counts
 * as one at the vertex, so that the ratio never turns back.
 */
function logRatio(reading: number, off: Normal, right: Normal): number {
  const opens = right[1] ** -2 - off[1] ** -2;
  const vertex = (right[0] * right[1] ** -2 - off[0] * off[1] ** -2) / opens;
  const at =
    opens === 0
      ? reading
      : off[0] > right[0] === opens > 0
        ? Math.max(reading, vertex)
        : Math.min(reading, vertex);
  return logDensity(at, off) - logDensity(at, right);
}

/** ln of the normal density, without the constant both sides share. */
function logDensity(x: number, [mean, sd]: Normal): number {
  return -((x - mean) ** 2) / (2 * sd * sd) - Math.log(sd);
}
