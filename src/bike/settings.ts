/**
 * The settings table: everything that stands somewhere on a bike, a row each. Whatever reads, writes, asks, changes, logs
 * or prints a setting goes through these rows; a rule pack adds rows of its own (`OwnSetting`). A bike without a rear
 * suspension has the same rows: its dials say why they cannot be turned.
 */
import { capital } from '../form/capital.ts';
import { CIRCUITS, DAMPER, partnerOf, type Circuit, type Reading } from './circuits.ts';
import {
  air,
  coilRate,
  knob,
  ownDial,
  ownStand,
  preload,
  spacers,
  stem,
  tyrePressure,
  type ChangeUnit,
  type Dial,
  type NoDial,
  type Of,
} from './dials.ts';
import { positionsOf, type OwnSetting } from './own-setting.ts';
import { ENDS, type BikeSheet, type End, type EndSheet } from './sheet.ts';
import { inPercent, inUnit, unitsOf, type Unit } from './units.ts';

/** What a sheet says of one row, in `unit`; a reading in percent, a named position by its number. */
export interface Shown {
  readonly unit: string;
  readonly now?: number | undefined;
  /** how far it goes at all, for what is counted */
  readonly of?: number | undefined;
  readonly maker?: number | undefined;
  readonly wanted?: number | undefined;
  readonly names?: readonly string[] | undefined;
}

export interface Row {
  /** as the change notation names it; a coil's rate and its preload share `front.spring` */
  readonly setting: string;
  readonly end?: End;
  /** as a log and `bike set` name it: front.spring.rate */
  readonly stand: string;
  /** `front low-speed rebound` */
  readonly words: string;
  /** in a table, below the heading of its end: `Rebound, low speed` */
  readonly title: string;
  /** units it can be changed in; none for what is only read */
  readonly units: readonly ChangeUnit[];
  /** where its number stands in the file form: front.rebound.low.now */
  readonly file: string;
  readonly circuit?: Circuit;
  readonly own?: OwnSetting;
  readonly reading?: Reading;
  /** undefined when this bike has no such thing, such as the pressure of a coil */
  readonly shown: (sheet: BikeSheet) => Shown | undefined;
  readonly dial: (sheet: BikeSheet, of: Of) => Dial | NoDial;
}

const PRESSURE: readonly ChangeUnit[] = unitsOf('pressure');
const RATE: readonly ChangeUnit[] = unitsOf('rate');
const LENGTH: readonly ChangeUnit[] = unitsOf('length');

/** A row below an end, before its end is known. */
interface PartRow extends Omit<Row, 'setting' | 'end' | 'stand' | 'file' | 'shown' | 'dial'> {
  readonly part: string;
  readonly stand?: string;
  readonly file: string;
  /** of a part that a rigid end lacks */
  readonly onSuspension: boolean;
  readonly read: (part: EndSheet, sheet: BikeSheet) => Shown | undefined;
  readonly dial: (end: End) => Row['dial'];
}

const PARTS: readonly PartRow[] = [
  {
    part: 'spring',
    words: 'spring',
    title: 'Air spring',
    units: PRESSURE,
    file: 'spring.pressure',
    onSuspension: true,
    read: ({ spring }, { units: { pressure } }) =>
      spring.kind === 'air'
        ? {
            unit: pressure,
            now: shown(spring.pressure, pressure),
            maker: shown(spring.pressureMaker, pressure),
          }
        : undefined,
    dial: air,
  },
  {
    part: 'spring',
    stand: 'spring.rate',
    words: 'coil',
    title: 'Coil spring',
    units: RATE,
    file: 'spring.rate',
    onSuspension: true,
    read: ({ spring }, { units: { rate } }) =>
      spring.kind === 'coil' ? { unit: rate, now: shown(spring.rate, rate) } : undefined,
    dial: coilRate,
  },
  {
    part: 'spring',
    stand: 'spring.preload',
    words: 'preload',
    title: 'Preload',
    units: [...LENGTH, 'turns'],
    file: 'spring.preload',
    onSuspension: true,
    read: ({ spring }, { units: { length } }) =>
      spring.kind === 'coil'
        ? { unit: length, now: shown(spring.preload, length), of: shown(spring.preloadMax, length) }
        : undefined,
    dial: preload,
  },
  {
    part: 'ramp-up',
    words: 'ramp-up',
    title: 'Volume spacers',
    units: ['spacers'],
    file: 'spring.spacers',
    onSuspension: true,
    read: ({ spring }) =>
      spring.kind === 'air' ? { unit: 'spacers', now: spring.spacers, of: spring.spacersMax } : undefined,
    dial: spacers,
  },
  ...CIRCUITS.map((circuit): PartRow => ({
    part: circuit,
    words: DAMPER[circuit].words,
    title: DAMPER[circuit].title,
    units: ['clicks'],
    file: `${circuit}.now`,
    onSuspension: true,
    circuit,
    read: ({ adjusters }) => {
      const adjuster = adjusters[circuit];
      return adjuster && { unit: 'clicks', now: adjuster.now, of: adjuster.range, maker: adjuster.maker };
    },
    dial: (end) => knob(end, circuit, `${end} ${DAMPER[circuit].words}`),
  })),
  {
    part: 'sag',
    stand: 'sag.measured',
    words: 'sag',
    title: 'Sag',
    units: [],
    file: 'sag.measured',
    onSuspension: true,
    reading: 'sag.measured',
    read: ({ sagMeasured, sagWanted }) => ({
      unit: '%',
      now: percent(sagMeasured),
      wanted: percent(sagWanted),
    }),
    dial: onlyRead,
  },
  {
    part: 'travel-used',
    words: 'travel used',
    title: 'Travel used',
    units: [],
    file: 'travel-used',
    onSuspension: true,
    reading: 'travel-used',
    read: ({ travelUsed }) => ({ unit: '%', now: percent(travelUsed) }),
    dial: onlyRead,
  },
  {
    part: 'tyre',
    words: 'tyre',
    title: 'Tyre',
    units: PRESSURE,
    file: 'tyre.now',
    onSuspension: false,
    read: ({ tyre }, { units: { pressure } }) => ({
      unit: pressure,
      now: shown(tyre?.now, pressure),
      wanted: shown(tyre?.wanted, pressure),
    }),
    dial: tyrePressure,
  },
];

