/** Pieces that the forms of the rules share. */
import * as z from 'zod';
import { taught } from '../../form/teach.ts';

export const text = z.string().trim().min(1);

/** Whether nothing is found under that name before a rule puts something there: every object has a `constructor`. */
const isFree = (name: string): boolean => !(name in {});
const TAKEN = { error: 'the program keeps that name for itself; choose another' };

export const id = z
  .string()
  .regex(/^[a-z0-9{}]+([.-][a-z0-9{}]+)*(@(\{end\}|\{other\}|front|rear|either))?$/, {
    error: 'an id is lower-case words joined by - or . , for example lone-hit.kick',
  })
  .refine(isFree, TAKEN);

export const answerId = z.string().refine(isFree, TAKEN);

export const plainText = taught(text, 'Write it again in words a rider without a workshop understands.');

export const ends = taught(
  z.array(z.enum(['front', 'rear'])).min(1),
  'Write for: [front, rear], or one of them; leave it out where it has no end.',
);

export const frequency = text.meta({
  description: 'a frequency word of the pack, such as rarely, sometimes, often, usually',
});

export const source = z
  .union([
    z.enum(['common-practice', 'from-memory']),
    z.strictObject({ title: text, year: z.int().optional(), page: text.optional(), url: z.url().optional() }),
  ])
  .default('common-practice')
  .meta({
    description:
      'where the rule comes from, when it is more than common practice: from-memory, or {title, year, page, url}',
  });

const status = z.enum(['draft', 'trial', 'disputed', 'settled', 'retired']).default('trial').meta({
  description:
    'when it is not trial (in use, watched): draft: not yet tried; disputed: those who know disagree; settled: agreed; retired: replaced by its heir',
});

export const standing = { source, status, heir: id.optional(), since: text.optional() };

/** The same in other words, for an end whose only rebound knob acts on both circuits. */
export const oneKnob = <T extends string>(...keys: readonly T[]) =>
  z
    .strictObject(
      Object.fromEntries(keys.map((key) => [key, text.optional()])) as Record<T, z.ZodOptional<typeof text>>,
    )
    .optional()
    .meta({ description: 'these texts where the end has one rebound knob, which acts on both circuits' });

export const gate = z.record(id, z.union([text, z.array(text).min(1)]));

export const answersOf = z.record(id, z.union([text, z.array(text).min(1)]));

export const MINUTES = 'Say what it costs, in minutes: 0.3 to recall, 5 in the stand, 10 for a run.';

export type Source = z.infer<typeof source>;
