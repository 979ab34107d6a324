/**
 * The change notation: `front.rebound.low+2`, `rear.spring-5psi`, several separated by commas.
 *
 *     change  = part { "," part }
 *     part    = setting ("+" | "-") number [unit]
 *
 * A setting is one of the settings table or of a pack in use, and its row says the units: whole clicks for a knob (+ is
 * more open), a pressure, a coil's rate in N/mm or its preload in mm or turns, whole spacers, whole positions of a
 * switch. What is counted needs no unit (`+2`, `+2 clicks`, `+1 spacer`); everything else must name its own, because
 * five psi and five bar are not the same mistake. Spaces and a typographic minus are read; neither is written.
 */
import { printable } from '../form/text.ts';
import { nearest } from '../form/suggest.ts';
import type { ChangeUnit } from './dial/dial.ts';
import type { OwnSetting } from './own-setting.ts';
import { changeable, knobsOfSide, rowEndingSo, rowsOf } from './settings.ts';
import type { BikeSheet } from './sheet.ts';
import { siPer, type Unit } from './units.ts';

export type { ChangeUnit } from './dial/dial.ts';

export interface Change {
  /** the setting's id, e.g. front.rebound.low */
  readonly setting: string;
  /** signed, in `unit`; + is more open, more pressure, stiffer, more spacers, higher */
  readonly by: number;
  readonly unit: ChangeUnit;
}

export interface ChangeProblem {
  /** the part of the notation it is about, as written */
  readonly part: string;
  readonly message: string;
  readonly remedy: string;
  /** set where all that is missing is where it stands now: what to write down, as `bike set` names it, and in what */
  readonly uncounted?: { readonly key: string; readonly unit: ChangeUnit };
}

export interface ParsedChange {
  /** empty when any part is wrong: half a change is another change */
  readonly changes: readonly Change[];
  readonly problems: readonly ChangeProblem[];
}

const PART = /^([a-z][a-z0-9]*(?:[.-][a-z][a-z0-9]*)*)\s*([+\-−–])\s*(\d{1,5}(?:[.,]\d{1,3})?)\s*([a-z/]*)$/i;

/**
 * Reads the notation; never throws. Amounts up to 99999, with up to three digits after the point.
 * @param own the settings that packs in use add
 * @param on the bike that it is for: there `rear.rebound+2` names the one rebound knob of the rear
 */
export function parseChange(text: string, own: readonly OwnSetting[] = [], on?: BikeSheet): ParsedChange {
  const changes: Change[] = [];
  const problems: ChangeProblem[] = [];
  const seen = new Map<string, string>();
  // A comma between two digits is a decimal comma; any other ends a part.
  for (const raw of text.split(/,(?!\d)|(?<!\d),/)) {
    const part = printable(raw.trim());
    const read = parsePart(raw.trim(), own, on);
    if ('message' in read) {
      problems.push({ part, ...read });
      continue;
    }
    const what = `${read.setting} ${aspect(read.unit)}`;
    const before = seen.get(what);
    if (before !== undefined)
      problems.push({
        part,
        message: `${part} changes what ${before} already changes.`,
        remedy: 'Write it once, with the total.',
      });
    seen.set(what, part);
    changes.push(read);
  }
  return problems.length > 0 ? { changes: [], problems } : { changes, problems };
}

/** What of a setting a unit speaks of: a coil's rate and its preload are two things. */
export function aspect(
  unit: ChangeUnit,
): 'clicks' | 'pressure' | 'rate' | 'length' | 'spacers' | 'positions' | 'degrees' {
  switch (unit) {
    case 'clicks':
    case 'spacers':
    case 'positions':
    case 'degrees':
      return unit;
    case 'psi':
    case 'bar':
    case 'kPa':
      return 'pressure';
    case 'N/mm':
    case 'lb/in':
      return 'rate';
    case 'mm':
    case 'in':
    case 'turns':
      return 'length';
  }
}

/**
 * How much a change is in another unit; undefined where the two do not compare.
 * @param perTurn metres of preload that one turn of the collar makes; absent: turns compare with turns alone
 */
export function amountIn(
  { by, unit }: Pick<Change, 'by' | 'unit'>,
  wanted: ChangeUnit,
  perTurn?: number,
): number | undefined {
  if (unit === wanted) return by;
  if (aspect(unit) !== aspect(wanted)) return undefined;
  const [is, to] = [unit, wanted].map((one) => (one === 'turns' ? perTurn : siPer(one as Unit)));
  return is === undefined || to === undefined ? undefined : (by * is) / to;
}

