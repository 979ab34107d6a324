/** How far, in words. */

/** `2 clicks out`, `1 spacer less`, `5 psi more` */
export function amountWords(more: boolean, amount: string, unit: string): string {
  const units = amount === '1' ? unit.replace(/s$/, '') : unit;
  if (unit === 'clicks') return `${amount} ${units} ${more ? 'out' : 'in'}`;
  return `${amount} ${units} ${more ? 'more' : 'less'}`;
}
