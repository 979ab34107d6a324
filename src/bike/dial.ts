/** One thing that can be turned on a bike: where it stands, how far it goes, and the sheet with it turned. */
import { aspect, CHANGEABLE, type Change, type ChangeUnit } from './change.ts';
import { defined } from './defined.ts';
import { LIMITS, type Range } from './limits.ts';
import type { BikeSheet, Circuit, End, EndSheet } from './sheet.ts';
import { settingWords } from './setting-words.ts';
import { siPer, type Unit } from './units.ts';

export interface Dial {
  readonly setting: string;
  readonly unit: ChangeUnit;
  /** where it stands, in `unit`; absent when nobody wrote it down */
  readonly now?: number;
  /** the stops or the maker's limits, in `unit`; what no bike goes beyond where the sheet says nothing */
  readonly min: number;
  readonly max: number;
  /** what the two ends are, for messages */
  readonly minIs: string;
  readonly maxIs: string;
  /** the smallest step that can be set, in `unit` (judgement: what a gauge or a hand can do) */
  readonly grain: number;
  /** how to find out where it stands */
  readonly toFindOut: string;
  /** the sheet with it set to a value in `unit`; what that makes untrue is taken off */
  readonly turned: (to: number) => BikeSheet;
  /** what of the sheet turning it makes untrue and takes off */
  readonly stale: readonly Reading[];
}

/** What was read off a ring on the shaft, as the file form names it. It belongs to the spring it was read with. */
export type Reading = 'sag.measured' | 'travel-used';

export interface NoDial {
  readonly message: string;
  readonly remedy: string;
}

const GRAIN: Readonly<Record<ChangeUnit, number>> = {
  clicks: 1,
  spacers: 1,
  psi: 0.5,
  bar: 0.05,
  kPa: 5,
  'N/mm': 1,
  'lb/in': 5,
  mm: 0.5,
  in: 0.02,
  turns: 0.25,
};

/** @param of the setting and the unit to speak in, as `parseChange` gives them */
export function dialOf(sheet: BikeSheet, of: Pick<Change, 'setting' | 'unit'>): Dial | NoDial {
  const units = CHANGEABLE.get(of.setting);
  if (units?.includes(of.unit) !== true)
    return {
      message: `${of.setting} is nothing to change${units === undefined ? '' : ` in ${of.unit}`}.`,
      remedy:
        units === undefined ? `Settings: ${[...CHANGEABLE.keys()].join(', ')}.` : `Use ${units.join(', ')}.`,
    };
  if (of.setting === 'bars') return stem(sheet, of);
  const dot = of.setting.indexOf('.');
  const end = of.setting.slice(0, dot) as End;
  const part = of.setting.slice(dot + 1);
  switch (part) {
    case 'spring':
      return aspect(of.unit) === 'pressure' ? air(sheet, end, of) : coil(sheet, end, of);
    case 'ramp-up':
      return spacers(sheet, end, of);
    case 'tyre':
      return tyre(sheet, end, of);
    default:
      return knob(sheet, end, part as Circuit, of);
  }
}

type Of = Pick<Change, 'setting' | 'unit'>;

function knob(sheet: BikeSheet, end: End, circuit: Circuit, of: Of): Dial | NoDial {
  const adjuster = sheet.ends[end].adjusters[circuit];
  if (adjuster === undefined)
    return {
      message: `This bike has no knob for the ${settingWords(of.setting)}.`,
      remedy: 'Choose a knob it has, or write this one on the sheet.',
    };
  const stale = circuit.startsWith('compression') ? readings(sheet, end, 'travel-used') : [];
  return dial(of, 1, adjuster.now, [0, adjuster.range], {
    minIs: 'its stop (fully closed)',
    maxIs: 'its stop (fully open)',
    toFindOut: 'Turn it gently to fully closed, count the clicks, turn it back, and write now: on the sheet.',
    stale,
    put: (now) => {
      const { adjusters } = sheet.ends[end];
      return withEnd(sheet, end, stale, { adjusters: { ...adjusters, [circuit]: { ...adjuster, now } } });
    },
  });
}

function air(sheet: BikeSheet, end: End, of: Of): Dial | NoDial {
  const { spring } = sheet.ends[end];
  if (spring.kind !== 'air')
    return {
      message: `The ${end} has a coil spring; it has no pressure.`,
      remedy: `Change its preload (${of.setting}+1mm) or fit another coil (${of.setting}+5N/mm).`,
    };
  const [least, most] = LIMITS.springPressure;
  const stale = readings(sheet, end, 'sag.measured', 'travel-used');
  return dial(
    of,
    siPer(of.unit as Unit),
    spring.pressure,
    [spring.pressureMin ?? least, spring.pressureMax ?? most],
    {
      minIs: spring.pressureMin === undefined ? 'what any spring takes' : "the maker's min",
      maxIs: spring.pressureMax === undefined ? 'what any spring takes' : "the maker's max",
      toFindOut: 'Read it with a shock pump and write pressure: on the sheet.',
      stale,
      put: (pressure) => withEnd(sheet, end, stale, { spring: { ...spring, pressure } }),
    },
  );
}

