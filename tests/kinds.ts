/** Test files that are not like the others. All others share their worker's modules. */

/** What they look at is kept once a process: each has a worker of its own. */
export const ALONE: readonly string[] = ['tests/disk/synced.test.ts'];

/** The prompt library's testing kit replaces its terminal: these run on the sources, through the test runner. */
export const PROMPTS: readonly string[] = [
  'tests/console/question-prompt.test.ts',
  'tests/console/text-prompt.test.ts',
];

/**
 * What `npm run quick` leaves out: the files that cost most, as `support/cost-reporter.ts` tells them. A file that has
 * become dear belongs here, or is to be made cheaper.
 */
export const SLOW: readonly string[] = [
  'tests/bike/new-steps.test.ts',
  'tests/browser/pit-sheet.test.ts',
  'tests/casework/audit-rules.test.ts',
  'tests/casework/complaints.test.ts',
  'tests/casework/in-vain.test.ts',
  'tests/casework/put-back.test.ts',
  'tests/casework/told-twice.test.ts',
  'tests/casework/tried.test.ts',
  'tests/cli/bike.test.ts',
  'tests/cli/diagnose.test.ts',
  'tests/cli/interview.test.ts',
  'tests/cli/log.test.ts',
  'tests/cli/next.test.ts',
  'tests/cli/predict.test.ts',
  'tests/cli/rules-check.test.ts',
  'tests/cli/rules-learn.test.ts',
  'tests/cli/rules-simulate.test.ts',
  'tests/cli/trial.test.ts',
  'tests/diagnosis/engine.test.ts',
  'tests/disk/edit-in-place.test.ts',
  'tests/evaluation/calibration.test.ts',
  'tests/evaluation/felt.test.ts',
  'tests/evaluation/learn.test.ts',
  'tests/evaluation/sensitivity.test.ts',
  'tests/fuzz/fuzz.test.ts',
  'tests/logbook/killed.test.ts',
  'tests/logbook/sheet-writing.test.ts',
  'tests/logbook/together.test.ts',
  'tests/physics/extremes.test.ts',
  'tests/physics/machine.test.ts',
  'tests/physics/roads.test.ts',
  'tests/physics/signs.test.ts',
  'tests/process/epipe.test.ts',
  'tests/process/jobs.test.ts',
  'tests/process/leaving.test.ts',
  'tests/process/own-knob.test.ts',
  'tests/published/dynamics-one-mass.test.ts',
  'tests/published/dynamics-random-road.test.ts',
  'tests/published/dynamics-solver.test.ts',
  'tests/published/field-cases.test.ts',
  'tests/published/inference.test.ts',
  'tests/report/alarms.test.ts',
  'tests/report/one-number.test.ts',
  'tests/report/pit-sheet.test.ts',
  'tests/report/text.test.ts',
  'tests/report/wrap.test.ts',
  'tests/rulebase/base-pack.test.ts',
  'tests/rulebase/compile.test.ts',
  'tests/start/pack.test.ts',
  'tests/start/start.test.ts',
  'tests/story/a-bike.test.ts',
  'tests/story/failed-twice.test.ts',
  'tests/story/loud-rider.test.ts',
  'tests/story/next-leads-on.test.ts',
  'tests/trials/calibration.test.ts',
  'tests/words/content.test.ts',
  'tests/words/odd-text.test.ts',
  'tests/workspace/foreign.test.ts',
];
