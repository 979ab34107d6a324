/** The JSON form of a result that scripts rely on, as a zod schema. */
import * as z from 'zod';
import { BECAUSE } from '../../advice/put-first.ts';
import { STOP_REASONS } from '../../advice/stop.ts';
import { PROMISES, RESULT_FORMAT } from '../result/result.ts';

const share = z.number().min(0).max(1);
const caution = z.strictObject({
  id: z.string(),
  level: z.enum(['note', 'care', 'stop']),
  text: z.string(),
  likely: z
    .literal(true)
    .optional()
    .meta({ description: 'said because its cause is likely, whatever comes first' }),
});

const deed = z
  .union([
    z.strictObject({
      changes: z.array(z.strictObject({ setting: z.string(), by: z.number(), unit: z.string() })),
    }),
    z.strictObject({ name: z.string() }),
  ])
  .meta({ description: 'what was done: the settings that were turned, or what it is called' });

export const resultSchema = z.strictObject({
  format: z.literal(RESULT_FORMAT),
  case: z.string(),
  rules: z.strictObject({ name: z.string(), version: z.string(), digest: z.string() }),
  bike: z.string().nullable(),
  said: z.string().nullable(),
  verdict: z.enum(['change', 'leave', 'unknown', 'stop']),
  nothing: share,
  none: share,
  checked: z.boolean(),
  causes: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      probability: share,
      pair: z
        .strictObject({ other: z.string(), name: z.string(), probability: share })
        .optional()
        .meta({ description: 'with the other circuit of the same damper: its id, and the two together' }),
      evidence: z.array(
        z.strictObject({
          question: z.string(),
          answer: z.string(),
          decibans: z.number(),
          measured: z
            .string()
            .optional()
            .meta({ description: 'the number that the answer was made of, such as 43 %' }),
          trial: deed.optional(),
          tried: deed.optional(),
          unsized: z.literal(true).optional(),
        }),
      ),
    }),
  ),
  adjustments: z.array(
    z.strictObject({
      id: z.string(),
      do: z.string(),
      plain: z.string(),
      likely: share.nullable().meta({
        description: 'chance of that cause, the same as among the causes; null where it is for none',
      }),
      before: z
        .strictObject({ do: z.string(), plain: z.string() })
        .nullable()
        .meta({ description: 'what was tried in vain and is still on the bike: it goes back before this' }),
      cures: z.string().nullable(),
      change: z.string().nullable(),
      setting: z.string().nullable(),
      by: z.number().nullable(),
      unit: z.string().nullable(),
      from: z.number().nullable(),
      to: z.number().nullable(),
      positions: z.array(z.string()).nullable(),
      helps: share,
      harms: share,
      feelsBetter: share.nullable(),
      feelsWorse: share.nullable(),
      benefit: z.number(),
      minutes: z.number(),
      wayBack: z.string(),
      feel: z.string(),
      note: z.string().nullable(),
      heed: z.string().nullable().meta({ description: 'what of the note holds wherever this is listed' }),
      writeDown: z.array(z.string()).meta({ description: 'what earshot bike set takes once it is measured' }),
      cautions: z.array(z.string()),
      knockOn: z.array(z.string()),
      ridden: z.array(z.string()).meta({ description: 'what trials on this bike say of this very step' }),
    }),
  ),
  first: z.string().nullable(),
  because: z.enum(BECAUSE).nullable(),
  insteadOf: z.strictObject({ id: z.string(), do: z.string(), why: z.string() }).nullable(),
  blocked: z.array(
    z.strictObject({
      id: z.string(),
      do: z.string(),
      why: z.string(),
      next: z.array(z.string()),
      waits: z
        .strictObject({ id: z.string(), do: z.string(), why: z.string(), ask: z.string().nullable() })
        .nullable()
        .meta({
          description:
            'the first of next that would cure it as well, why it is not advised, and what it waits for',
        }),
    }),
  ),
  refused: z.array(
    z.strictObject({
      id: z.string(),
      do: z.string(),
      why: z.string(),
      less: z
        .string()
        .nullable()
        .meta({ description: 'a smaller step of it that nobody rode yet, in change notation' }),
      ridden: z.boolean().meta({ description: 'because it was ridden or tried, and was no better' }),
    }),
  ),
  next: z
    .strictObject({
      question: z.string(),
      ask: z.string(),
      how: z.string(),
      bits: z.number(),
      minutes: z.number(),
    })
    .nullable(),
  stop: z.enum(STOP_REASONS).nullable(),
  fit: z.strictObject({ z: z.number(), reask: z.array(z.string()) }).nullable(),
  assignments: z.array(z.strictObject({ question: z.string(), text: z.string() })),
  offTarget: z
    .array(z.strictObject({ question: z.string(), answer: z.string(), measured: z.string().optional() }))
    .meta({
      description: 'what a gauge read off its target: on the sheet (bike. and the setting), or answered',
    }),
  trades: z.array(z.string()).optional().meta({
    description: 'what was tried and made one thing better and another worse, with what lies between',
  }),
  found: z
    .array(z.strictObject({ question: z.string(), answer: z.string() }))
    .optional()
    .meta({ description: 'below a stop: the answers that stop it' }),
  leftIn: z.strictObject({ do: z.string(), plain: z.string() }).optional().meta({
    description: 'what was tried in vain and is still on, where nothing is to be changed: it may go back',
  }),
  trials: z.array(
    z.strictObject({
      change: z.string(),
      what: deed,
      outcome: z.string(),
      cause: z.string(),
      decibans: z.number(),
    }),
  ),
  cautions: z.array(caution),
  unconfirmed: z.array(
    z.strictObject({
      phrase: z.string(),
      question: z.string().nullable(),
      answer: z.string().nullable(),
      note: z.string(),
      danger: z.literal(true).optional(),
    }),
  ),
  complaints: z.array(
    z.strictObject({
      phrase: z.string(),
      told: z.boolean(),
      neverNormal: z.boolean(),
      helped: share.nullable(),
      promise: z.enum(PROMISES).nullable(),
      instead: z.strictObject({ id: z.string(), do: z.string(), plain: z.string() }).nullable(),
      ask: z.string().nullable(),
    }),
  ),
  asked: z
    .array(
      z.strictObject({
        phrase: z.string(),
        id: z.string(),
        what: z.string(),
        first: z.boolean(),
        why: z.string().nullable(),
        better: share,
        worse: share,
      }),
    )
    .optional(),
  warnings: z.array(z.string()),
});