const WHOLE: readonly Row[] = [
  {
    setting: 'bars',
    stand: 'bars',
    words: 'spacers under the stem',
    title: 'Spacers under the stem',
    units: LENGTH,
    file: 'cockpit.spacers-under-stem',
    shown: ({ cockpit, units: { length } }) => ({
      unit: length,
      now: shown(cockpit?.spacersUnderStem, length),
    }),
    dial: stem,
  },
];

const OF_END: Readonly<Record<End, readonly Row[]>> = {
  front: PARTS.map(at('front')),
  rear: PARTS.map(at('rear')),
};
const BUILT_IN: readonly Row[] = [...ENDS.flatMap((end) => OF_END[end]), ...WHOLE];

function at(end: End): (row: PartRow) => Row {
  return ({ part, stand = part, words, file, onSuspension, read, dial, ...row }) => {
    const turn = dial(end);
    return {
      ...row,
      setting: `${end}.${part}`,
      end,
      stand: `${end}.${stand}`,
      words: `${end} ${words}`,
      file: `${end}.${file}`,
      shown: (sheet) => (onSuspension && isRigid(sheet, end) ? undefined : read(sheet.ends[end], sheet)),
      dial: (sheet, of) =>
        onSuspension && isRigid(sheet, end)
          ? {
              message: `A ${sheet.kind} has no ${end} suspension, so there is no ${end} ${words} to set.`,
              remedy: `Choose another setting, or write another kind: of bike on the sheet.`,
              unfit: true,
            }
          : turn(sheet, of),
    };
  };
}

/** Whether this end has no suspension at all. */
export function isRigid(sheet: BikeSheet, end: End): boolean {
  return sheet.ends[end].rigid === true;
}

function ownRow(own: OwnSetting): Row {
  const { end, key } = own;
  const words = own.words;
  return {
    setting: own.id,
    ...(end === undefined ? {} : { end }),
    stand: own.id,
    words,
    title: capital(end === undefined ? words : words.replace(new RegExp(`^${end} `), '')),
    units: [own.unit],
    file: `${end === undefined ? '' : `${end}.`}${key}.now`,
    own,
    shown: (sheet) => {
      const stand = ownStand(sheet, own);
      if (stand === undefined || stand === 'none') return undefined;
      const names = positionsOf(own, stand);
      return { unit: own.unit, now: stand.now, of: stand.range ?? stand.max, maker: stand.maker, names };
    },
    dial: ownDial(own),
  };
}

/** The whole table: the built-in rows, and those of the packs in use, end by end. */
export function rowsOf(own: readonly OwnSetting[] = []): readonly Row[] {
  if (own.length === 0) return BUILT_IN;
  const of = (end: End | undefined): Row[] => own.filter((one) => one.end === end).map(ownRow);
  return [...ENDS.flatMap((end) => [...OF_END[end], ...of(end)]), ...WHOLE, ...of(undefined)];
}

/** setting → the units it can be changed in; a lone one need not be written */
export function changeable(own: readonly OwnSetting[] = []): ReadonlyMap<string, readonly ChangeUnit[]> {
  if (own.length === 0) return BUILT_IN_UNITS;
  return unitsBySetting(rowsOf(own));
}

const BUILT_IN_UNITS = unitsBySetting(BUILT_IN);

function unitsBySetting(rows: readonly Row[]): ReadonlyMap<string, readonly ChangeUnit[]> {
  const units = new Map<string, readonly ChangeUnit[]>();
  for (const row of rows)
    if (row.units.length > 0) units.set(row.setting, [...(units.get(row.setting) ?? []), ...row.units]);
  return units;
}

/** The row of a setting that is spoken of in a unit. */
export function rowFor({ setting, unit }: Of, own: readonly OwnSetting[] = []): Row | undefined {
  return rowsOf(own).find((row) => row.setting === setting && row.units.includes(unit));
}

/** Whether this is the only knob of a pair that acts on both circuits: one rebound knob is the rebound knob. */
export function isAlone(sheet: BikeSheet, end: End, circuit: Circuit): boolean {
  const { adjusters } = sheet.ends[end];
  return (
    DAMPER[circuit].alone !== undefined &&
    adjusters[circuit] !== undefined &&
    adjusters[partnerOf(circuit)] === undefined
  );
}

function onlyRead(): Row['dial'] {
  return (_, { setting }) => ({
    message: `${setting} is read off the bike, not turned.`,
    remedy: 'Measure it again, and write down what you read.',
  });
}

function shown(si: number | undefined, unit: Unit): number | undefined {
  return si === undefined ? undefined : inUnit(si, unit);
}

function percent(share: number | undefined): number | undefined {
  return share === undefined ? undefined : inPercent(share);
}
