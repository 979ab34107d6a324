/** Settings of a bike in words, as they are said in the pits. */
import { DAMPER, type Circuit } from './circuits.ts';
import { isAlone, rowsOf } from './settings.ts';
import { ENDS, type BikeSheet, type End } from './sheet.ts';
import { asRead } from './units.ts';

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

/** `8 clicks from closed`, `1 spacer`, `82 psi`; what has no unit, as it is. */
export function valueWords(value: number | string, unit: string | undefined): string {
  if (unit === undefined) return String(value);
  // A count of clicks says nothing without the end it is counted from.
  const from = unit === 'clicks' ? ' from closed' : '';
  return `${value} ${value === 1 || value === -1 ? unit.replace(/s$/, '') : unit}${from}`;
}

/** `2 clicks`, `1 spacer`, `16.8 psi` */
export function sizeWords(amount: number, unit: string): string {
  const read = asRead(amount, unit);
  return `${read} ${read === 1 ? unit.replace(/s$/, '') : unit}`;
}

/** `2 clicks out`, `1 spacer less`, `5 psi more` */
export function amountWords(more: boolean, amount: string, unit: string): string {
  const units = amount === '1' ? unit.replace(/s$/, '') : unit;
  if (unit === 'clicks') return `${amount} ${units} ${more ? 'out' : 'in'}`;
  return `${amount} ${units} ${more ? 'more' : 'less'}`;
}

/** `8 → 10 from closed`, `82 → 87 psi` */
export function spanWords(from: number, to: number, unit: string): string {
  return `${asRead(from, unit)} → ${asRead(to, unit)} ${unit === 'clicks' ? 'from closed' : unit}`;
}
