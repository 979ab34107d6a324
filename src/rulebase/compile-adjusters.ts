/** The `adjuster:` of a setting → which row of the settings table it is: one that is there, or a new one. */
import { CIRCUITS } from '../bike/circuits.ts';
import { grainOf } from '../bike/dial/dial.ts';
import { LIMITS } from '../bike/form/limits.ts';
import type { OwnSetting } from '../bike/own-setting.ts';
import { RESERVED } from '../bike/form/schema.ts';
import type { Entry } from './entries.ts';
import type { SettingSource } from './schema/setting.ts';
import { didYouMean } from '../form/suggest.ts';

const KEY = /^[a-z][a-z0-9]*(?:-[a-z][a-z0-9]*)*$/;

export interface Adjusted {
  /** the path of its row below the end */
  readonly adjuster?: string;
  /** the row, where it is a new one */
  readonly own?: OwnSetting;
}

/** @param words the name of the setting, as it is called where no pack is at hand */
export function adjusterOf(e: Entry<SettingSource>, words: string): Adjusted {
  const { adjuster } = e.data;
  if (adjuster === undefined) return {};
  if (typeof adjuster === 'string') {
    if (!(CIRCUITS as readonly string[]).includes(adjuster))
      e.wrong(
        ['adjuster'],
        'unknown-id',
        `The settings table has no knob ${adjuster}.`,
        didYouMean(adjuster, CIRCUITS) ||
          `Knobs: ${CIRCUITS.join(', ')}. Or write a map to add one: adjuster: { unit: clicks }.`,
      );
    return { adjuster };
  }
  const { end } = e;
  const key = end === undefined ? e.id : e.id.slice(end.length + 1);
  const wrong = (message: string, remedy: string, at: readonly string[] = []): void =>
    e.wrong(['adjuster', ...at], 'shape', `${e.id}: ${message}`, remedy);
  if (end !== undefined && !e.id.startsWith(`${end}.`))
    wrong('a knob of one end has an id that begins with it.', 'Write the id as {end}. and one name.');
  else if (!KEY.test(key))
    wrong(
      'its name is its key on the bike sheet, so it is words joined by hyphens.',
      `Write it like ${end === undefined ? 'bar-width' : '{end}.bottom-out'}.`,
    );
  else if (RESERVED.has(key))
    wrong(`${key} is a key of the bike sheet already.`, 'Give the setting another name.');
  const positions = adjuster.positions;
  const unit = adjuster.unit ?? (positions === undefined ? 'clicks' : 'positions');
  if ((unit === 'positions') !== (positions !== undefined))
    wrong(
      unit === 'positions'
        ? 'positions: must name where it can stand.'
        : `it is counted in ${unit}, so it has no positions.`,
      'Write positions: [closed, open], or a unit without positions.',
    );
  if (positions !== undefined && new Set(positions).size < positions.length)
    wrong('a position stands twice.', 'Name each once.', ['positions']);
  if (positions?.includes('none') === true || positions?.includes('unknown') === true)
    wrong('none and unknown are said by the bike sheet itself.', 'Name the positions otherwise.', [
      'positions',
    ]);
  const [least, most] = adjuster.range ?? DEFAULT_RANGE[unit] ?? [];
  if (unit !== 'positions' && (least === undefined || most === undefined || least >= most))
    wrong(
      least === undefined ? `range: is missing for ${unit}.` : 'range: must go from less to more.',
      'Write the least and the most that any bike has: range: [700, 850].',
      adjuster.range === undefined ? [] : ['range'],
    );
  return {
    adjuster: key,
    own: {
      id: e.id,
      ...(end === undefined ? {} : { end }),
      key,
      words,
      unit,
      ...(positions === undefined ? {} : { positions }),
      range: [least ?? 0, most ?? (positions?.length ?? 1) - 1],
      grain: adjuster.grain ?? grainOf(unit),
      stale: adjuster.stale ?? [],
      find:
        adjuster.find === undefined
          ? FIND[unit === 'clicks' || unit === 'positions' ? unit : 'other']
          : e.fill(adjuster.find),
    },
  };
}

const DEFAULT_RANGE: Readonly<Record<string, readonly [number, number]>> = {
  clicks: LIMITS.clicks,
  turns: [0, 30],
  spacers: LIMITS.volumeSpacers,
};

const FIND = {
  clicks: 'Turn it gently to fully closed, count the clicks, turn it back, and write now: on the sheet.',
  positions: 'Look where it stands, and write it on the sheet.',
  other: 'Measure it, and write it on the sheet.',
} as const;
