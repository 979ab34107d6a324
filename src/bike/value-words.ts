/** Where a setting stands, in words. */

/** `8 clicks from closed`, `1 spacer`, `82 psi`; what has no unit, as it is. */
export function valueWords(value: number | string, unit: string | undefined): string {
  if (unit === undefined) return String(value);
  // A count of clicks says nothing without the end it is counted from.
  const from = unit === 'clicks' ? ' from closed' : '';
  return `${value} ${value === 1 || value === -1 ? unit.replace(/s$/, '') : unit}${from}`;
}
