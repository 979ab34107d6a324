/** A road in numbers, and how it is read. */
import { heightOn, slopeOn } from '../machine/loops/pave.ts';

/** Height in m and slope of the road at a distance along it, m. */
export interface Road {
  height(at: number): number;
  slope(at: number): number;
}

/**
 * A road as pieces one behind the other, flat ground at height 0 between and beyond them. They are numbers, not functions,
 * so that one loop reads all roads, in machine code too.
 */
export interface PiecedRoad extends Road {
  readonly pieces: Float64Array;
}

/** A road as a table over one period of it in m, read by straight lines; for the same reason. */
export interface TabledRoad extends Road {
  readonly heights: Float64Array;
  readonly slopes: Float64Array;
  readonly period: number;
}

/** Where things stand in a piece: it holds for from < x ≤ to. */
export const PIECE = { from: 0, to: 1, form: 2, a: 3, b: 4, c: 5, width: 6 } as const;
/** line: a + b·(x − c); hump: a·(1 − cos b·(x − c)); bend: a·(x − c)²; arc: a + √(b − (x − c)²) */
export const FORM = { line: 0, hump: 1, bend: 2, arc: 3 } as const;

export type Piece = readonly [from: number, to: number, form: number, a: number, b: number, c: number];

/** @param list in the order of the road */
export function pieced(list: readonly Piece[]): PiecedRoad {
  const pieces = Float64Array.from(list.flat());
  const at = (x: number, read: typeof heightOn): number => {
    for (let p = 0; p < pieces.length; p += PIECE.width)
      if (x <= pieces[p + PIECE.to]!) return x > pieces[p]! ? read(pieces, p, x) : 0;
    return 0;
  };
  return { pieces, height: (x) => at(x, heightOn), slope: (x) => at(x, slopeOn) };
}
