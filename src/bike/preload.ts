/** Preload that stands in for spring rate: it brings the sag right and leaves a coil as soft as it is. */
import type { EndSheet } from './sheet.ts';

/** What a collar is turned at most where the maker says nothing, m: two to three turns. Common practice, no source. */
export const USUAL_PRELOAD = 0.003;

/** Preload beyond what the maker allows, or beyond the usual, m; undefined where there is no coil or no number. */
export function preloadBeyond({ rigid, unsaid, spring }: EndSheet): number | undefined {
  if (rigid === true || unsaid === true || spring.kind !== 'coil' || spring.preload === undefined)
    return undefined;
  return Math.max(0, spring.preload - (spring.preloadMax ?? USUAL_PRELOAD));
}

/**
 * How much more the end would sag with that preload wound back, as a share of its travel; undefined where the stroke is
 * not known. The leverage is taken as even between the two.
 */
export function sagHeldUp(part: EndSheet, end: 'front' | 'rear'): number | undefined {
  const beyond = preloadBeyond(part);
  const stroke = part.stroke ?? (end === 'front' ? part.travel : undefined);
  return beyond === undefined || stroke === undefined || !(stroke > 0) ? undefined : beyond / stroke;
}
