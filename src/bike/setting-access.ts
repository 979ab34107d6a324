/** One thing that can be turned on a bike, by the name of its setting. */
import type { Dial, NoDial, Of } from './dial/dial.ts';
import { changeable, rowFor } from './settings.ts';
import type { BikeSheet } from './sheet.ts';

export type { Dial, NoDial } from './dial/dial.ts';

/** @param of the setting and the unit to speak in, as `parseChange` gives them */
export function dialOf(sheet: BikeSheet, of: Of): Dial | NoDial {
  const row = rowFor(of, sheet.settings);
  if (row !== undefined) return row.dial(sheet, of);
  const all = changeable(sheet.settings);
  const units = all.get(of.setting);
  return {
    message: `${of.setting} is not a valid change${units === undefined ? '' : ` in ${of.unit}`}.`,
    remedy: units === undefined ? `Settings: ${[...all.keys()].join(', ')}.` : `Use ${units.join(', ')}.`,
  };
}
