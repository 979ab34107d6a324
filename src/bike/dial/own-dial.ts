/** How a setting that a pack brings is turned. */
import type { Reading } from '../circuits.ts';
import { dial, readings, withEnd, type Made } from './dial.ts';
import { positionsOf, type OwnPlace, type OwnSetting, type OwnStand } from '../own-setting.ts';
import type { BikeSheet } from '../sheet.ts';

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
