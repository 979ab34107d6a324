/** The rows of the settings table that every bike has, end by end, and those of the whole bike. */
import { CIRCUITS, DAMPER } from './circuits.ts';
import { dialWith, type ChangeUnit, type Made } from './dial/dial.ts';
import { knob, stem, tyrePressure } from './dial/dials.ts';
import type { Row, Shown } from './row.ts';
import { isRigid, type BikeSheet, type End, type EndSheet } from './sheet.ts';
import { air, coilRate, preload, spacers } from './dial/spring-dials.ts';
import { inPercent, inUnit, unitsOf, type Unit } from './units.ts';

const PRESSURE: readonly ChangeUnit[] = unitsOf('pressure');
const RATE: readonly ChangeUnit[] = unitsOf('rate');
const LENGTH: readonly ChangeUnit[] = unitsOf('length');

/** A row below an end, before its end is known. */
interface PartRow extends Omit<Row, 'setting' | 'end' | 'stand' | 'file' | 'shown' | 'dial' | 'find'> {
  readonly part: string;
  readonly stand?: string;
  readonly file: string;
  /** of a part that a rigid end lacks */
  readonly onSuspension: boolean;
  readonly read: (part: EndSheet, sheet: BikeSheet) => Shown | undefined;
  readonly dial: (end: End) => Made;
  readonly find: string | Readonly<Record<End, string>>;
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
    find: 'Read it with a shock pump.',
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
    find: 'It is printed on the coil.',
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
    find: 'Measure how far the collar squeezes the coil.',
    dial: preload,
  },
  {
    part: 'ramp-up',
    words: 'volume spacers',
    title: 'Volume spacers',
    units: ['spacers'],
    file: 'spring.spacers',
    onSuspension: true,
    read: ({ spring }) =>
      spring.kind === 'air' ? { unit: 'spacers', now: spring.spacers, of: spring.spacersMax } : undefined,
    find: "Let all the air out first, open it as the manufacturer's manual shows, and count them.",
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
    find: 'Turn it gently clockwise, as you face it, to fully closed. Count the clicks, and turn it back.',
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
    find: {
      front: 'Measure it in riding position, in full kit, as a share of the travel.',
      rear: "Measure it in riding position, in full kit, as a share of the shock's stroke, not of the wheel's travel.",
    },
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
    find: 'Push the O-ring down, ride, measure.',
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
    find: 'Read it with a gauge.',
    dial: tyrePressure,
  },
];

const STEM = 'Measure the spacers under the stem.';

export const WHOLE: readonly Row[] = [
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
    find: STEM,
    dial: (sheet, of) => dialWith(STEM, stem(sheet, of)),
  },
];

export const OF_END: Readonly<Record<End, readonly Row[]>> = {
  front: PARTS.map(at('front')),
  rear: PARTS.map(at('rear')),
};

function at(end: End): (row: PartRow) => Row {
  return ({ part, stand = part, words, file, find: told, onSuspension, read, dial, ...row }) => {
    const turn = dial(end);
    const find = typeof told === 'string' ? told : told[end];
    return {
      ...row,
      setting: `${end}.${part}`,
      end,
      stand: `${end}.${stand}`,
      words: `${end} ${words}`,
      file: `${end}.${file}`,
      find,
      shown: (sheet) => (onSuspension && isRigid(sheet, end) ? undefined : read(sheet.ends[end], sheet)),
      dial: (sheet, of) =>
        onSuspension && isRigid(sheet, end)
          ? {
              message: `A ${sheet.kind} has no ${end} suspension, so there is no ${end} ${words} to set.`,
              remedy: `Choose another setting, or write another kind: of bike on the sheet.`,
              unfit: true,
            }
          : dialWith(find, turn(sheet, of)),
    };
  };
}

function onlyRead(): Made {
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
