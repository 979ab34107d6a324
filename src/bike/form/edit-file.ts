/** What differs between two forms of one sheet's file, leaf by leaf: so that a file is edited where it stands, not written anew. */
import { isMap } from '../../form/plain-data.ts';
import { SIDES, speedOf } from '../circuits.ts';

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

/**
 * `front.rebound.low.now` is `front.rebound.now` in a file whose only rebound knob is written without its speed, and
 * `front.lever.now` is `front.lever` where the value stands alone.
 * @param raw the file as it was read
 */
export function asWritten({ path, ...edit }: Edit, raw: unknown): Edit {
  const out: string[] = [];
  let here: unknown = raw;
  for (const [i, key] of path.entries()) {
    if (!isMap(here)) {
      // The value alone stands where the map would be.
      if (here !== undefined && here !== null && key === 'now' && i === path.length - 1) break;
      out.push(key);
      continue;
    }
    const side = SIDES.find((one) => one.side === out.at(-1));
    if (side !== undefined && Object.hasOwn(here, 'clicks') && key === speedOf(side.circuits[0]!)) continue;
    out.push(key);
    here = Object.hasOwn(here, key) ? here[key] : undefined;
  }
  return { ...edit, path: out };
}
