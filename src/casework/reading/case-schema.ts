/** The file form of a case: one interview's answers, as saved in a file or fed in by a script. What it means: `case-of.ts`. */
import * as z from 'zod';
import { saidSchemaWith } from '../../bike/form/said-schema.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { taught } from '../../form/teach.ts';
import { CASE_FORMAT, LEAST_ERROR, MOST_POINTS, OUTCOMES, PUT_BACK, SURE, TRIED_RESULTS } from '../case.ts';

const one = z.string().meta({ description: 'an answer id of the question, or cannot-tell, or not-now' });
const several = z
  .array(z.string())
  .min(1)
  .meta({ description: 'several answers, of a question that takes several' });
const figure = z.union([z.string(), z.number()]);
const answer = taught(
  z.union([
    one,
    several,
    z.strictObject({
      answer: z.union([one, several]),
      sure: z.enum(SURE).nullish(),
    }),
    z.strictObject({
      measured: figure.meta({
        description: 'instead of an answer, of a question that takes a number: 43 %, 26/60 mm, 2.4 bar',
      }),
      target: figure.nullish().meta({
        description: 'what it should be: 30 %, or 28 to 32 %; the usual figure where it is left out',
      }),
      at: figure.nullish().meta({
        description:
          'of a sag: the pressure in the air spring when it was read, or the rate of the coil: 80 psi, 450 lb/in',
      }),
      sure: z.enum(SURE).nullish(),
    }),
  ]),
  'Write the id of an answer, between quotes, or {answer: ..., sure: sure | fairly | guess}; what was measured as {measured: 12 %}.',
);
const answers = taught(
  z.record(
    z.string().meta({
      description: 'question id, with @front or @rear where it has ends, @either where the end is not known',
    }),
    answer,
  ),
  'Write each as question-id: answer.',
);

const BOTH = 'Give points and error as a judged trial does, or leave both out.';
const label = z.union([z.string(), z.number()]).nullish();
const result = taught(
  z.strictObject({
    change: taught(
      z.string().meta({ description: 'front.rebound.low+2, or an adjustment id' }),
      'Write it like front.rebound.low+2, or give an adjustment id.',
    ),
    outcome: z.enum(OUTCOMES),
    kept: taught(z.boolean().nullish(), 'Leave it out: better is kept, the rest is taken back.'),
    points: taught(
      z
        .number()
        .min(-MOST_POINTS)
        .max(MOST_POINTS)
        .nullish()
        .meta({ description: 'better than the reference by so many points, 1 to 7' }),
      BOTH,
    ),
    error: taught(
      z.number().min(LEAST_ERROR).max(100).nullish().meta({ description: 'standard deviation of points' }),
      BOTH,
    ),
    'changed-after': taught(
      z.boolean().nullish().meta({ description: 'something else was changed for good after it was ridden' }),
      'Leave it out where the bike still stands as it was ridden.',
    ),
    trial: label,
    date: label,
  }),
  'Write {change: front.rebound.low+2, outcome: better}.',
);

const TRIED = 'Write - {setting: compression.low, end: front, direction: open, result: worse, put-back: no}.';
const way = z.string().meta({ description: 'open, more, up; close, less, down' });
const tried = taught(
  z.strictObject({
    change: z.string().nullish().meta({ description: 'front.rebound.low+2, or an adjustment id' }),
    setting: z.string().nullish().meta({ description: 'instead of change: with its end, or beside end' }),
    end: z.string().nullish().meta({ description: 'front, rear, both or either' }),
    direction: taught(z.union([way, z.array(way)]).nullish(), 'Write open or close, more or less.'),
    by: taught(
      z.number().positive().nullish().meta({ description: 'how far; left out when not known' }),
      'Say the way with direction; leave by out when it is not known.',
    ),
    unit: z.string().nullish(),
    result: z.enum(TRIED_RESULTS),
    for: taught(
      z
        .union([z.string(), z.array(z.string())])
        .nullish()
        .meta({
          description:
            'the questions or topics the result speaks of, such as hands; all of the bike where it is left out',
        }),
      'Write the question whose sign got better or worse, such as for: hands.',
    ),
    // YAML 1.1 habits: yes and no may have been read as true and false.
    'put-back': z.union([z.enum(PUT_BACK), z.boolean()]).nullish(),
  }),
  TRIED,
);

const round = {
  changed: taught(
    z.boolean().nullish().meta({
      description: 'something was changed for good, and in no trial, between the round before and this one',
    }),
    'Leave it out where nothing else was changed since the round before.',
  ),
  tried: taught(
    z.array(tried).nullish().meta({ description: 'what was changed before the interview, and what it did' }),
    TRIED,
  ),
  answers: answers.nullish(),
  results: taught(z.array(result).nullish(), 'Write - {change: front.rebound.low+2, outcome: better}.'),
};
const roundForm = taught(z.strictObject(round), 'Write - answers: ... results: ...');

/** @param own the settings that packs in use add to what a bike can have */
export function caseSchemaWith(own: readonly OwnSetting[]) {
  return taught(
    z.strictObject({
      case: taught(
        z.literal(CASE_FORMAT).meta({ description: 'the number of this format' }),
        `Write case: ${CASE_FORMAT} (the format's number) on the first line.`,
      ),
      id: taught(z.union([z.string(), z.number()]).nullish(), 'Write id: with a short name.'),
      bike: taught(
        z
          .union([z.string(), z.record(z.string(), z.unknown())])
          .nullish()
          .meta({ description: 'a bike sheet: a file name beside the case, or inline' }),
        'Write bike: park-bike.yaml.',
      ),
      has: saidSchemaWith(own).nullish().meta({
        description: 'what a bike without a sheet has: kind, and the springs, knobs and levers of each end',
      }),
      said: taught(z.string().nullish(), 'Put the words between quotes.'),
      note: z.unknown().optional(),
      ...round,
      earlier: taught(z.array(roundForm).nullish(), 'Write each round as - answers: ... results: ...'),
      interview: taught(
        z
          .strictObject({
            about: z.array(z.string()).nullish(),
            'not-meant': z.record(z.string(), z.array(z.string())).nullish().meta({
              description: 'readings of `said` that were declined: question → answers',
            }),
            hearing: z
              .boolean()
              .nullish()
              .meta({ description: 'left before all of `said` was gone through' }),
            'keep-asking': z.boolean().nullish(),
            finished: z.boolean().nullish(),
            for: z.enum(['rider', 'mechanic']).nullish(),
            begun: z.iso
              .datetime({ offset: true, error: 'expected a time such as 2026-05-01T14:03:00Z' })
              .nullish(),
          })
          .nullish()
          .meta({ description: 'what an interview needs to go on where it stood; counts for nothing' }),
        'Leave it out, or write {about: [topic], keep-asking: true}.',
      ),
    }),
    'Write case: 1, id: and answers: as in the examples.',
  );
}

export const caseSchema = caseSchemaWith([]);
export type CaseFile = z.infer<typeof caseSchema>;
export type RoundFile = z.infer<typeof roundForm>;
