/** How sure one is of something, on the scale on which evidence adds up. */

/** Nearer to 0 or 1 a double has no digits left to tell odds by. */
const LEAST = 1e-12;

/** Decibans, 10·log10 of p/(1−p), within ±120: a cause that is certain keeps a finite weight. */
export function logOdds(p: number): number {
  return 10 * Math.log10(Math.max(LEAST, p) / Math.max(LEAST, 1 - p));
}
