/** Settings of a bike in words, as they are said in the pits. */
import { DAMPER, type Circuit } from './circuits.ts';
import { isAlone, rowsOf } from './settings.ts';
import { ENDS, type BikeSheet, type End } from './sheet.ts';

/** `rebound.low` → `low-speed rebound` */
export function circuitWords(circuit: Circuit, end?: End): string {
  return end === undefined ? DAMPER[circuit].words : `${end} ${DAMPER[circuit].words}`;
}

/**
 * `front.rebound.low` → `front low-speed rebound`; `front rebound` on a bike with one rebound knob there.
 * @param sheet knows what packs add, and which knobs there are; without it a pack's setting is called by its id
 */
export function settingWords(setting: string, sheet?: BikeSheet): string {
  const rows = rowsOf(sheet?.settings);
  const row = rows.find(({ stand }) => stand === setting) ?? rows.find((one) => one.setting === setting);
  if (row === undefined) return plainName(setting);
  if (sheet !== undefined && row.circuit !== undefined && isAlone(sheet, row.end!, row.circuit))
    return `${row.end} ${DAMPER[row.circuit].alone!.words}`;
  return row.words;
}

/** `front.bottom-out` → `front bottom-out`; a name that is no setting at all stays as it is. */
function plainName(setting: string): string {
  const [end, ...rest] = setting.split('.');
  return ENDS.includes(end as End) && rest.length > 0 ? `${end} ${rest.join(' ')}` : setting;
}
