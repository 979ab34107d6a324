/** The form of a trial file, read strictly: every mistake of a hand-edited file at once. Imported only on demand. */
import * as z from 'zod';
import { OWN_UNITS } from '../bike/own-setting.ts';
import { checkBegun, checkRun } from './record.ts';
import { checked, laterFormat } from '../form/checked.ts';
import type { PathProblem } from '../form/problem.ts';
import type { EarlierTrial, Trial, TrialProblem } from './trial.ts';

const TRIAL_FORMAT = 1;

const text = z.string().trim().min(1);
const arm = z.strictObject({ name: z.enum(['reference', 'plus', 'minus', 'sham']), set: z.number() });

const share = z.number().min(0).max(1);
const normal = z.tuple([z.number(), z.number().positive()]);

const ridden = z.array(
  z.strictObject({
    arm: arm.shape.name,
    ratings: z.record(z.string(), z.number()),
    seconds: z.number().optional(),
    at: text.optional(),
    note: text.optional(),
  }),
);

const trialFile = z.strictObject({
  trial: z.literal(TRIAL_FORMAT),
  id: text,
  bike: text.optional(),
  case: text.optional(),
  change: z.strictObject({
    setting: text,
    words: text.optional(),
    from: z.number(),
    to: z.number(),
    unit: z.enum(OWN_UNITS),
    names: z.array(text).optional(),
    min: z.number().optional(),
    max: z.number().optional(),
    grain: z.number().positive(),
  }),
  arms: z.union([
    z.tuple([arm.extend({ name: z.literal('reference') }), arm]),
    z.tuple([arm.extend({ name: z.literal('reference') }), arm, arm]),
  ]),
  chances: z.strictObject({ helps: share, harms: share }).optional(),
  expected: z
    .strictObject({
      points: z.strictObject({ helped: normal, nothing: normal, harmed: normal }),
      misled: share,
      open: normal,
    })
    .optional(),
  byGauge: z.literal(true).optional(),
  hidden: z.boolean().optional(),
  short: z.literal(true).optional(),
  feelings: z.array(z.strictObject({ id: text, ask: text, low: text, high: text })).min(1),
  feel: text.optional(),
  cautions: z.array(text),
  notes: z.array(text),
  before: z
    .array(
      z.strictObject({
        id: text,
        hidden: z.boolean().optional(),
        short: z.literal(true).optional(),
        ridden,
      }),
    )
    .min(1)
    .optional(),
  ridden,
  begun: z
    .strictObject({
      hidden: z.boolean().optional(),
      arm: arm.shape.name.optional(),
      ratings: z.record(z.string(), z.number()),
      seconds: z.number().optional(),
      note: text.optional(),
    })
    .optional(),
  verdict: text.optional(),
});

export interface ReadTrial {
  /** absent when any error was found */
  readonly value?: Trial;
  readonly problems: readonly PathProblem[];
}

/** A trial from plain data, as YAML or JSON gives it. A `Trial` itself is what is written. */
export function readTrial(raw: unknown): ReadTrial {
  const later = laterFormat(raw, 'trial', TRIAL_FORMAT, 'This trial');
  if (later.length > 0) return { problems: later };
  const { good, sound, problems } = checked(raw, trialFile, 'A trial');
  const trial = sound as Trial | undefined;
  // Runs are checked against the trial they are part of: not where that is not sound.
  if (trial === undefined || !good) return { problems };
  const found = [
    ...(trial.short === true && trial.arms.length > 2 ? [SHORT_OF_TWO] : []),
    ...(trial.before !== undefined && trial.arms.length > 2 ? [BEFORE_TWO] : []),
    ...(trial.before ?? []).flatMap((one, i) =>
      ratingsOf(trial, one).map((p) => below(p, 'before', i, 'ridden')),
    ),
    ...trial.ridden.flatMap((run, i) => checkRun(trial, run).map((one) => below(one, 'ridden', i))),
    ...(trial.begun === undefined ? [] : checkBegun(trial, trial.begun)).map((one) => below(one, 'begun')),
  ];
  return found.length > 0 ? { problems: found } : { value: trial, problems };
}

const SHORT_OF_TWO: PathProblem = {
  path: ['short'],
  severity: 'error',
  message: 'A short trial has the reference and one step; this one has two.',
  remedy: 'Take short out, or the second step of arms.',
};

const BEFORE_TWO: PathProblem = {
  path: ['before'],
  severity: 'error',
  message: 'Earlier trials count where one step is ridden; this one has two.',
  remedy: 'Take before out, or the second step of arms.',
};

/** Its feelings were its own; its settings and its marks are those of any trial of this step. */
function ratingsOf(trial: Trial, { ridden: runs }: EarlierTrial): TrialProblem[] {
  return runs.flatMap((run) => {
    const feelings = Object.keys(run.ratings).map((id) => ({ id, ask: id, low: '', high: '' }));
    return checkRun({ ...trial, feelings }, run);
  });
}

function below({ at, message, remedy }: TrialProblem, ...path: PathProblem['path']): PathProblem {
  const dot = at.indexOf('.');
  const steps = dot < 0 ? [at] : [at.slice(0, dot), at.slice(dot + 1)];
  return { path: [...path, ...steps], severity: 'error', message, remedy };
}
