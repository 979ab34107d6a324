/**
 * Everything that stands somewhere on a bike, by name, in the units of its sheet: what a log keeps of it. The names are
 * those of the change notation, but for what shares one there: a coil's rate and preload are two things, and so is what
 * was read off the ring.
 */
import { aspect, CHANGEABLE, type ChangeUnit } from './change.ts';
import { defined } from './defined.ts';
import { dialOf, type NoDial } from './dial.ts';
import { CIRCUITS, ENDS, type BikeSheet, type End, type EndSheet } from './sheet.ts';
import { inUnit, readShare, writeShare } from './units.ts';

/** A number in a unit; or a share, written as a text such as `28%`, or `not read`. */
export interface Stand {
  readonly setting: string;
  readonly value: number | string;
  readonly unit?: string;
}

export interface Moved {
  readonly setting: string;
  /** absent when the sheet did not say */
  readonly from?: number | string;
  readonly to: number | string;
  readonly unit?: string;
}

/** What a reading is called after a change made it untrue. */
export const NOT_READ = 'not read';
const READINGS = { 'sag.measured': 'sagMeasured', 'travel-used': 'travelUsed' } as const;

/** Where everything on the sheet stands; what nobody wrote down is left out. */
export function standsOf(sheet: BikeSheet): Stand[] {
  const { units, cockpit } = sheet;
  const stands: { setting: string; value: number | string | undefined; unit?: string }[] = [];
  for (const end of ENDS) {
    const { spring, adjusters, tyre, ...part } = sheet.ends[end];
    const pressure = (si: number | undefined) => (si === undefined ? undefined : inUnit(si, units.pressure));
    for (const circuit of CIRCUITS)
      stands.push({ setting: `${end}.${circuit}`, value: adjusters[circuit]?.now, unit: 'clicks' });
    if (spring.kind === 'air')
      stands.push(
        { setting: `${end}.spring`, value: pressure(spring.pressure), unit: units.pressure },
        { setting: `${end}.ramp-up`, value: spring.spacers, unit: 'spacers' },
      );
    else
      stands.push(
        {
          setting: `${end}.spring.rate`,
          value: spring.rate && inUnit(spring.rate, units.rate),
          unit: units.rate,
        },
        {
          setting: `${end}.spring.preload`,
          value: spring.preload === undefined ? undefined : inUnit(spring.preload, units.length),
          unit: units.length,
        },
      );
    stands.push({ setting: `${end}.tyre`, value: pressure(tyre?.now), unit: units.pressure });
    for (const [name, key] of Object.entries(READINGS)) {
      const share = part[key];
      stands.push({ setting: `${end}.${name}`, value: share === undefined ? undefined : writeShare(share) });
    }
  }
  const stem = cockpit?.spacersUnderStem;
  stands.push({
    setting: 'bars',
    value: stem === undefined ? undefined : inUnit(stem, units.length),
    unit: units.length,
  });
  return stands.filter((stand): stand is Stand => stand.value !== undefined);
}

/** What stands elsewhere on the second sheet; a reading that is no longer there counts as not read. */
export function movedBetween(before: BikeSheet, after: BikeSheet): Moved[] {
  const was = new Map(standsOf(before).map((stand) => [stand.setting, stand]));
  const is = standsOf(after);
  const gone = [...was.values()].filter(
    ({ setting }) => readingOf(setting) !== undefined && !is.some((stand) => stand.setting === setting),
  );
  return [...is, ...gone.map(({ setting }) => ({ setting, value: NOT_READ }) as Stand)].flatMap(
    ({ setting, value, unit }) => {
      const from = was.get(setting)?.value;
      return from === value ? [] : [defined<Moved>({ setting, from, to: value, unit })];
    },
  );
}

export interface Stood {
  readonly sheet: BikeSheet;
  /** what is no setting of this bike, or cannot stand there */
  readonly refused: readonly ({ readonly setting: string } & NoDial)[];
}

/** The sheet with settings put where a log says they stood; readings last, since setting anything takes them off. */
export function withStands(sheet: BikeSheet, stands: readonly Stand[]): Stood {
  const readings = stands.filter(({ setting }) => readingOf(setting) !== undefined);
  const rest = stands.filter(({ setting }) => readingOf(setting) === undefined);
  const refused: ({ readonly setting: string } & NoDial)[] = [];
  let now = sheet;
  for (const stand of [...rest, ...readings]) {
    const put = putStand(now, stand);
    if ('message' in put) refused.push({ setting: stand.setting, ...put });
    else now = put;
  }
  return { sheet: now, refused };
}

function putStand(sheet: BikeSheet, { setting, value, unit }: Stand): BikeSheet | NoDial {
  const reading = readingOf(setting);
  if (reading !== undefined) return putReading(sheet, reading.end, reading.key, value);
  const name = setting.replace(/\.(?:rate|preload)$/, '');
  if (typeof value !== 'number' || unit === undefined || !CHANGEABLE.has(name))
    return { message: `${setting} is not on a bike sheet.`, remedy: 'Set it on the bike itself.' };
  const dial = dialOf(sheet, { setting: name, unit: unit as ChangeUnit });
  if ('message' in dial) return dial;
  const outside = value < dial.min || value > dial.max;
  if (outside && aspect(dial.unit) === 'clicks')
    return { message: `${setting} has no click ${value}.`, remedy: `It goes from 0 to ${dial.max}.` };
  return dial.turned(value);
}

function putReading(
  sheet: BikeSheet,
  end: End,
  key: 'sagMeasured' | 'travelUsed',
  value: number | string,
): BikeSheet {
  const share = readShare(value);
  const part = { ...sheet.ends[end], [key]: share.ok ? share.value : undefined };
  return {
    ...sheet,
    ends: { ...sheet.ends, [end]: defined<EndSheet>(part as { [K in keyof EndSheet]: EndSheet[K] }) },
  };
}

function readingOf(setting: string): { end: End; key: 'sagMeasured' | 'travelUsed' } | undefined {
  const dot = setting.indexOf('.');
  const end = setting.slice(0, dot) as End;
  const name = setting.slice(dot + 1);
  return ENDS.includes(end) && Object.hasOwn(READINGS, name)
    ? { end, key: READINGS[name as keyof typeof READINGS] }
    : undefined;
}
