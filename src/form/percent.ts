/** Shares in words, for every printed form. */

/** A chance: never none or certain, whatever was rounded before. */
export function percent(p: number): string {
  const rounded = Math.round(p * 100);
  if (rounded >= 100) return 'over 99 %';
  return rounded <= 0 ? 'under 1 %' : `${rounded} %`;
}

/** What was counted. */
export function wholePercent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** A strength of the rules, where half a percent matters. */
export function finePercent(p: number): string {
  return `${(100 * p).toFixed(p < 0.1 ? 1 : 0)} %`;
}
