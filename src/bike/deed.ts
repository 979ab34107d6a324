/**
 * What was done to a bike to see what it does: settings turned together, or what has a name and no number, such as a
 * service. Text is read into it where it comes in, and printed where it goes out.
 */
import { parseChange, printChange, type Change } from './change.ts';
import type { OwnSetting } from './own-setting.ts';

/** `name`: the id of an adjustment of the rules, or what nothing here knows, as it was written */
export type Deed = { readonly changes: readonly Change[] } | { readonly name: string };

/** Reads what a file says; never throws. @param own the settings that packs in use add */
export function readDeed(text: string, own: readonly OwnSetting[] = []): Deed {
  const { changes } = parseChange(text, own);
  return changes.length > 0 ? { changes } : { name: text };
}

/** As `readDeed` reads it. */
export function printDeed(deed: Deed): string {
  return 'name' in deed ? deed.name : printChange(deed.changes);
}

export function isSameDeed(one: Deed, other: Deed): boolean {
  return printDeed(one) === printDeed(other);
}

/** What was turned; nothing where it has only a name. */
export function changesOf(deed: Deed): readonly Change[] {
  return 'name' in deed ? [] : deed.changes;
}
