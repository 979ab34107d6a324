/** A smooth function of one number as a table: cubic Hermite pieces, so that value and slope are continuous. */
import { readNodes } from './machine/loops/curve.ts';

export interface Table {
  /** argument at the first node, and nodes per unit of it */
  readonly first: number;
  readonly perUnit: number;
  readonly pieces: number;
  /** pairs: value, and slope times the node spacing */
  readonly nodes: Float64Array;
}

/** The value at x; beyond the ends along the last slope. */
export function readTable({ nodes, first, perUnit, pieces }: Table, x: number): number {
  return readNodes(nodes, first, perUnit, pieces, x);
}
