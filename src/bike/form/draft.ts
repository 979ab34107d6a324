/** A sheet that is being written, in its file form as far as it goes. */
import { isMap } from '../../form/plain-data.ts';
import { SHEET_FORMAT } from './limits.ts';

export type Draft = Record<string, unknown>;

export function emptyDraft(): Draft {
  return { bike: SHEET_FORMAT };
}

export function valueAt(draft: Draft, path: string): unknown {
  let here: unknown = draft;
  for (const key of path.split('.')) {
    if (!isMap(here) || !Object.hasOwn(here, key)) return undefined;
    here = here[key];
  }
  return here;
}

/** What a path of the file form looks like: `rear.rebound.low.clicks`. */
export const PATH = /^[a-z][a-z0-9-]*(?:\.[a-z][a-z0-9-]*)*$/;

/** The draft with a value put at a path; the draft itself stays as it is. */
export function withValueAt(draft: Draft, path: string, value: unknown): Draft {
  const [key, ...rest] = path.split('.') as [string, ...string[]];
  if (rest.length === 0) return { ...draft, [key]: value };
  const below = Object.hasOwn(draft, key) ? draft[key] : undefined;
  return { ...draft, [key]: withValueAt(isMap(below) ? below : {}, rest.join('.'), value) };
}
