/**
 * What was done to a bike to see what it does: settings turned together, or what has a name and no number, such as a
 * service. Text is read into it where it comes in, and printed where it goes out.
 */
import { amountIn, parseChange, printChange, type Change } from './change.ts';
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

/** In two units one amount is rounded to what a gauge shows: 5 psi is told as 0.35 bar. Judgement. */
const ROUNDED = 0.05;

/** Whether both turn the same settings the same way as far, be it in another unit; or have the same name. */
export function isSameDeed(one: Deed, other: Deed): boolean {
  if ('name' in one || 'name' in other) return printDeed(one) === printDeed(other);
  const matched = one.changes.filter((change) => other.changes.some((each) => isSameChange(change, each)));
  return matched.length === one.changes.length && matched.length === other.changes.length;
}

function isSameChange(one: Change, other: Change): boolean {
  if (one.setting !== other.setting) return false;
  if (one.unit === other.unit) return one.by === other.by;
  const by = amountIn(other, one.unit);
  return by !== undefined && Math.abs(by - one.by) <= ROUNDED * Math.abs(one.by);
}

/** What was turned; nothing where it has only a name. */
export function changesOf(deed: Deed): readonly Change[] {
  return 'name' in deed ? [] : deed.changes;
}
