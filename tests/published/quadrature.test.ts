/**
 * Nodes and weights of Gauss–Legendre rules on [−1, 1] against Abramowitz & Stegun, Handbook of Mathematical Functions,
 * table 25.4. Quoted from memory, not read again for this test. Ours stand on [0, 1], so each is carried over there.
 */
import { expect, it } from 'vitest';
import { gaussLegendre } from '../../src/diagnosis/quadrature.ts';

/** Node and weight from the middle out; a node other than 0 stands on both sides of it. */
// prettier-ignore
const TABLE: readonly (readonly [many: number, rows: readonly (readonly [node: number, weight: number])[]])[] = [
  [2, [[0.577350269189626, 1]]],
  [3, [[0, 0.888888888888889], [0.774596669241483, 0.555555555555556]]],
  [4, [[0.339981043584856, 0.652145154862546], [0.861136311594053, 0.347854845137454]]],
  [5, [[0, 0.568888888888889], [0.538469310105683, 0.478628670499366], [0.906179845938664, 0.236926885056189]]],
  [10, [[0.148874338981631, 0.295524224714753], [0.433395394129247, 0.269266719309996],
    [0.679409568299024, 0.219086362515982], [0.865063366688985, 0.149451349150581],
    [0.973906528517172, 0.066671344308688]]],
];

it.each(TABLE)('the rule with %d nodes', (many, rows) => {
  const published = rows
    .flatMap(([node, weight]) =>
      node === 0
        ? [{ node, weight }]
        : [
            { node: -node, weight },
            { node, weight },
          ],
    )
    .sort((a, b) => a.node - b.node);
  const { nodes, weights } = gaussLegendre(many);
  const ours = [...nodes]
    .map((node, i) => ({ node: 2 * node - 1, weight: 2 * weights[i]! }))
    .sort((a, b) => a.node - b.node);
  expect(ours.length).toBe(published.length);
  for (const [i, { node, weight }] of published.entries()) {
    expect(ours[i]!.node).toBeCloseTo(node, 14);
    expect(ours[i]!.weight).toBeCloseTo(weight, 14);
  }
});
