/** The form of a history entry in its file. */
import * as z from 'zod';
import { notationOf } from '../bike/change.ts';
import { printDeed, readDeed, type Deed } from '../bike/deed.ts';
import { OWN_UNITS, type OwnSetting } from '../bike/own-setting.ts';
import { changeable } from '../bike/settings.ts';
import type { Entry, EntryDraft, TrialOutcome } from './entry.ts';

const text = z.string().min(1);
const value = z.union([z.number(), text], { error: 'expected a number or a text' });
/** What has a unit is a number of it. */
function countable(
  { from, to, unit }: Record<'from' | 'to' | 'unit', unknown>,
  context: z.RefinementCtx,
): void {
  if (unit === undefined) return;
  for (const [key, value] of Object.entries({ from, to }))
    if (typeof value === 'string')
      context.addIssue({
        code: 'custom',
        message: `expected a number in ${String(unit)}`,
        path: [key],
        input: value,
      });
}
const change = z
  .strictObject({ setting: text, from: value.optional(), to: value, unit: text.optional() })
  .superRefine((one, context) => countable({ from: one.from, to: one.to, unit: one.unit }, context));

const base = {
  changes: z.array(change).min(1).optional(),
  reason: z.string().optional(),
  case: text.optional(),
  trial: text.optional(),
  result: z
    .strictObject({
      change: text,
      setting: text,
      outcome: z.enum(['better', 'same', 'worse']),
      kept: z.boolean(),
      points: z.number().optional(),
      error: z.number().positive().optional(),
    })
    .optional(),
  kept: z.strictObject({ file: text, stop: z.boolean() }).optional(),
};
const kind = z.enum(['start', 'counted', 'change', 'undo', 'result', 'note']);

interface Said {
  readonly kind: string;
  readonly changes?: unknown;
  readonly result?: unknown;
  readonly reason?: unknown;
}

/** What each kind of entry must say. */
function complete(entry: Said, context: z.RefinementCtx): void {
  const needs = {
    start: 'changes',
    counted: 'changes',
    change: 'changes',
    undo: 'changes',
    result: 'result',
    note: 'reason',
  } as const;
  const key = needs[entry.kind as keyof typeof needs];
  if (entry[key] === undefined) {
    context.addIssue({ code: 'custom', message: `a ${entry.kind} needs ${key}`, path: ['kind'] });
  }
}

export const draftForm = z.strictObject({ kind, ...base }).superRefine(complete);

export const entryForm = z
  .strictObject({
    entry: z.int().positive(),
    at: z.iso.datetime({ offset: true, error: 'expected a time such as 2026-05-01T14:03:00Z' }),
    kind,
    ...base,
    undoes: z.int().positive().optional(),
    clockWentBack: z.literal(true).optional(),
  })
  .superRefine(complete);

/** An entry as it stands in its file: what was tried is a text there. */
interface WrittenOutcome extends Omit<TrialOutcome, 'change'> {
  /** in change notation, e.g. front.rebound.low+2 */
  readonly change: string;
}

type Written<E extends EntryDraft> = Omit<E, 'result'> & { readonly result?: WrittenOutcome };
export type WrittenEntry = Written<Entry>;

export function asWritten<E extends EntryDraft>(entry: E): Written<E> {
  const { result, ...rest } = entry;
  return result === undefined ? rest : { ...rest, result: { ...result, change: printDeed(result.change) } };
}

/** @param own the settings that packs in use add */
export function asRead(entry: WrittenEntry, own: readonly OwnSetting[]): Entry {
  const { result, ...rest } = entry;
  return result === undefined ? rest : { ...rest, result: { ...result, change: deedIn(result.change, own) } };
}

/** Of a pack that is not at hand is what is told of no setting here; what goes without a unit is mostly a knob. */
function deedIn(text: string, own: readonly OwnSetting[]): Deed {
  const deed = readDeed(text, own);
  const read = 'name' in deed ? notationOf(text.trim()) : undefined;
  if (read === undefined || changeable(own).has(read.setting)) return deed;
  const unit = read.unit === '' ? 'clicks' : OWN_UNITS.find((one) => one === read.unit);
  return unit === undefined ? deed : { changes: [{ ...read, unit }] };
}
