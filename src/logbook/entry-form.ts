/** The form of a history entry in its file. */
import * as z from 'zod';

const text = z.string().min(1);
const value = z.union([z.number(), text], { error: 'expected a number or a text' });
const change = z.strictObject({ setting: text, from: value.optional(), to: value, unit: text.optional() });

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
