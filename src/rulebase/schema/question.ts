/** The form of a question, with what each answer points to. */
import * as z from 'zod';
import { taught } from '../../form/teach.ts';
import { READS } from '../../bike/gauge/gauge.ts';
import { MINUTES, answerId, ends, frequency, gate, id, oneKnob, plainText, text, standing } from './parts.ts';

export const question = z.strictObject({
  id,
  for: ends.optional(),
  ask: text,
  plain: plainText,
  help: taught(text, 'Write a sentence or two on how the rider can find out.'),
  'one-knob': oneKnob('ask', 'plain', 'help'),
  how: taught(z.enum(['recall', 'stand', 'ride']), 'Say how it is answered: how: recall, stand or ride.'),
  minutes: taught(z.number().min(0).max(120), MINUTES),
  'only-if': gate
    .optional()
    .meta({ description: 'ask only after one of these answers, or with this on the bike' }),
  'void-after': gate.optional().meta({
    description:
      'no longer counted, nor asked, once any of these was answered: what it read is then known to be wrong',
  }),
  topic: taught(id, 'Name the impression it is answered from; questions of one topic share their trust.'),
  safety: z.boolean().optional().meta({ description: 'asked first and never skipped' }),
  dangerous: z
    .record(z.string(), z.union([id, z.strictObject({ caution: id, with: gate })]))
    .optional()
    .meta({
      description:
        'answers that stop all tuning, each with the caution that says what to do; with: only beside one of these answers to another question',
    }),
  'harmless-when': z.record(z.string(), gate).optional().meta({
    description:
      'dangerous answer → the answers to another question, any one of which says that what was found is no danger after all',
  }),
  cautions: z
    .record(z.string(), id)
    .optional()
    .meta({ description: 'answer → the caution that is shown with it, whatever else is advised' }),
  'never-normal': z.array(text).min(1).optional().meta({
    description:
      'answers that no sound bike gives: nothing is left alone, or watched for, while one of them stands',
  }),
  tells: z
    .record(
      z.string(),
      z.strictObject({ spring: z.enum(['air', 'coil']).optional(), preload: z.literal('beyond').optional() }),
    )
    .optional()
    .meta({
      description:
        'answer → what it says of its end on a bike without a sheet: the kind of spring, or preload past what the maker allows',
    }),
  'asks-tried': z.array(z.string()).optional().meta({
    description:
      'after one of these answers an interview asks what was changed, which way, how far and what it did',
  }),
  'told-change': z.record(id, z.array(text).min(1)).optional().meta({
    description:
      'answer → the settings, of every end, of which it is the answer where own words tell that one was turned and not what came of it',
  }),
  'early-when': gate.optional().meta({
    description:
      'asked before all but the safety questions once any of these was answered; tried. and a setting: what turning it did, such as same',
  }),
  'by-mass': z
    .record(
      z.string(),
      z.strictObject({ below: z.number().positive().optional(), above: z.number().positive().optional() }),
    )
    .optional()
    .meta({
      description:
        "answer → the rider's mass with kit, kg, below or above which it goes without asking once the mass was told",
    }),
  circumstance: z.literal(true).optional().meta({
    description: 'what was there before or beside it: told, it is no complaint that a change could be for',
  }),
  measures: id.optional().meta({ description: 'the setting whose number this check reads' }),
  'on-sheet': id.optional().meta({
    description:
      "the setting or reading that it asks about, roughly: told beside it where the sheet has the number, and not asked where it has the maker's figure too",
  }),
  gauge: z
    .strictObject({
      reads: z.enum(READS),
      answers: z
        .strictObject({ below: text, near: text, above: text })
        .meta({ description: 'the answer that a number below, on and above target is' }),
      called: z.array(text).min(1).optional().meta({
        description:
          'what riders call the number, lower case: a share that is told beside it is offered as read',
      }),
      against: z.record(id, text).meta({
        description:
          "what a number is held against, the first that is known: sheet (the sheet's own figure), weight (usual for the rider's weight), or a figure of the pack; each with how far off is still on target: near, 2 psi, or 25 %",
      }),
    })
    .optional()
    .meta({ description: 'a number may be typed in the place of an answer' }),
  answers: z.record(answerId, text),
  default: taught(text, 'Name the answer given when no sign is noticed, e.g. default: no.'),
  'when-several': taught(
    text,
    'Say what is answered when several signs are noticed: cancel, any, or an answer id.',
  ),
  several: z.boolean().optional().meta({
    description: 'several answers may be given, as a list; only with when-several: any',
  }),
  implies: z.record(z.string(), z.record(id, text)).optional().meta({
    description: 'answer → question → answer that goes without saying: opens and shuts gates, is no evidence',
  }),
  usually: z.record(z.string(), frequency).optional(),
  'points-to': z.record(z.string(), z.record(id, frequency)),
  assignment: text
    .optional()
    .meta({ description: 'what to go and ride or check when the rider cannot tell' }),
  'confusable-with': z
    .array(z.strictObject({ id, tell: text }))
    .min(1)
    .meta({ description: 'which question or cause this is mistaken for, and how to tell them apart' }),
  physics: z
    .strictObject({
      scenario: text,
      metric: text,
      sign: z.enum(['up', 'down']),
      answer: text
        .optional()
        .meta({ description: 'the sign whose causes are audited; default: the only one' }),
      disagree: z
        .record(id, text)
        .optional()
        .meta({ description: 'causes the model disagrees on, with the reason' }),
    })
    .optional(),
  ...standing,
});

export type QuestionSource = z.infer<typeof question>;
