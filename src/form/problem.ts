/** What is wrong with a line of a rule, case or bike file: always a place, a finding and a remedy. */

export type Severity = 'error' | 'warning' | 'note';

export interface Place {
  readonly file: string;
  /** 1-based; 0 when the file as a whole is meant */
  readonly line: number;
  readonly col: number;
}

export interface Problem extends Place {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly message: string;
  /** what to do about it */
  readonly remedy?: string;
}

/** Every kind of problem, with the advice that `rules check` and the README print for it. */
export const PROBLEM_CODES = {
  unreadable: 'The file cannot be read as UTF-8 text.',
  yaml: 'The YAML itself is broken; nothing after this place can be trusted.',
  'duplicate-key': 'The same key stands twice in one map; keep one of the two.',
  'too-large': 'The file, its nesting or its aliases are larger than a rule file may be.',
  shape: 'A key is missing, unknown, or holds the wrong kind of value.',
  'duplicate-id': 'Two entries of one pack have the same id; ids are never reused.',
  'unknown-id': 'An id is used that no file defines.',
  'unknown-word': 'A frequency word is not on the word scale of the pack.',
  'bad-template': 'A text or id uses a placeholder that has no meaning there.',
  sheet: 'A rule asks for, or changes, what the bike sheet does not have.',
  'gate-cycle': 'Gates that wait for each other can never open.',
  'gate-shut': 'A gate asks for an answer its question does not have.',
  'default-points': 'The default answer means that no sign was noticed, so no cause may point to it.',
  'bad-several':
    'What is answered when several signs are noticed must be cancel, any, or an answer of the question.',
  probability: 'The strengths of a question do not fit together.',
  'implied-safety': 'A safety question is always asked, so no other answer may stand for it.',
  'no-measurement': 'What waits for a gauge needs an adjustment of kind measure that reads it.',
  'no-heir': 'A retired rule names the id that took its place.',
  unreachable: 'A cause that too few questions point to cannot be found.',
  'no-remedy': 'A cause that no adjustment fixes cannot be helped.',
  powerless: 'A question that can never change the ranking only costs time.',
  inseparable: 'No question can tell these two causes apart.',
  'weakly-separable': 'Only one question can tell the two directions of a setting apart.',
  'no-check': 'A question that no check uses has never been tried.',
  'split-choice':
    'A word with a hyphen in a choice of words is cut at it, so the phrase asks for both halves.',
  'lost-choice':
    'A choice with a small word in it is not asked for at all, so the phrase is found in a single word.',
  'never-found': 'A phrase of small words alone can never be found in what a rider says.',
  'no-rules': 'A run that finds no rule, or no check, has tested nothing.',
  physics: 'A rule names a scenario, a metric or a sign that the model does not have.',
  'check-failed': 'A check did not come out as its author expects.',
} as const;

export type ProblemCode = keyof typeof PROBLEM_CODES;

/** What is wrong at a place inside data that may stand in a file, or in none. */
export interface PathProblem {
  readonly path: readonly (string | number)[];
  /** the key meant, when it is a key and not its value */
  readonly key?: string;
  readonly severity: 'error' | 'warning';
  readonly message: string;
  readonly remedy: string;
  /** how many problems it stands for that are not listed */
  readonly more?: number;
}

/** `file:line:col: message remedy`: what goes to somebody who did not ask for a check. */
export function shortLine(p: Place & { readonly message: string; readonly remedy?: string }): string {
  return `${p.line > 0 ? `${p.file}:${p.line}:${p.col}` : p.file}: ${p.message} ${p.remedy ?? ''}`.trimEnd();
}

/**
 * The same for a problem inside data: its place in the file where that is known, else its path.
 * @param name how the data is called: its file, or what it is a part of
 */
export function pathLine(
  name: string,
  { path, key, message, remedy }: PathProblem,
  locate?: (path: PathProblem['path'], key?: string) => { readonly line: number; readonly col: number },
): string {
  if (locate !== undefined) return shortLine({ file: name, ...locate(path, key), message, remedy });
  const said = behindPath({ path, key, message });
  const steps = placeBefore(said, { path, key }).map(stepWords).join(' › ').slice(0, 120);
  const file = steps === '' ? name : `${name}: ${steps}`;
  return shortLine({ file, line: 0, col: 0, message: said, remedy });
}