function coil(sheet: BikeSheet, end: End, of: Of): Dial | NoDial {
  const { spring } = sheet.ends[end];
  if (spring.kind !== 'coil')
    return {
      message: `The ${end} has an air spring; it has no ${aspect(of.unit) === 'rate' ? 'rate' : 'preload'} to set.`,
      remedy: `Change its pressure: ${of.setting}+5psi.`,
    };
  const stale = readings(sheet, end, 'sag.measured', 'travel-used');
  if (aspect(of.unit) === 'rate')
    return dial(of, siPer(of.unit as Unit), spring.rate, LIMITS.rate, {
      minIs: 'the softest coil there is',
      maxIs: 'the stiffest coil there is',
      toFindOut: 'It is printed on the coil: write rate: on the sheet.',
      stale,
      put: (rate) => withEnd(sheet, end, stale, { spring: { ...spring, rate } }),
    });
  const si = of.unit === 'turns' ? spring.preloadPerTurn : siPer(of.unit as Unit);
  if (si === undefined)
    return {
      message: `The sheet does not say how far one turn moves the ${end} collar.`,
      remedy: `Measure it and write preload-per-turn: on the sheet, or say it in mm: ${of.setting}+1mm.`,
    };
  return dial(of, si, spring.preload, [LIMITS.preload[0], spring.preloadMax ?? LIMITS.preload[1]], {
    minIs: 'no preload at all, where the coil rattles',
    maxIs: spring.preloadMax === undefined ? 'what any coil takes' : "the maker's preload-max",
    toFindOut: 'Measure how far the collar squeezes the coil and write preload: on the sheet.',
    stale,
    put: (preload) => withEnd(sheet, end, stale, { spring: { ...spring, preload } }),
  });
}

function spacers(sheet: BikeSheet, end: End, of: Of): Dial | NoDial {
  const { spring } = sheet.ends[end];
  if (spring.kind !== 'air')
    return {
      message: `The ${end} has a coil spring; there are no volume spacers in it.`,
      remedy: 'Choose another adjustment.',
    };
  const stale = readings(sheet, end, 'travel-used');
  return dial(of, 1, spring.spacers, [0, spring.spacersMax ?? LIMITS.volumeSpacers[1]], {
    minIs: 'none at all',
    maxIs: 'as many as fit',
    toFindOut: "Look inside as the maker's manual shows, all air out first, and write spacers: on the sheet.",
    stale,
    put: (count) => withEnd(sheet, end, stale, { spring: { ...spring, spacers: count } }),
  });
}

function tyre(sheet: BikeSheet, end: End, of: Of): Dial {
  const { tyre } = sheet.ends[end];
  return dial(of, siPer(of.unit as Unit), tyre?.now, LIMITS.tyrePressure, {
    minIs: 'what any tyre can be ridden at',
    maxIs: 'what any tyre takes',
    toFindOut: 'Read it with a gauge and write tyre: { now: } on the sheet.',
    stale: [],
    put: (now) => withEnd(sheet, end, [], { tyre: { ...tyre, now } }),
  });
}

function stem(sheet: BikeSheet, of: Of): Dial {
  return dial(of, siPer(of.unit as Unit), sheet.cockpit?.spacersUnderStem, LIMITS.stemSpacers, {
    minIs: 'no spacer left under the stem',
    maxIs: 'what any steerer has room for',
    toFindOut: 'Measure the spacers under the stem and write spacers-under-stem: on the sheet.',
    stale: [],
    put: (spacersUnderStem) => ({ ...sheet, cockpit: { ...sheet.cockpit, spacersUnderStem } }),
  });
}

function dial(
  { setting, unit }: Of,
  si: number,
  now: number | undefined,
  [min, max]: Range,
  rest: Pick<Dial, 'minIs' | 'maxIs' | 'toFindOut' | 'stale'> & { readonly put: (si: number) => BikeSheet },
): Dial {
  const { put, ...words } = rest;
  return {
    setting,
    unit,
    ...(now === undefined ? {} : { now: tidy(now / si) }),
    min: tidy(min / si),
    max: tidy(max / si),
    grain: GRAIN[unit],
    ...words,
    turned: (to) => put(to * si),
  };
}

/** Nine digits: enough for any gauge, without the dust that changing units leaves. */
function tidy(value: number): number {
  return Number(value.toPrecision(9));
}

/** Those of the readings that the sheet has. */
function readings(sheet: BikeSheet, end: End, ...names: Reading[]): Reading[] {
  const { sagMeasured, travelUsed } = sheet.ends[end];
  return names.filter((name) => (name === 'travel-used' ? travelUsed : sagMeasured) !== undefined);
}

function withEnd(
  sheet: BikeSheet,
  end: End,
  stale: readonly Reading[],
  change: Partial<EndSheet>,
): BikeSheet {
  const { sagMeasured, travelUsed, ...kept } = sheet.ends[end];
  const next = defined<EndSheet>({
    ...kept,
    sagMeasured: stale.includes('sag.measured') ? undefined : sagMeasured,
    travelUsed: stale.includes('travel-used') ? undefined : travelUsed,
    ...change,
  });
  return { ...sheet, ends: { ...sheet.ends, [end]: next } };
}
