/** The forms of what a rider's own words are read by. */
import * as z from 'zod';
import { answersOf, ends, id, plainText, source, text } from './parts.ts';

export const concept = z.strictObject({
  id,
  words: z
    .array(text)
    .min(1)
    .meta({ description: 'ways of saying one thing; phrases hold them as <id>, words keep their order' }),
  where: z
    .boolean()
    .optional()
    .meta({ description: 'true: it says where or when, and may stand in an earlier part of the sentence' }),
  same: z
    .boolean()
    .optional()
    .meta({ description: 'true: its words, single ones, stand for each other in every phrase' }),
  masks: z
    .boolean()
    .optional()
    .meta({ description: 'true: its words say no place: "low-speed knob" is not "at low speed"' }),
  well: z
    .boolean()
    .optional()
    .meta({ description: 'true: it says that all is well: what was so before it is over' }),
  'not-about': z.array(id).optional().meta({
    description:
      'questions without their end: it speaks of something else, and what stands in the same statement answers none of them, as "the brake lever is slow to come back" tells no rebound',
  }),
  tells: z
    .strictObject({
      setting: text.optional(),
      way: z.enum(['more', 'less', 'open', 'close']).optional(),
      unit: text.optional(),
      result: z.enum(['better', 'same', 'worse', 'not-sure']).optional(),
      'put-back': z.literal('yes').optional(),
      implied: z.literal(true).optional().meta({
        description:
          'the setting is meant only where no other is named: clicks faster are of the rebound; the way only where no word of doing tells one, and its words stand side by side: two clicks in',
      }),
      'counted-in': text.optional().meta({
        description: 'what the setting is counted in where no number was said: air is psi, and no turns',
      }),
      filled: z.literal(true).optional().meta({
        description: 'the setting is filled and let out, not turned: 5 psi out is less',
      }),
      for: z.array(id).optional().meta({
        description:
          'questions without their end: what came of a change beside it, better or worse, is said of these',
      }),
    })
    .optional()
    .meta({
      description: 'what it says of a change that was tried: of which setting, which way, what came of it',
    }),
});

export const endName = z.strictObject({
  id: z.enum(['front', 'rear']),
  names: z.array(text).min(1).meta({ description: 'words that are just another name of the end' }),
  parts: z
    .array(text)
    .optional()
    .meta({ description: 'words that tell the end but stay words of their own, as nose in "nose low"' }),
  hints: z
    .array(text)
    .optional()
    .meta({ description: 'words that tell the end only where nothing else does' }),
});

const span = z.strictObject({ from: z.number().optional(), to: z.number().optional() });

export const words = z.strictObject({
  id,
  says: z.array(text).min(1),
  number: span.extend({ of: z.boolean().optional() }).optional().meta({
    description:
      'holds only where the number said lies there; of: true takes the first number in percent of the second',
  }),
  weak: z.enum(['question', 'most', 'all']).optional().meta({
    description:
      'too little by itself: offered only where nothing else that was said answers its question (question), where nothing else is offered at all (all), or there and where its words are much of what was said (most)',
  }),
  across: z.boolean().optional().meta({
    description:
      'its words stand in this order anywhere in one sentence, across commas: "first lap fine, then harsh"',
  }),
  unless: z
    .array(id)
    .optional()
    .meta({ description: 'concepts; where one of them stands in the same statement it is not meant' }),
  ambiguous: z.boolean().optional(),
  means: z.array(text).optional().meta({ description: 'what it can mean, when it can mean opposite things' }),
  separates: z.array(id).optional().meta({ description: 'the questions that tell the meanings apart' }),
  'could-be': z
    .array(z.strictObject({ question: id, answer: text }))
    .optional()
    .meta({ description: 'answers to offer for confirmation; {end} takes the end that was named' }),
  source,
});

export const heard = z.strictObject({
  id: id.meta({ description: 'a question without its end' }),
  right: z
    .number()
    .int()
    .min(0)
    .meta({ description: "readings of riders' words that were right or plausible" }),
  wrong: z.number().int().min(0),
});

export const sentence = z.strictObject({
  id,
  for: ends.optional(),
  says: z
    .record(z.string(), text)
    .meta({ description: 'answer → what it says, as one sentence to be confirmed' }),
});

export const glossary = z.strictObject({
  term: text,
  means: text,
  see: z.array(text).optional(),
  /** phrases in which the word means something else, and is not explained so */
  'not-in': z.array(text).optional(),
});

export const opening = z.strictObject({
  id,
  say: text,
  plain: plainText,
  topics: z.array(id).min(1).meta({ description: 'the topics to ask about first' }),
  answers: z.record(id, text).optional().meta({ description: 'questions that choosing this answers' }),
  signs: answersOf.optional().meta({
    description:
      'by which it is told in own words: question, without its end → the answer, or several, or any sign',
  }),
});
