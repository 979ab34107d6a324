/** A general discrete Bayes net by full enumeration: knows nothing of suspension, causes or topics. */

export interface Node {
  readonly name: string;
  readonly states: readonly string[];
  readonly parents: readonly string[];
  /** P(states | parents' states) */
  readonly table: (parents: Readonly<Record<string, string>>) => readonly number[];
}

/** P(query = state | given) for every state, and P(given). */
export function infer(
  nodes: readonly Node[],
  query: string,
  given: Readonly<Record<string, string>>,
): { posterior: Record<string, number>; evidence: number } {
  const sums: Record<string, number> = {};
  const walk = (i: number, state: Record<string, string>, p: number): void => {
    if (p === 0) return;
    const node = nodes[i];
    if (node === undefined) {
      sums[state[query]!] = (sums[state[query]!] ?? 0) + p;
      return;
    }
    const row = node.table(state);
    node.states.forEach((s, j) => {
      if (given[node.name] !== undefined && given[node.name] !== s) return;
      walk(i + 1, { ...state, [node.name]: s }, p * row[j]!);
    });
  };
  walk(0, {}, 1);
  const evidence = Object.values(sums).reduce((s, x) => s + x, 0);
  return { posterior: Object.fromEntries(Object.entries(sums).map(([k, v]) => [k, v / evidence])), evidence };
}

export const YES_NO = ['yes', 'no'] as const;

/** A yes/no node from P(yes | …); parents' states come as true or false in order. */
export function yesNoNode(
  name: string,
  parents: readonly string[],
  yes: (...parents: boolean[]) => number,
): Node {
  return {
    name,
    states: YES_NO,
    parents,
    table: (state) => {
      const p = yes(...parents.map((x) => state[x] === 'yes'));
      return [p, 1 - p];
    },
  };
}
