/** A smooth function of one number as a table: cubic Hermite pieces, so that value and slope are continuous. */

export interface Table {
  /** argument at the first node, and nodes per unit of it */
  readonly first: number;
  readonly perUnit: number;
  readonly pieces: number;
  /** pairs: value, and slope times the node spacing */
  readonly nodes: Float64Array;
}

/**
 * @param node value and slope (dvalue/dx) at x; exact slopes make the pieces' error about spacing⁴/384 times the fourth
 *   derivative
 */
export function makeTable(
  first: number,
  last: number,
  pieces: number,
  node: (x: number) => readonly [value: number, slope: number],
): Table {
  const spacing = (last - first) / pieces;
  const nodes = new Float64Array(2 * (pieces + 1));
  for (let i = 0; i <= pieces; i++) {
    const [value, slope] = node(first + i * spacing);
    nodes[2 * i] = value;
    nodes[2 * i + 1] = slope * spacing;
  }
  return { first, perUnit: 1 / spacing, pieces, nodes };
}

/** The value at x; beyond the ends along the last slope. */
export function readTable({ nodes, first, perUnit, pieces }: Table, x: number): number {
  return readNodes(nodes, first, perUnit, pieces, x);
}

/** The same of a table taken apart, for loops that look at no object. */
export function readNodes(
  nodes: Float64Array,
  first: number,
  perUnit: number,
  pieces: number,
  x: number,
): number {
  const at = (x - first) * perUnit;
  if (at <= 0) return nodes[0]! + nodes[1]! * at;
  if (at >= pieces) return nodes[2 * pieces]! + nodes[2 * pieces + 1]! * (at - pieces);
  // The same as Math.floor for what is left, and faster.
  const i = at | 0;
  const t = at - i;
  const j = 2 * i;
  const f = nodes[j]!;
  const s = nodes[j + 1]!;
  const s1 = nodes[j + 3]!;
  const rise = nodes[j + 2]! - f;
  return f + t * (s + t * (3 * rise - 2 * s - s1 + t * (s + s1 - 2 * rise)));
}
