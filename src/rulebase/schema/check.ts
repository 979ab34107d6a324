/** The form of a check that stands beside the rules. */
import * as z from 'zod';
import { ends, id, text } from './parts.ts';

const answered = z.record(
  z.string(),
  z.union([text, z.strictObject({ answer: text, sure: z.enum(['sure', 'fairly', 'guess']).optional() })]),
);

export const check = z.strictObject({
  name: text,
  for: ends.optional(),
  covers: text.optional().meta({ description: 'the line of the trade it tests' }),
  given: answered,
  bike: z.record(z.string(), z.unknown()).optional().meta({ description: 'a bike sheet, as in a bike file' }),
  expect: z.strictObject({
    first: id.optional(),
    'one-of': z.array(id).min(1).optional(),
    'top-3': z.array(id).min(1).optional(),
    not: z
      .array(id)
      .min(1)
      .optional()
      .meta({ description: 'causes that must stay below one chance in five' }),
    'at-least': z
      .number()
      .min(0)
      .max(1)
      .optional()
      .meta({ description: 'the least probability of the first cause' }),
    nothing: z.boolean().optional().meta({ description: 'true: nothing is off must be the verdict' }),
    adjustment: z
      .union([id, z.array(id).min(1)])
      .optional()
      .meta({ description: 'what must be done first' }),
    'not-adjustment': z.array(id).min(1).optional(),
    caution: id.optional(),
  }),
});

export type CheckSource = z.infer<typeof check>;
