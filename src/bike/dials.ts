/** How each kind of setting is turned on a sheet: where it stands, how far it goes, and the sheet with it turned. */
import { capital } from '../form/capital.ts';
import { withStop } from '../form/full-stop.ts';
import { DAMPER, partnerOf, type Circuit, type Reading } from './circuits.ts';
import { defined } from './defined.ts';
import { LIMITS, type Range } from './form/limits.ts';
import { positionsOf, type OwnPlace, type OwnSetting, type OwnStand, type OwnUnit } from './own-setting.ts';
import type { BikeSheet, End, EndSheet } from './sheet.ts';
import { siPer, type Unit } from './units.ts';

export type ChangeUnit = OwnUnit;

export interface Dial {
  readonly setting: string;
  readonly unit: ChangeUnit;
  /** where it stands, in `unit`; absent when nobody wrote it down */
  readonly now?: number;
  /** the stop it stands at, where that is known though nobody counted */
  readonly at?: 'min' | 'max';
  /** the stops or the maker's limits, in `unit`; what no bike goes beyond where the sheet says nothing */
  readonly min: number;
  readonly max: number;
  /** what the two ends are, for messages */
  readonly minIs: string;
  readonly maxIs: string;
  /** whether the bike or its maker sets that end; otherwise it is only what no bike goes beyond */
  readonly limited: { readonly min: boolean; readonly max: boolean };
  /** the smallest step that can be set, in `unit` (judgement: what a gauge or a hand can do) */
  readonly grain: number;
  /** how to find out where it stands */
  readonly toFindOut: string;
  /** the names of what it can be set to, by number; absent for what is counted */
  readonly names?: readonly string[];
  /** the sheet with it set to a value in `unit`; what that makes untrue is taken off */
  readonly turned: (to: number) => BikeSheet;
  /** what of the sheet turning it makes untrue and takes off */
  readonly stale: readonly Reading[];
}

export interface NoDial {
  readonly message: string;
  readonly remedy: string;
  /** true when the sheet does not say whether the bike has it: it may have */
  readonly unsaid?: true;
  /** true when the bike cannot have it at all, such as a rear spring on a hardtail */
  readonly unfit?: true;
}

/** A setting in the unit to speak in. */
export interface Of {
  readonly setting: string;
  readonly unit: ChangeUnit;
}

const GRAIN: Readonly<Record<ChangeUnit, number>> = {
  clicks: 1,
  spacers: 1,
  positions: 1,
  psi: 0.5,
  bar: 0.05,
  kPa: 5,
  'N/mm': 1,
  'lb/in': 5,
  mm: 0.5,
  in: 0.02,
  turns: 0.25,
  degrees: 0.5,
};

export function grainOf(unit: ChangeUnit): number {
  return GRAIN[unit];
}

type Made = (sheet: BikeSheet, of: Of) => Dial | NoDial;

/** @param words `front low-speed rebound` */
export function knob(end: End, circuit: Circuit, words: string): Made {
  return (sheet, of) => {
    const { adjusters } = sheet.ends[end];
    const adjuster = adjusters[circuit];
    const partner = partnerOf(circuit);
    const lone = DAMPER[partner].alone ?? DAMPER[circuit].alone;
    if (sheet.ends[end].unsaid === true)
      return {
        message: `Check first that the ${words} has a knob.`,
        remedy:
          lone === undefined ? 'Many have none.' : `If there is only one ${lone.words} knob, turn that one.`,
        unsaid: true,
      };
    if (adjuster === undefined && DAMPER[partner].alone !== undefined && adjusters[partner] !== undefined)
      return {
        message: `The ${end} has one ${DAMPER[partner].alone.words} knob, which acts on slow and on fast movements.`,
        remedy: `Turn that one: ${end}.${partner}.`,
        unfit: true,
      };
    if (adjuster === undefined)
      return {
        message: `This bike has no knob for the ${words}.`,
        remedy: 'Choose a knob it has, or add this one to the sheet.',
      };
    const stale = readings(sheet, end, DAMPER[circuit].stale);
    const { range, now, near } = adjuster;
    return dial(of, 1, now, [0, range ?? LIMITS.clicks[1]], {
      minIs: 'its stop (fully closed)',
      maxIs: range === undefined ? 'what any knob has' : 'its stop (fully open)',
      limited: { min: true, max: range !== undefined },
      at: near === 'closed' ? 'min' : near === 'open' ? 'max' : undefined,
      toFindOut: 'Turn it gently to fully closed, count the clicks, and turn it back.',
      stale,
      put: (to) => {
        const { near: _, ...counted } = adjuster;
        return withEnd(sheet, end, stale, {
          adjusters: { ...adjusters, [circuit]: { ...counted, now: to } },
        });
      },
    });
  };
}

