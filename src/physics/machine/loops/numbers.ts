/**
 * What the loops are written with. They are TypeScript that the compiler of machine code reads too; it takes
 * `../numbers-in-memory.ts` in place of this file, and the rest as it stands, so that both give the same bits. Hence every
 * number says whether it counts or measures, and nothing is a list, an object or a call of the engine but what is here.
 */

/** A number that measures. */
export type f64 = number;
/** A number that counts: a division leaves no part. */
export type i32 = number;
export type Numbers = Float64Array;
export type Counts = Int32Array;

// The engine's own functions, because others round otherwise.
export const cosine = Math.cos;
export const sine = Math.sin;
export const cubeRoot = Math.cbrt;
export const power = Math.pow;
export const log2 = Math.log2;

/** A number without its part, toward nought. */
export function whole(x: f64): i32 {
  return x | 0;
}
