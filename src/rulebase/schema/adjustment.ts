/** The form of an adjustment: one step, when it may come, and how to undo it. */
import * as z from 'zod';
import { taught } from '../../form/teach.ts';
import { OWN_UNITS } from '../../bike/own-setting.ts';
import { MINUTES, answersOf, ends, id, oneKnob, plainText, text, standing } from './parts.ts';

const move = z.union([text, z.strictObject({ toward: text, share: z.number().min(0).max(1) })]);

/** measure: reads a number, changes nothing. put-back: takes back what was tried and did not help. */
export const adjustmentKinds = [
  'click',
  'pressure',
  'preload',
  'spacer',
  'tyre',
  'cockpit',
  'repair',
  'habit',
  'rebuild',
  'measure',
  'put-back',
] as const;

const refusal = z
  .strictObject({
    answers: answersOf.optional().meta({ description: 'question → answers; each must have been given' }),
    causes: z
      .record(id, z.number().gt(0).max(1))
      .optional()
      .meta({ description: 'cause → probability that each must have at least' }),
    below: z
      .record(id, z.number().gt(0).max(1))
      .optional()
      .meta({ description: 'cause → probability that each must stay below' }),
    unless: answersOf.optional().meta({ description: 'question → answers; any one of them lifts it' }),
    at: z
      .enum(['front', 'rear'])
      .optional()
      .meta({ description: 'of a rule for both ends: holds at this end only' }),
    'until-tested': z.array(id).min(1).optional().meta({
      description:
        'the adjustments that it waits for: it ends once a trial found one of them no better and none is left that is worth one',
    }),
    'no-room': z.literal(true).optional().meta({
      description: 'what is turned has no room left: what comes next is named instead, as behind a stop',
    }),
    why: text.meta({ description: 'in words, after "refused, because"' }),
  })
  .refine((r) => r.answers !== undefined || r.causes !== undefined, { error: 'needs answers: or causes:' });

export const adjustment = z.strictObject({
  id,
  for: ends.optional(),
  do: text,
  plain: plainText,
  kind: z.enum(adjustmentKinds),
  change: z
    .strictObject({
      setting: id,
      by: z.number(),
      unit: z.enum(OWN_UNITS),
      most: z.number().positive().optional().meta({
        description:
          'a spring whose sag was measured is moved by the whole correction of the spring model instead of by:, but no more than this at once',
      }),
      'not-below': z.number().optional().meta({ description: 'never set lower than this' }),
    })
    .optional()
    .meta({ description: 'the step in numbers; + is more open, more pressure, more spacers, higher' }),
  minutes: taught(z.number().min(0).max(10_000), MINUTES),
  moves: z
    .record(id, move)
    .optional()
    .meta({ description: 'which setting it moves, toward which direction' }),
  fixes: z
    .record(id, z.number().min(0).max(1))
    .optional()
    .meta({ description: 'cause → share of it that is cured' }),
  needs: z
    .record(z.string(), z.union([text, z.array(text).min(1)]))
    .optional()
    .meta({
      description: 'what must be on the bike sheet, e.g. {spring: air}; ignored when nothing is written down',
    }),
  reads: id.optional().meta({ description: 'the question that a measurement answers; for kind: measure' }),
  after: z.enum(['worse', 'same', 'good']).optional().meta({
    description:
      'of kind: put-back, what the rider said that came of it; good: nothing, but a trial kept where it stood before; left out: worse or same',
  }),
  'measure-first': z
    .array(z.union([id, z.strictObject({ read: id, when: z.array(answersOf).min(1) })]))
    .min(1)
    .optional()
    .meta({
      description:
        'questions of a gauge; until each is answered or on the sheet, reading it comes first; when: only where all of one of these hold: question → answers, or bike. and a path of the sheet → values',
    }),
  'first-when-measured': z.array(id).min(1).optional().meta({
    description: 'once one of these gauges reads off, this comes before every click at its end',
  }),
  'first-when-answered': z
    .union([answersOf, z.array(answersOf).min(1)])
    .optional()
    .meta({
      description:
        'question → answers; where each was given, this comes before every change; a list: where all of one of them hold',
    }),
  'before-put-back': z.literal(true).optional().meta({
    description:
      'with first-when-answered: also before anything that was tried is put back, since it tells where that stood',
  }),
  proofs: z
    .strictObject({
      blocked: z
        .array(id)
        .min(1)
        .optional()
        .meta({ description: 'adjustments that cannot be done here: no knob, or at its stop' }),
      likely: z
        .number()
        .gt(0)
        .max(1)
        .optional()
        .meta({ description: 'probability that a cause it cures must have at least' }),
      answered: answersOf.optional().meta({ description: 'question → answers; each must have been given' }),
    })
    .optional()
    .meta({ description: 'it is never first unless all of these hold' }),
  'refuse-when': z
    .array(refusal)
    .min(1)
    .optional()
    .meta({ description: 'it is not advised at all where one of these holds' }),
  'way-back': taught(text, 'Say how to undo it.'),
  next: z.array(id).optional().meta({ description: 'the next rungs, when this cannot be done' }),
  'once-kept': text.optional().meta({
    description: 'what is checked once it stays: what to do, and behind a colon why',
  }),
  'knock-on': text.optional().meta({ description: 'what else it does, at both ends' }),
  'knock-on-with': z
    .record(id, text)
    .optional()
    .meta({ description: 'knob → what it does besides where the bike is not known to lack that knob' }),
  feel: taught(
    text.meta({ description: 'what to feel for on the trial run' }),
    'Say what to feel for on the trial run.',
  ),
  repeat: z
    .strictObject({
      until: text.meta({ description: 'what is felt or read when it is enough, after "until"' }),
      stop: text.meta({ description: 'what says that it is too much, after "when"' }),
      'by-gauge': z.boolean().default(false).meta({ description: 'until: is read, not felt' }),
      far: z
        .union([answersOf, z.array(answersOf).min(1)])
        .optional()
        .meta({
          description:
            'question → answers; where each was given, it stands far off, and one step is not enough; a list: where all of one of them hold',
        }),
    })
    .optional()
    .meta({ description: 'how a step goes on where no figure of the sheet ends it' }),
  'worded-when': z
    .array(
      z.strictObject({
        answers: z.union([answersOf, z.array(answersOf).min(1)]),
        do: text,
        plain: plainText,
        feel: text.optional(),
      }),
    )
    .min(1)
    .optional()
    .meta({ description: 'other words for the same step; the first whose answers were all given' }),
  'one-knob': oneKnob('do', 'plain', 'way-back', 'knock-on', 'feel'),
  cautions: z.array(id),
  'cautions-from': z.record(z.string(), z.number().positive()).optional().meta({
    description: 'caution → the least step, in the unit of change:, with which it is said',
  }),
  'cautions-when': z
    .record(z.string(), answersOf)
    .optional()
    .meta({ description: 'caution → question → answers; it is added where each was given' }),
  ...standing,
});

export type AdjustmentSource = z.infer<typeof adjustment>;