export function air(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'air')
      return {
        message: `The ${end} has a coil spring; it has no pressure.`,
        remedy: `Change its preload (${of.setting}+1mm) or fit another coil (${of.setting}+5N/mm).`,
      };
    const [least, most] = LIMITS.springPressure;
    const stale = readings(sheet, end, ['sag.measured', 'travel-used']);
    return dial(
      of,
      siPer(of.unit as Unit),
      spring.pressure,
      [spring.pressureMin ?? least, spring.pressureMax ?? most],
      {
        minIs: spring.pressureMin === undefined ? 'what any spring takes' : "the manufacturer's minimum",
        maxIs: spring.pressureMax === undefined ? 'what any spring takes' : "the manufacturer's maximum",
        limited: { min: spring.pressureMin !== undefined, max: spring.pressureMax !== undefined },
        toFindOut: 'Read it with a shock pump.',
        stale,
        put: (pressure) => withEnd(sheet, end, stale, { spring: { ...spring, pressure } }),
      },
    );
  };
}

export function coilRate(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'coil') return noCoil(end, of, 'rate');
    const stale = readings(sheet, end, ['sag.measured', 'travel-used']);
    return dial(of, siPer(of.unit as Unit), spring.rate, LIMITS.rate, {
      minIs: 'the softest coil there is',
      maxIs: 'the stiffest coil there is',
      limited: { min: false, max: false },
      toFindOut: 'It is printed on the coil.',
      stale,
      put: (rate) => withEnd(sheet, end, stale, { spring: { ...spring, rate } }),
    });
  };
}

export function preload(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'coil') return noCoil(end, of, 'preload');
    const si = of.unit === 'turns' ? spring.preloadPerTurn : siPer(of.unit as Unit);
    if (si === undefined)
      return {
        message: `The sheet does not say how far one turn moves the ${end} collar.`,
        remedy: `Measure it and write preload-per-turn: on the sheet, or say it in mm: ${of.setting}+1mm.`,
      };
    const stale = readings(sheet, end, ['sag.measured', 'travel-used']);
    return dial(of, si, spring.preload, [LIMITS.preload[0], spring.preloadMax ?? LIMITS.preload[1]], {
      minIs: 'no preload at all, and the coil rattles',
      maxIs: spring.preloadMax === undefined ? 'what any coil takes' : "the manufacturer's maximum preload",
      limited: { min: true, max: spring.preloadMax !== undefined },
      toFindOut: 'Measure how far the collar squeezes the coil.',
      stale,
      put: (to) => withEnd(sheet, end, stale, { spring: { ...spring, preload: to } }),
    });
  };
}

function noCoil(end: End, { setting }: Of, what: 'rate' | 'preload'): NoDial {
  return {
    message: `The ${end} has an air spring; it has no ${what} to set.`,
    remedy: `Change its pressure: ${setting}+5psi.`,
  };
}

export function spacers(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'air')
      return {
        message: `The ${end} has a coil spring; there are no volume spacers in it.`,
        remedy: 'Choose another adjustment.',
      };
    const stale = readings(sheet, end, ['travel-used']);
    return dial(of, 1, spring.spacers, [0, spring.spacersMax ?? LIMITS.volumeSpacers[1]], {
      minIs: 'none at all',
      maxIs: 'as many as fit',
      limited: { min: true, max: true },
      toFindOut: "Let all the air out first, open it as the manufacturer's manual shows, and count them.",
      stale,
      put: (count) => withEnd(sheet, end, stale, { spring: { ...spring, spacers: count } }),
    });
  };
}

export function tyrePressure(end: End): Made {
  return (sheet, of) => {
    const { tyre } = sheet.ends[end];
    return dial(of, siPer(of.unit as Unit), tyre?.now, LIMITS.tyrePressure, {
      minIs: 'what any tyre can be ridden at',
      maxIs: 'what any tyre takes',
      limited: { min: false, max: false },
      toFindOut: 'Read it with a gauge.',
      stale: [],
      put: (now) => withEnd(sheet, end, [], { tyre: { ...tyre, now } }),
    });
  };
}

