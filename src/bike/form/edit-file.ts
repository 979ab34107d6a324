/** What differs between two forms of one sheet's file, leaf by leaf: so that a file is edited, not written anew. */
import { isMap } from '../../form/is-map.ts';

export interface Edit {
  readonly path: readonly string[];
  /** absent when the key goes */
  readonly value?: unknown;
}

/** The edits that make `after` of `before`; lists count as one leaf. */
export function editsBetween(before: unknown, after: unknown, path: readonly string[] = []): Edit[] {
  if (JSON.stringify(before) === JSON.stringify(after)) return [];
  if (!isMap(before) || !isMap(after)) return [after === undefined ? { path } : { path, value: after }];
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((key) =>
    editsBetween(before[key], after[key], [...path, key]),
  );
}
