/** The JSON forms that scripts rely on, as zod schemas: what comes out, and what a case file holds. */
import { LEAST_ERROR, MOST_POINTS } from '../casework/read-results.ts';
import * as z from 'zod';
import { BECAUSE } from '../advice/advise.ts';
import { STOP_REASONS } from '../advice/stop.ts';
import { CASE_FORMAT } from '../casework/case.ts';
import { RESULT_FORMAT } from './result.ts';

const share = z.number().min(0).max(1);
const answered = z.union([
  z.string().meta({ description: 'an answer id of the question, or cannot-tell, or not-now' }),
  z.array(z.string()).min(1).meta({ description: 'several answers, of a question that takes several' }),
]);
const answer = z.union([
  ...answered.options,
  z.strictObject({ answer: answered, sure: z.enum(['sure', 'fairly', 'guess']).optional() }),
]);
const answers = z.record(
  z.string().meta({
    description: 'question id, with @front or @rear where it has ends, @either where the end is not known',
  }),
  answer,
);
const results = z.array(
  z.strictObject({
    change: z.string().meta({ description: 'front.rebound.low+2, or an adjustment id' }),
    outcome: z.enum(['better', 'same', 'worse']),
    kept: z.boolean().optional(),
    points: z
      .number()
      .min(-MOST_POINTS)
      .max(MOST_POINTS)
      .optional()
      .meta({ description: 'better than the reference by so many points, 1 to 7' }),
    error: z
      .number()
      .min(LEAST_ERROR)
      .max(100)
      .optional()
      .meta({ description: 'standard deviation of points' }),
    trial: z.string().optional(),
    date: z.string().optional(),
  }),
);

const tried = z.array(
  z.strictObject({
    change: z.string().optional().meta({ description: 'front.rebound.low+2, or an adjustment id' }),
    setting: z.string().optional().meta({ description: 'instead of change: with its end, or beside end' }),
    end: z.enum(['front', 'rear']).optional(),
    direction: z.enum(['open', 'more', 'up', 'close', 'less', 'down']).optional(),
    by: z.number().positive().optional().meta({ description: 'how far; left out when not known' }),
    unit: z.string().optional(),
    result: z.enum(['better', 'same', 'worse', 'not-sure']),
    for: z
      .union([z.string(), z.array(z.string())])
      .optional()
      .meta({
        description:
          'the questions or topics the result speaks of, such as hands; all of the bike where it is left out',
      }),
    'put-back': z.enum(['yes', 'no', 'unknown']).optional(),
  }),
);

export const caseSchema = z.strictObject({
  case: z.literal(CASE_FORMAT).meta({ description: 'the number of this format' }),
  id: z.union([z.string(), z.number()]).optional(),
  bike: z
    .union([z.string(), z.record(z.string(), z.unknown())])
    .optional()
    .meta({ description: 'a bike sheet: a file name beside the case, or inline' }),
  has: z.record(z.string(), z.unknown()).optional().meta({
    description: 'what a bike without a sheet has: kind, and the springs, knobs and levers of each end',
  }),
  said: z.string().optional(),
  note: z.unknown().optional(),
  tried: tried.optional().meta({ description: 'what was changed before the interview, and what it did' }),
  answers: answers.optional(),
  results: results.optional(),
  earlier: z
    .array(
      z.strictObject({ tried: tried.optional(), answers: answers.optional(), results: results.optional() }),
    )
    .optional(),
  interview: z
    .strictObject({
      about: z.array(z.string()).optional(),
      'keep-asking': z.boolean().optional(),
      finished: z.boolean().optional(),
      for: z.enum(['rider', 'mechanic']).optional(),
    })
    .optional()
    .meta({ description: 'what an interview needs to go on where it stood; counts for nothing' }),
});

const caution = z.strictObject({ id: z.string(), level: z.enum(['note', 'care', 'stop']), text: z.string() });

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
      evidence: z.array(z.strictObject({ question: z.string(), answer: z.string(), decibans: z.number() })),
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
      cautions: z.array(z.string()),
      knockOn: z.array(z.string()),
      ridden: z.array(z.string()).meta({ description: 'what trials on this bike say of this very step' }),
    }),
  ),
  first: z.string().nullable(),
  because: z.enum(BECAUSE).nullable(),
  insteadOf: z.strictObject({ id: z.string(), do: z.string(), why: z.string() }).nullable(),
  blocked: z.array(
    z.strictObject({ id: z.string(), do: z.string(), why: z.string(), next: z.array(z.string()) }),
  ),
  refused: z.array(z.strictObject({ id: z.string(), do: z.string(), why: z.string() })),
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
  trials: z.array(
    z.strictObject({ change: z.string(), outcome: z.string(), cause: z.string(), decibans: z.number() }),
  ),
  cautions: z.array(caution),
  unconfirmed: z.array(
    z.strictObject({
      phrase: z.string(),
      question: z.string().nullable(),
      answer: z.string().nullable(),
      note: z.string(),
    }),
  ),
  complaints: z.array(
    z.strictObject({
      phrase: z.string(),
      helped: share.nullable(),
      instead: z.strictObject({ id: z.string(), do: z.string(), plain: z.string() }).nullable(),
      ask: z.string().nullable(),
    }),
  ),
  warnings: z.array(z.string()),
});
