/** Every command by the words that lead to it, in the order of the help. A file is loaded only when its command is asked for. */
import type { AnyCommand } from './takes.ts';

/** What stands before the commands of a group. */
export const GROUPS: Readonly<Record<string, string>> = {
  bike: 'the bike sheet: make one, show it, check it, find starting points',
  log: 'what was done to a bike, and how to undo it',
  trial: 'a fair test of one change: plan it, ride it, judge it',
  rules: 'look at, check and try the rules',
};

/** What a group does where none of its commands is named. */
export const DEFAULTS: ReadonlySet<string> = new Set(['log history']);

export const COMMANDS: Readonly<Record<string, () => Promise<AnyCommand>>> = {
  diagnose: async () => (await import('./commands/diagnose.ts')).diagnoseCommand,
  explain: async () => (await import('./commands/explain.ts')).explainCommand,
  interview: async () => (await import('./commands/interview.ts')).interviewCommand,
  report: async () => (await import('./commands/report.ts')).reportCommand,
  words: async () => (await import('./commands/words.ts')).wordsCommand,
  'bike new': async () => (await import('./commands/bike/new.ts')).bikeNewCommand,
  'bike show': async () => (await import('./commands/bike/show.ts')).bikeShow,
  'bike check': async () => (await import('./commands/bike/check.ts')).bikeCheck,
  'bike set': async () => (await import('./commands/bike/set.ts')).bikeSet,
  'bike start': async () => (await import('./commands/bike/start.ts')).bikeStart,
  'log history': async () => (await import('./commands/log/history.ts')).logHistory,
  'log change': async () => (await import('./commands/log/change.ts')).logChange,
  'log undo': async () => (await import('./commands/log/undo.ts')).logUndo,
  'log redo': async () => (await import('./commands/log/redo.ts')).logRedo,
  'log note': async () => (await import('./commands/log/note.ts')).logNote,
  'log start': async () => (await import('./commands/log/start.ts')).logStart,
  'log diff': async () => (await import('./commands/log/diff.ts')).logDiff,
  'log export': async () => (await import('./commands/log/export.ts')).logExport,
  predict: async () => (await import('./commands/predict.ts')).predictCommand,
  'trial plan': async () => (await import('./commands/trial/plan.ts')).trialPlanCommand,
  'trial record': async () => (await import('./commands/trial/record.ts')).trialRecordCommand,
  'trial judge': async () => (await import('./commands/trial/judge.ts')).trialJudge,
  next: async () => (await import('./commands/next.ts')).next,
  'rules check': async () => (await import('./commands/rules/check.ts')).rulesCheck,
  'rules test': async () => (await import('./commands/rules/test.ts')).rulesTest,
  'rules show': async () => (await import('./commands/rules/show.ts')).rulesShow,
  'rules audit': async () => (await import('./commands/rules/audit.ts')).rulesAudit,
  'rules simulate': async () => (await import('./commands/rules/simulate.ts')).rulesSimulate,
  'rules learn': async () => (await import('./commands/rules/learn.ts')).rulesLearn,
  'rules schema': async () => (await import('./commands/rules/schema.ts')).rulesSchema,
  completion: async () => (await import('./commands/completion.ts')).completion,
};