export const stem: Made = (sheet, of) =>
  dial(of, siPer(of.unit as Unit), sheet.cockpit?.spacersUnderStem, LIMITS.stemSpacers, {
    minIs: 'no spacer left under the stem',
    maxIs: 'what any steerer has room for',
    limited: { min: true, max: false },
    toFindOut: 'Measure the spacers under the stem.',
    stale: [],
    put: (spacersUnderStem) => ({ ...sheet, cockpit: { ...sheet.cockpit, spacersUnderStem } }),
  });

/** What a pack brings: clicks from closed, a number in its unit, or one of its positions. */
export function ownDial(own: OwnSetting): Made {
  return (sheet, of) => {
    const stand = ownStand(sheet, own);
    if (stand === 'none')
      return {
        message: `This bike has no ${own.words}.`,
        remedy: 'Choose something it has, or write this one on the sheet.',
      };
    if (stand === undefined)
      return {
        message: `Check first that there is a ${own.words}.`,
        remedy: 'Not every bike has one.',
        unsaid: true,
      };
    const names = positionsOf(own, stand);
    const stale = own.end === undefined ? [] : readings(sheet, own.end, own.stale);
    const [least, most] = names === undefined ? own.range : [0, names.length - 1];
    const clicks = own.unit === 'clicks';
    const max = stand.max ?? stand.range ?? most;
    const counted = clicks ? stand.range !== undefined : names !== undefined || stand.max !== undefined;
    const { near } = stand;
    return dial(of, 1, stand.now, [clicks ? 0 : (stand.min ?? least), max], {
      minIs: clicks ? 'its stop (fully closed)' : (names?.[0] ?? limitWords(stand.min, 'min')),
      maxIs: counted && clicks ? 'its stop (fully open)' : (names?.at(-1) ?? limitWords(stand.max, 'max')),
      limited: { min: clicks || names !== undefined || stand.min !== undefined, max: counted },
      at: near === 'closed' ? 'min' : near === 'open' ? 'max' : undefined,
      toFindOut: withStop(capital(own.find)),
      stale,
      grain: own.grain,
      names,
      put: (now) => withOwn(sheet, own, stale, { ...stand, now }),
    });
  };
}

function limitWords(limit: number | undefined, what: 'min' | 'max'): string {
  return limit === undefined ? 'what any bike has' : `the maker's ${what}`;
}

/** What a sheet says of a pack's setting; undefined when it says nothing. */
export function ownStand(sheet: BikeSheet, own: OwnSetting): OwnStand | undefined {
  return (own.end === undefined ? sheet.own : sheet.ends[own.end].own)?.[own.key];
}

function withOwn(sheet: BikeSheet, own: OwnSetting, stale: readonly Reading[], place: OwnPlace): BikeSheet {
  if (own.end === undefined) return { ...sheet, own: { ...sheet.own, [own.key]: place } };
  return withEnd(sheet, own.end, stale, { own: { ...sheet.ends[own.end].own, [own.key]: place } });
}

interface Rest {
  readonly minIs: string;
  readonly maxIs: string;
  readonly limited: Dial['limited'];
  readonly at?: Dial['at'] | undefined;
  readonly toFindOut: string;
  readonly stale: readonly Reading[];
  readonly grain?: number;
  readonly names?: readonly string[] | undefined;
  readonly put: (si: number) => BikeSheet;
}

function dial(
  { setting, unit }: Of,
  si: number,
  now: number | undefined,
  [min, max]: Range,
  { put, at, grain, names, ...rest }: Rest,
): Dial {
  return {
    setting,
    unit,
    ...(now === undefined ? {} : { now: tidy(now / si) }),
    ...(at === undefined || now !== undefined ? {} : { at }),
    min: tidy(min / si),
    max: tidy(max / si),
    grain: grain ?? GRAIN[unit],
    ...(names === undefined ? {} : { names }),
    ...rest,
    turned: (to) => put(to * si),
  };
}

/** Nine digits: enough for any gauge, without the dust that changing units leaves. */
function tidy(value: number): number {
  return Number(value.toPrecision(9));
}

/** Those of the readings that the sheet has. */
function readings(sheet: BikeSheet, end: End, names: readonly Reading[]): Reading[] {
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
