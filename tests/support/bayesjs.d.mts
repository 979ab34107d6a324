import type { Node } from './bayes-net.ts';
export function bayesjsJoint(
  nodes: readonly Node[],
  query: Readonly<Record<string, string>>,
  given: Readonly<Record<string, string>>,
): number;
