/** Keys that stand twice in one map of a YAML document, found in one walk. */
import { isScalar, visit, type Document } from 'yaml';

/** @returns the offset of each, in the order of the text */
export function twice(document: Document): number[] {
  const found: number[] = [];
  visit(document, {
    Map(_, { items }) {
      const seen = new Set<unknown>();
      for (const { key } of items) {
        // What is no plain key, such as a list, cannot be told from another so simply; no file of ours has any.
        const value: unknown = isScalar(key) ? key.value : key;
        if (seen.has(value)) found.push(isScalar(key) ? (key.range?.[0] ?? 0) : 0);
        seen.add(value);
      }
    },
  });
  return found;
}
