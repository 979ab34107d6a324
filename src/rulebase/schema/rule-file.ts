/** The form of a rule file, as a mechanic writes it. The JSON Schema for editors is made from this. */
import * as z from 'zod';
import { ends, id, text, standing } from './parts.ts';
import { setting } from './setting.ts';
import { question } from './question.ts';
import { adjustment } from './adjustment.ts';
import { concept, endName, glossary, heard, opening, sentence, words } from './words.ts';

const answered = z.record(
  z.string(),
  z.union([text, z.strictObject({ answer: text, sure: z.enum(['sure', 'fairly', 'guess']).optional() })]),
);

/** A check that stands beside the rules. */
const check = z.strictObject({
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

const caution = z.strictObject({
  id,
  for: ends.optional(),
  level: z.enum(['note', 'care', 'stop']),
  text,
  'text-at': z.strictObject({ front: text, rear: text }).optional().meta({
    description: 'other words where all that was told is of one end: what is looked at there',
  }),
  show: z.enum(['always', 'with', 'alone']).meta({
    description:
      'always: on every result; with: when an adjustment or answer asks; alone: the same, and nothing else that asks for a caution has one as serious',
  }),
  ...standing,
});

export const ruleFile = z.strictObject({
  settings: z.array(setting).optional(),
  questions: z.array(question).optional(),
  adjustments: z.array(adjustment).optional(),
  cautions: z.array(caution).optional(),
  concepts: z.array(concept).optional(),
  'end-names': z.array(endName).optional(),
  words: z.array(words).optional(),
  heard: z.array(heard).optional().meta({
    description:
      'how readings of a question were judged, of lines that nobody had read when the phrases were written',
  }),
  sentences: z.array(sentence).optional(),
  glossary: z.array(glossary).optional(),
  openings: z.array(opening).optional(),
  checks: z.array(check).optional(),
});

export type RuleFile = z.infer<typeof ruleFile>;
