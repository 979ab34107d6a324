/** Test files that are not like the others. All others share their worker's modules. */

/** What they look at is kept once a process: each has a worker of its own. */
export const ALONE: readonly string[] = ['tests/disk/synced.test.ts'];

/** The prompt library's testing kit replaces its terminal: these run on the sources, through the test runner. */
export const PROMPTS: readonly string[] = [
  'tests/console/question-prompt.test.ts',
  'tests/console/text-prompt.test.ts',
];