/** A problem behind its path as options write it: `front.spring: found 3, ...`, `front.low: now is 60.` */
export function dottedLine(problem: PathProblem): string {
  const said = behindPath(problem);
  const place = placeBefore(said, problem).join('.');
  return `${place === '' ? '' : `${place}: `}${said} ${problem.remedy}`.trimEnd();
}

/** The path in front of a message; without its last step where the message begins by saying what that is. */
function placeBefore(said: string, at: At): PathProblem['path'] {
  const steps = stepsOf(at);
  return steps.length > 1 && said.startsWith(`${steps.at(-1)} is `) ? steps.slice(0, -1) : steps;
}

/** Entries are counted from 1, as people count. */
function stepWords(step: string | number): string {
  return typeof step === 'number' ? `entry ${step + 1}` : step;
}

type At = { readonly path: PathProblem['path']; readonly key?: string | undefined };

function stepsOf({ path, key }: At): PathProblem['path'] {
  return key === undefined ? path : [...path, key];
}

/** The message without the place that it begins with, for a line that has said it already. */
export function behindPath({ message, ...at }: At & { readonly message: string }): string {
  const words = stepsOf(at).map(stepWords);
  const whole = words.join(' › ');
  // What goes on with "is ..." needs its name still.
  if (words.length > 1 && message.startsWith(`${whole} `))
    return `${words.at(-1)}${message.slice(whole.length)}`;
  for (let length = words.length; length > 0; length--) {
    const said = `${words.slice(0, length).join(' › ')}: `;
    if (message.startsWith(said)) return message.slice(said.length);
  }
  return message;
}

/** More problems of one file than this are counted, not told: a list of thousands is a wrong file, not a slip. */
export const MOST_TOLD = 200;

/**
 * The first of many problems, and how many more there are. Lists that were cut so already may be among them: what they
 * left out is counted too.
 * @param unlisted how many there are besides these
 */
export function atMost(problems: readonly PathProblem[], unlisted = 0): PathProblem[] {
  const told = problems.filter(({ more }) => more === undefined);
  let more = unlisted + Math.max(0, told.length - MOST_TOLD);
  for (const one of problems) more += one.more ?? 0;
  if (more === 0) return told;
  return [
    ...told.slice(0, MOST_TOLD),
    {
      path: [],
      severity: problems.every(({ severity }) => severity === 'warning') ? 'warning' : 'error',
      message: more === 1 ? '1 more problem is not listed.' : `${more} more problems are not listed.`,
      remedy: 'Fix these first, or check that it is the right file.',
      more,
    },
  ];
}

/** From the top of the file down, as they are mended; last, how many are not listed. */
export function inOrder(
  problems: readonly PathProblem[],
  locate: (path: PathProblem['path'], key?: string) => { readonly line: number; readonly col: number },
): PathProblem[] {
  const [listed, counted] = [true, false].map((of) =>
    problems.filter(({ more }) => (more === undefined) === of),
  );
  return listed!
    .map((problem) => ({ problem, at: locate(problem.path, problem.key) }))
    .toSorted((a, b) => a.at.line - b.at.line || a.at.col - b.at.col)
    .map(({ problem }) => problem)
    .concat(counted!);
}

/** One line for a terminal: `file:line:col: error: message. remedy [code]`. */
export function problemLine(p: Problem): string {
  const at = p.line > 0 ? `${p.file}:${p.line}:${p.col}` : p.file;
  return `${at}: ${p.severity}: ${p.message}${p.remedy === undefined || p.remedy === '' ? '' : ` ${p.remedy}`} [${p.code}]`;
}

/**
 * Sorts by file, line, column and message, so that the same input prints the same bytes. A mistake in an entry for both
 * ends is found once an end; it is told once.
 */
export function sortProblems(problems: readonly Problem[]): Problem[] {
  const told = new Set<string>();
  const once = problems.filter((p) => {
    const key = `${p.file}:${p.line}:${p.col}:${p.code}:${p.message.replace(/\b(front|rear)\b/g, 'end')}`;
    if (p.line > 0 && told.has(key)) return false;
    told.add(key);
    return true;
  });
  return once.sort(
    (a, b) => compare(a.file, b.file) || a.line - b.line || a.col - b.col || compare(a.message, b.message),
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
