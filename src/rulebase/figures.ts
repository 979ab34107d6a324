/** The trade figures of the packs: as the text that stands for `{name}`, and as numbers where they are written so. */
import type { Band } from '../bike/gauge/gauge.ts';
import { siPer } from '../bike/units.ts';
import type { PackFile } from './schema/pack.ts';

export interface Figures {
  readonly texts: ReadonlyMap<string, string>;
  /** SI, or shares */
  readonly bands: ReadonlyMap<string, Band>;
}

/** @param packs in order; a later one replaces a figure of an earlier one */
export function figuresOf(packs: readonly NonNullable<PackFile['figures']>[]): Figures {
  const all = Object.entries(Object.assign({}, ...packs) as NonNullable<PackFile['figures']>);
  return {
    texts: new Map(
      all.map(([name, one]) => [
        name,
        typeof one === 'string' ? one : `${one.from} to ${one.to} ${one.unit}`,
      ]),
    ),
    bands: new Map(
      all.flatMap(([name, one]): [string, Band][] => {
        if (typeof one === 'string') return [];
        const si = one.unit === '%' ? 0.01 : siPer(one.unit);
        return [[name, [one.from * si, one.to * si]]];
      }),
    ),
  };
}