/** One change as it is written, whether there is such a setting or not; undefined where it is not a change. */
export function notationOf(
  part: string,
): { readonly setting: string; readonly by: number; readonly unit: string } | undefined {
  const [, setting, sign, amount, unit] = PART.exec(part) ?? [];
  if (setting === undefined) return undefined;
  const size = Number(amount!.replace(',', '.'));
  return { setting, by: sign === '+' ? size : -size, unit: unit! };
}

function parsePart(
  part: string,
  own: readonly OwnSetting[],
  on: BikeSheet | undefined,
): Change | Omit<ChangeProblem, 'part'> {
  const form = 'Write the setting, + or -, and how much: front.rebound.low+2 or rear.spring-5psi.';
  const found = notationOf(part);
  if (found === undefined)
    return {
      message: part === '' ? 'No change given.' : `${printable(part)} is not a change.`,
      remedy: form,
    };
  const { setting: name, by, unit: written } = found;
  const there = on === undefined ? undefined : knobsOfSide(on, name.toLowerCase());
  if (there?.length === 0)
    return {
      message: `${printable(name)}: the sheet says there is no such knob.`,
      remedy: 'Choose a knob it has, or add this one to the sheet.',
    };
  if (there !== undefined && there.length > 1)
    return {
      message: `${printable(name)}: there are two knobs.`,
      remedy: `Write ${there.map((row) => row.setting).join(' or ')}.`,
    };
  const setting = there?.[0]?.setting ?? name.toLowerCase();
  const settings = changeable(own);
  const units = settings.get(setting);
  if (units === undefined) {
    const near = rowEndingSo(setting, own)?.setting ?? nearest(setting, settings.keys());
    return {
      message: `There is no setting ${printable(name)} to change.`,
      remedy: near === undefined ? `Settings: ${[...settings.keys()].join(', ')}.` : `Did you mean ${near}?`,
    };
  }
  const unit = written === '' ? (units.length === 1 ? units[0]! : undefined) : unitFrom(written, units);
  const size = Math.abs(by);
  const example = `${setting}${by < 0 ? '-' : '+'}${size}`;
  if (unit === undefined) {
    const here = unitsOn(on, setting) ?? units;
    return {
      message:
        written === ''
          ? `${printable(part)} needs a unit.`
          : `${setting} is not changed in ${printable(written)}.`,
      remedy: `Use ${here.join(', ')}: ${example}${here[0]}.`,
    };
  }
  if (size === 0) return { message: `${printable(part)} changes nothing.`, remedy: 'Say how much.' };
  if (isCounted(unit) && !Number.isInteger(size))
    return {
      message: `${printable(part)}: only whole ${unit} can be set.`,
      remedy: `Write ${Math.floor(size)} or ${Math.ceil(size)}.`,
    };
  return { setting, by, unit };
}

/** The units of what this bike has of a setting: a coil is asked for no pressure. */
function unitsOn(on: BikeSheet | undefined, setting: string): readonly ChangeUnit[] | undefined {
  if (on === undefined) return undefined;
  const rows = rowsOf(on.settings).filter((row) => row.setting === setting && row.shown(on) !== undefined);
  return rows.length === 0 ? undefined : rows.flatMap((row) => row.units);
}

/** Whether it goes by whole steps, which are said without their unit. */
export function isCounted(unit: ChangeUnit): boolean {
  return unit === 'clicks' || unit === 'spacers' || unit === 'positions';
}

/** `PSI` → psi, `click` → clicks, `lbs/in` → lb/in. */
export function unitFrom(written: string, units: readonly ChangeUnit[]): ChangeUnit | undefined {
  const lower = written.toLowerCase().replace('lbs', 'lb');
  return units.find((unit) => unit.toLowerCase() === lower || unit.toLowerCase() === `${lower}s`);
}

/** The shortest notation that reads back as the same changes: `front.rebound.low+2,rear.spring-5psi`. */
export function printChange(changes: readonly Change[]): string {
  return changes
    .map(({ setting, by, unit }) => {
      const sign = by < 0 ? '-' : '+';
      return `${setting}${sign}${Math.abs(by)}${isCounted(unit) ? '' : unit}`;
    })
    .join(',');
}

/** The changes that undo these, last one first. */
export function wayBack(changes: readonly Change[]): Change[] {
  return changes.toReversed().map((change) => ({ ...change, by: -change.by }));
}
