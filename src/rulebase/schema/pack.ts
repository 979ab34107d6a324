/** The form of a pack: its numbers, and the sentences and figures that stand once for all its rules. */
import * as z from 'zod';
import { READS } from '../../bike/gauge/gauge.ts';
import { TODO } from '../../bike/check/sheet-check.ts';
import { REASONS } from '../reasons.ts';
import { numbers } from '../numbers-schema.ts';
import { id, source, text } from './parts.ts';

const least = z.number().min(0);

/** What counts as on target on a bike sheet. */
const near = z.strictObject({
  sag: least.meta({ description: 'percentage points of travel' }),
  tyre: least.meta({ description: 'percent of the target' }),
  pressure: least.meta({ description: "of an air spring, percent of the maker's figure" }),
  leverage: least.meta({ description: 'percent that leverage and travel may differ from the stroke' }),
  clicks: least.meta({ description: "of a knob, clicks from the maker's figure" }),
  'travel-left': least.meta({ description: 'percent of travel that is short when left over' }),
  'travel-end': least.meta({ description: 'percent of travel that is nothing left' }),
  spacers: least.meta({ description: 'volume spacers that fit in most air springs' }),
  'tyre-for': z
    .strictObject({
      low: z.number().gt(0).lt(100),
      high: z.number().gt(100),
      rows: z
        .array(
          z.strictObject({
            kg: z.number().positive(),
            front: z.number().positive(),
            rear: z.number().positive(),
          }),
        )
        .min(2)
        .refine((rows) => rows.every(({ kg }, i) => i === 0 || kg > rows[i - 1]!.kg), 'by rising weight'),
    })
    .optional()
    .meta({
      description:
        "usual tyre pressures in psi by the rider's weight in kg, with kit; far off below `low` and above `high`, in percent of them",
    }),
});

export type Near = Readonly<z.infer<typeof near>>;

/** Where no pack says so. */
export const NEAR: Near = {
  sag: 2,
  tyre: 5,
  pressure: 5,
  leverage: 5,
  clicks: 2,
  'travel-left': 25,
  'travel-end': 2,
  spacers: 5,
};

const lines = z.array(text);

export const packFile = z.strictObject({
  pack: id,
  version: text,
  about: text,
  'word-scale': z.strictObject({ source, percent: z.record(text, z.number().gt(0).lt(100)) }).optional(),
  numbers: numbers.partial().optional(),
  'left-alone': text.optional().meta({
    description:
      'said where the bike is left as it is: what would be a sign that something is off all the same',
  }),
  'off-target': text.optional().meta({
    description:
      'what becomes of a number that a gauge read off its target, where nothing that is felt speaks for a change',
  }),
  'against-test': text.optional().meta({
    description: 'what to check where a step for the likeliest cause was tested and was no better',
  }),
  'usual-note': text.optional().meta({
    description: 'said beside a figure that is only usual, where a number is asked for',
  }),
  figures: z
    .record(
      id.refine((name) => name !== 'end' && name !== 'other', 'end and other stand for the ends'),
      z.union([
        text,
        z
          .strictObject({ from: z.number(), to: z.number(), unit: z.enum(['%', 'psi', 'bar']) })
          .meta({ description: 'as numbers, so that what is measured can be held against it' }),
      ]),
    )
    .optional()
    .meta({
      description:
        'trade figures that stand in several texts, each written once: {name} in a text stands for it; a later pack replaces them one by one',
    }),
  'sheet-check': z
    .strictObject({
      near: near.partial().optional().meta({
        description:
          'how far a number may be off and still be on target; a later pack replaces them one by one',
      }),
      todo: z
        .partialRecord(z.enum(TODO), text)
        .optional()
        .meta({ description: 'what to do about a number that is missing or cannot be right' }),
    })
    .optional()
    .meta({ description: 'what a bike sheet is checked for, and told' }),
  'sheet-asks': z
    .record(z.string(), z.strictObject({ ask: text, help: text.optional() }))
    .optional()
    .meta({
      description:
        'how a new bike sheet is asked for, by the end of a place on it: spring.pressure; {end}, {side} and {name} for what it is about',
    }),
  reasons: z.partialRecord(z.enum(REASONS), text).optional().meta({
    description:
      'why a step goes no further, waits or is passed over; each the middle of a sentence, {name} for what the bike has',
  }),
  'only-thought': lines.optional().meta({
    description: 'words in a row with which somebody speaks of what he might do and has not done',
  }),
  'number-examples': z
    .partialRecord(z.enum(READS), z.strictObject({ front: lines, rear: lines }))
    .optional()
    .meta({ description: 'how a number that a gauge reads may be written, at either end' }),
  'ride-rules': z
    .strictObject({ first: lines, helped: lines, alone: lines, last: lines, brief: lines })
    .optional()
    .meta({
      description:
        'how a trial is ridden: for all, then where somebody else sets the adjuster or the rider is alone, then the rest; in brief for a screen',
    }),
  feelings: z
    .array(z.strictObject({ id, ask: text, low: text, high: text }))
    .min(1)
    .optional()
    .meta({
      description:
        'what is rated after every run of a trial; 1 is the low end, 7 the high one; {complaint} stands for the words that the change is for',
    }),
});

export type PackFile = z.infer<typeof packFile>;
export type RideRules = NonNullable<PackFile['ride-rules']>;
