/** How far, and from where to where, in words. */
import { asRead } from './units.ts';

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
