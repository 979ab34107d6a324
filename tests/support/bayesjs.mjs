// bayesjs is CommonJS with types of its own that strict TypeScript refuses; its enumeration is the part that is right
// for several nodes of evidence.
import { createRequire } from 'node:module';

const { inferences } = createRequire(import.meta.url)('bayesjs');

/** @returns {number} P(query) under the given evidence, from a fresh copy of the network (it caches by object). */
export function bayesjsJoint(nodes, query, given) {
  const network = {};
  for (const node of nodes) {
    const combos = (left, state) =>
      left.length === 0
        ? [state]
        : nodes
            .find((n) => n.name === left[0])
            .states.flatMap((s) => combos(left.slice(1), { ...state, [left[0]]: s }));
    const row = (state) => Object.fromEntries(node.states.map((s, i) => [s, node.table(state)[i]]));
    network[node.name] = {
      id: node.name,
      states: [...node.states],
      parents: [...node.parents],
      cpt:
        node.parents.length === 0
          ? row({})
          : // oxlint-disable-next-line unicorn/no-thenable -- the library's own key
            combos([...node.parents], {}).map((when) => ({ when, then: row(when) })),
    };
  }
  return inferences.enumeration.infer(network, { ...query }, { ...given });
}
