/** The JSON form of a result that scripts rely on, as a zod schema. */
import * as z from 'zod';
import { BECAUSE } from '../../advice/put-first.ts';
import { STOP_REASONS } from '../../advice/stop.ts';
import type { ChangeUnit } from '../../bike/change.ts';
import type { Question } from '../../rulebase/compiled.ts';
import { PROMISES, RESULT_FORMAT } from '../result/result.ts';

/** Text in the schema; what it may be is the program's own affair. */
const of = <T extends string>() => z.string() as unknown as z.ZodType<T>;
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
      changes: z.array(z.strictObject({ setting: z.string(), by: z.number(), unit: of<ChangeUnit>() })),
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
  /** probability that nothing is off */
  nothing: share,
  /** chance of something off that the rules do not know */
  none: share,
  /** false: so much is claimed that it should first be looked at on the bike */
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
          /** what was done, where it is no answer: in a trial, or tried before */
          trial: deed.optional(),
          tried: deed.optional(),
          /** nobody said how far it was turned */
          unsized: z.literal(true).optional(),
        }),
      ),
    }),
  ),
  adjustments: z.array(
    z.strictObject({
      id: z.string(),
      do: z.string(),
      /** the same for a rider without a workshop: which way to turn, and what to count */
      plain: z.string(),
      likely: share.nullable().meta({
        description: 'chance of that cause, the same as among the causes; null where it is for none',
      }),
      before: z
        .strictObject({ do: z.string(), plain: z.string() })
        .nullable()
        .meta({ description: 'what was tried in vain and is still on the bike: it goes back before this' }),
      /** the likeliest cause it is for */
      cures: z.string().nullable(),
      /** change notation, e.g. front.rebound.low+2; null when it is not a number on the bike */
      change: z.string().nullable(),
      /** the same as data: what is turned, how far (+ is more open, more pressure, higher), and in what */
      setting: z.string().nullable(),
      by: z.number().nullable(),
      unit: of<ChangeUnit>().nullable(),
      amount: z.string().nullable().meta({
        description:
          'how far in words, where it is a share of what a gauge reads; by is then the least of it',
      }),
      from: z.number().nullable(),
      to: z.number().nullable(),
      /** the names of what it can stand at, by number from 0; null for what is counted */
      positions: z.array(z.string()).nullable(),
      /** chance that it cures something that is off, and that it spoils something */
      helps: share,
      harms: share,
      /** chance that the rider reports better, and worse, after one step of it; null where nothing is changed */
      feelsBetter: share.nullable(),
      feelsWorse: share.nullable(),
      /** expected worth in fixes, trial and minutes paid */
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
  /** id of the adjustment to do first */
  first: z.string().nullable(),
  because: z.enum(BECAUSE).nullable(),
  /** what would have been first, and why it cannot be done here */
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
  /** what would cure something likely, and is not advised */
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
      how: of<Question['how']>(),
      bits: z.number(),
      minutes: z.number(),
    })
    .nullable(),
  stop: z.enum(STOP_REASONS).nullable(),
  fit: z.strictObject({ z: z.number(), reask: z.array(z.string()) }).nullable(),
  /** what to go and ride or check, from the questions the rider could not answer */
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
  /** what earlier trials did, most moved cause first */
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
  /** readings of free text that nobody confirmed; never counted */
  unconfirmed: z.array(
    z.strictObject({
      phrase: z.string(),
      question: z.string().nullable(),
      answer: z.string().nullable(),
      note: z.string(),
      danger: z.literal(true).optional(),
    }),
  ),
  /** what becomes of every complaint in the free text: share of it that the first change cures, what else is for it */
  complaints: z.array(
    z.strictObject({
      phrase: z.string(),
      /** a sign of it was answered: it is no longer only the words */
      told: z.boolean(),
      /** no sound bike does it: a mechanic looks for it, and nobody waits for the next ride */
      neverNormal: z.boolean(),
      helped: share.nullable(),
      /** what the change is said to do for it: fix it, help, nothing; aimed: it would, if its cause were likelier */
      promise: z.enum(PROMISES).nullable(),
      instead: z.strictObject({ id: z.string(), do: z.string(), plain: z.string() }).nullable(),
      ask: z.string().nullable(),
    }),
  ),
  /** what the rider asked about doing, in the free text: whether it is what is advised, else why not, or its odds */
  asked: z
    .array(
      z.strictObject({
        phrase: z.string(),
        /** of the adjustment it comes to, and the setting that turns, in words */
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
