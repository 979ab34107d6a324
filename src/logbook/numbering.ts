/**
 * Entries that two writers gave one number, or a hand moved: the order of the file is the truth, and the numbers follow
 * it upward. Such a log is read as it should be numbered, and says so, rather than refused.
 */
import type { Entry } from './entry.ts';

export interface Renumbered {
  readonly entries: readonly Entry[];
  /** entries that bear another number in the file, in its order */
  readonly moved: readonly { readonly index: number; readonly was: number; readonly is: number }[];
}

/** @param entries in the order of the file @returns the same array where nothing is wrong */
export function renumbered(entries: readonly Entry[]): Renumbered {
  if (entries.every((entry, i) => i === 0 || entry.entry > entries[i - 1]!.entry))
    return { entries, moved: [] };
  /** the number in the file, to the number the last entry that bears it now has */
  const now = new Map<number, number>();
  const moved: Renumbered['moved'][number][] = [];
  let last = 0;
  const all = entries.map((entry, index): Entry => {
    const is = entry.entry > last ? entry.entry : last + 1;
    if (is !== entry.entry) moved.push({ index, was: entry.entry, is });
    const undoes = entry.undoes === undefined ? undefined : (now.get(entry.undoes) ?? entry.undoes);
    now.set(entry.entry, is);
    last = is;
    return { ...entry, entry: is, ...(undoes === undefined ? {} : { undoes }) };
  });
  return { entries: all, moved };
}

/** The text of a history with its entries numbered anew; all else of it stays as it is where that can be done. */
export function renumberedText(
  text: string,
  { entries }: Renumbered,
  write: (entry: Entry) => string,
  read: (text: string) => readonly Entry[],
): string {
  let at = 0;
  const inPlace = text
    .split(/^(?=---[ \t]*\r?$)/m)
    .map((part) => {
      if (!/^\s*entry\s*:/m.test(part)) return part;
      const entry = entries[at++];
      return part
        .replace(/^(\s*entry\s*:\s*)\d+/m, (_, key: string) => `${key}${entry?.entry}`)
        .replace(/^(\s*undoes\s*:\s*)\d+/m, (_, key: string) => `${key}${entry?.undoes}`);
    })
    .join('');
  // Written by hand in some other form: written anew.
  return JSON.stringify(read(inPlace)) === JSON.stringify(entries) ? inPlace : entries.map(write).join('');
}
