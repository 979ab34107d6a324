/** The form of a setting: what can be wrong, each way, and what is turned for it. */
import * as z from 'zod';
import { READINGS, type Reading } from '../../bike/circuits.ts';
import { OWN_UNITS } from '../../bike/own-setting.ts';
import { kinds } from '../numbers-schema.ts';
import { ends, frequency, id, oneKnob, text, standing } from './parts.ts';

const direction = z.strictObject({
  name: text.meta({ description: 'what a mechanic calls it' }),
  plain: text.meta({ description: 'what a rider alone is told' }),
  prior: frequency.meta({ description: 'how common this is, before anything is asked; a relative weight' }),
  'one-knob': oneKnob('name', 'plain'),
  pair: z.strictObject({ name: text, plain: text }).optional().meta({
    description:
      'words for this and the same direction of the partner together, where this one is the likelier',
  }),
  'while-likely': z
    .union([id, z.strictObject({ front: id.optional(), rear: id.optional() })])
    .optional()
    .meta({
      description:
        'the caution that stands on every card while this is likely, whatever comes first; one for both ends, or one an end',
    }),
  reads: z.enum(['low', 'high']).optional().meta({
    description: 'which side of its target the bike sheet number is on when this is the cause',
  }),
});

const adjuster = z
  .union([
    text.meta({ description: 'a knob of the damper, e.g. rebound.low' }),
    z.strictObject({
      unit: z.enum(OWN_UNITS).optional().meta({
        description: 'what it is counted in; clicks where nothing is said, positions with positions:',
      }),
      positions: z
        .array(z.string().regex(/^[a-z][a-z0-9-]*$/))
        .min(2)
        .optional()
        .meta({ description: 'where a switch can stand, from closed (or lowest) to open (or highest)' }),
      range: z
        .tuple([z.number(), z.number()])
        .optional()
        .meta({ description: 'what no bike goes beyond, in its unit; of clicks: the fewest and the most' }),
      grain: z.number().positive().optional().meta({ description: 'the smallest step that can be set' }),
      stale: z
        .array(z.enum(Object.keys(READINGS) as Reading[]))
        .optional()
        .meta({ description: 'readings of the bike sheet that are no longer true once it is moved' }),
      find: text.optional().meta({ description: 'how to find out where it stands' }),
    }),
  ])
  .optional()
  .meta({ description: 'what is turned: a knob of the damper, or a new row of the bike sheet' });

export const setting = z.strictObject({
  id,
  for: ends.optional(),
  name: text,
  plain: text,
  kind: kinds,
  sheet: z
    .enum(['clicks', 'sag', 'tyre'])
    .optional()
    .meta({ description: 'which number of the bike sheet speaks about this setting' }),
  adjuster,
  where: z
    .union([text, z.strictObject({ front: text, rear: text })])
    .optional()
    .meta({
      description: 'for a rider: where it usually is, in a sentence; one for both ends, or one an end',
    }),
  'one-knob': oneKnob('name', 'plain'),
  partner: id
    .optional()
    .meta({ description: 'the other adjuster of the same pair, which it also moves a little' }),
  'put-back-with': id.optional().meta({
    description: 'the setting that is put back in the same go, where a change of both made it worse',
  }),
  called: z
    .array(z.string().regex(/^[a-z][a-z-]*$/))
    .min(1)
    .optional()
    .meta({ description: 'other names it goes by under tried:, without the end, e.g. [pressure]' }),
  ways: z
    .record(z.string(), z.array(z.string().regex(/^[a-z][a-z -]*$/)).min(1))
    .optional()
    .meta({
      description:
        'what riders call turning it, under the direction that this takes away, e.g. too-slow: [open, faster]',
    }),
  springs: z
    .array(z.enum(['air', 'coil']))
    .min(1)
    .optional()
    .meta({ description: 'a part of the suspension, and of ends with these springs only, e.g. [air]' }),
  directions: z.record(z.string(), direction),
  ...standing,
});

export type SettingSource = z.infer<typeof setting>;
