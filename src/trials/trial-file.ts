/** The form of a trial file, read strictly: every mistake of a hand-edited file at once. Imported only on demand. */
import * as z from 'zod';
import { checkBegun, checkRun } from './record.ts';
import type { Checked, Trial, TrialProblem } from './trial.ts';

const text = z.string().trim().min(1);
const arm = z.strictObject({ name: z.enum(['reference', 'plus', 'minus', 'sham']), set: z.number() });

const share = z.number().min(0).max(1);
const normal = z.tuple([z.number(), z.number().positive()]);

const trialFile = z.strictObject({
  trial: z.literal(1),
  id: text,
  bike: text.optional(),
  case: text.optional(),
  change: z.strictObject({
    setting: text,
    words: text.optional(),
    from: z.number(),
    to: z.number(),
    unit: text,
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
  hidden: z.boolean().optional(),
  short: z.literal(true).optional(),
  feelings: z.array(z.strictObject({ id: text, ask: text, low: text, high: text })).min(1),
  feel: text.optional(),
  cautions: z.array(text),
  notes: z.array(text),
  ridden: z.array(
    z.strictObject({
      arm: arm.shape.name,
      ratings: z.record(z.string(), z.number()),
      seconds: z.number().optional(),
      at: text.optional(),
      note: text.optional(),
    }),
  ),
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

/** A trial from plain data, as YAML or JSON gives it. A `Trial` itself is what is written. */
export function readTrial(raw: unknown): Checked<Trial> {
  const parsed = trialFile.safeParse(raw);
  if (!parsed.success) return { ok: false, problems: parsed.error.issues.map(problemOf) };
  const trial = parsed.data as Trial;
  const begun = (trial.begun === undefined ? [] : checkBegun(trial, trial.begun)).map((problem) => ({
    ...problem,
    at: `begun.${problem.at}`,
  }));
  const ridden = trial.ridden.flatMap((run, i) =>
    checkRun(trial, run).map((problem) => ({ ...problem, at: `ridden.${i}.${problem.at}` })),
  );
  const problems = [...ridden, ...begun];
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: trial };
}

function problemOf(issue: z.core.$ZodIssue): TrialProblem {
  const at = issue.path.join('.');
  const newer = at === 'trial';
  return {
    code: newer ? 'format' : 'shape',
    at: at === '' ? 'trial file' : at,
    message: newer ? 'This is not a trial file of format 1.' : `${issue.message}.`,
    remedy: newer
      ? 'Use the version of earshot that wrote it, or plan the trial again.'
      : 'Fix this line; a newly planned trial shows the form.',
  };
}
