/** How what is no spring is turned: the knobs of the dampers, the tyres, and the stem. */
import { DAMPER, partnerOf, type Circuit, type Reading } from '../circuits.ts';
import { dial, readings, withEnd, type Made } from './dial.ts';
import { LIMITS } from '../form/limits.ts';
import type { End, BikeSheet } from '../sheet.ts';
import { siPer, type Unit } from '../units.ts';
import { positionsOf, type OwnPlace, type OwnSetting, type OwnStand } from '../own-setting.ts';

/** @param words `front low-speed rebound` */
export function knob(end: End, circuit: Circuit, words: string): Made {
  return (sheet, of) => {
    const { adjusters } = sheet.ends[end];
    const adjuster = adjusters[circuit];
    const partner = partnerOf(circuit);
    const lone = DAMPER[partner].alone ?? DAMPER[circuit].alone;
    if (sheet.ends[end].unsaid === true || sheet.ends[end].unsure?.includes(circuit) === true)
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

export function tyrePressure(end: End): Made {
  return (sheet, of) => {
    const { tyre } = sheet.ends[end];
    return dial(of, siPer(of.unit as Unit), tyre?.now, LIMITS.tyrePressure, {
      minIs: 'what any tyre can be ridden at',
      maxIs: 'what any tyre takes',
      limited: { min: false, max: false },
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
    stale: [],
    put: (spacersUnderStem) => ({ ...sheet, cockpit: { ...sheet.cockpit, spacersUnderStem } }),
  });

/** Clicks from closed, a number in its unit, or one of its positions. */
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
      stale,
      grain: own.grain,
      names,
      put: (now) => withOwn(sheet, own, stale, { ...stand, now }),
    });
  };
}

function limitWords(limit: number | undefined, what: 'min' | 'max'): string {
  return limit === undefined ? 'what any bike has' : `the manufacturer's ${what}`;
}

/** What a sheet says of a pack's setting; undefined when it says nothing. */
export function ownStand(sheet: BikeSheet, own: OwnSetting): OwnStand | undefined {
  return (own.end === undefined ? sheet.own : sheet.ends[own.end].own)?.[own.key];
}

function withOwn(sheet: BikeSheet, own: OwnSetting, stale: readonly Reading[], place: OwnPlace): BikeSheet {
  if (own.end === undefined) return { ...sheet, own: { ...sheet.own, [own.key]: place } };
  return withEnd(sheet, own.end, stale, { own: { ...sheet.ends[own.end].own, [own.key]: place } });
}
