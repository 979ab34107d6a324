/** Plain data against a zod schema: all that is wrong with it, each with its path and remedy, and the part that is sound. */
import type * as z from 'zod';
import type { Path, Parsed } from './parse.ts';
import { atMost, MOST_TOLD, type PathProblem, type Problem } from './problem.ts';
import { meant, everyBranch, ofKinds, told, schemaAt } from './told-issues.ts';

/** Data of a form from which what was wrong has been taken out: anything may be missing. */
export type Sound<T> = T extends readonly [unknown, ...unknown[]]
  ? T
  : T extends readonly (infer One)[]
    ? readonly (Sound<One> | undefined)[]
    : T extends object
      ? { readonly [K in keyof T]?: Sound<T[K]> | undefined }
      : T;

export interface Checked<T> {
  /** whether there is nothing wrong */
  readonly good: boolean;
  /** the data with each wrong value left out; undefined when it is wrong as a whole */
  readonly sound: Sound<T> | undefined;
  readonly problems: readonly PathProblem[];
}

/** @param what the data is called in a message, as a whole */
export function checked<T>(data: unknown, schema: z.ZodType<T>, what = 'the file'): Checked<T> {
  const result = schema.safeParse(data, { reportInput: true });
  if (result.success) return { good: true, sound: data as Sound<T>, problems: [] };
  const issues = result.error.issues.flatMap((issue) =>
    meant(everyBranch(data, schema, issue)).map((one) => ofKinds(data, schema, one)),
  );
  const problems = issues.slice(0, MOST_TOLD).flatMap((issue) => told(data, schema, issue, what));
  return {
    good: false,
    sound: issues.some(({ path, code }) => path.length === 0 && code !== 'unrecognized_keys')
      ? undefined
      : (without(data, issues) as Sound<T>),
    problems: atMost(problems, sizeOf(issues.slice(MOST_TOLD))),
  };
}

/** How many problems these are: each key too many is one. */
function sizeOf(issues: readonly z.core.$ZodIssue[]): number {
  return issues.reduce((sum, one) => sum + (one.code === 'unrecognized_keys' ? one.keys.length : 1), 0);
}

/** A file of a later version of the program may mean anything: nothing else of it is worth a word. */
export function laterFormat(data: unknown, key: string, format: number, what: string): PathProblem[] {
  const found = (data as Readonly<Record<string, unknown>> | null | undefined)?.[key];
  if (typeof found !== 'number' || !(found > format)) return [];
  return [
    {
      path: [key],
      severity: 'error',
      message: `${what} has format ${found}; this program reads format ${format}.`,
      remedy: 'Update earshot, or write it again with this version.',
    },
  ];
}

/** Whether a form has such a key. @param data with something there, which says what branch of a union is meant */
export function hasPlace(schema: z.ZodType, path: Path, data: unknown): boolean {
  return schemaAt(schema, path, data) !== undefined;
}

/** A copy in which the value at each path that is wrong is left out; places in lists stay as they are. */
function without(data: unknown, issues: readonly z.core.$ZodIssue[]): unknown {
  const copies = new Set<unknown>();
  const copyOf = (node: unknown): unknown => {
    if (typeof node !== 'object' || node === null || copies.has(node)) return node;
    const copy: unknown = Array.isArray(node) ? [...(node as unknown[])] : { ...node };
    copies.add(copy);
    return copy;
  };
  const copy = copyOf(data);
  for (const { path, code } of issues) {
    if (code === 'unrecognized_keys') continue;
    let node = copy as Record<PropertyKey, unknown> | undefined;
    for (const step of path.slice(0, -1)) {
      if (typeof node !== 'object' || !Object.hasOwn(node, step)) node = undefined;
      else node = (node[step] = copyOf(node[step])) as Record<PropertyKey, unknown>;
    }
    const last = path.at(-1)!;
    if (typeof node === 'object' && node !== null && Object.hasOwn(node, last)) node[last] = undefined;
  }
  return copy;
}

/** Checks parsed data against a zod schema and turns each finding into a problem with a place. */
export function validate<T>(parsed: Parsed, schema: z.ZodType<T>): { value?: T; problems: Problem[] } {
  if (parsed.data === undefined) return { problems: [...parsed.problems] };
  const result = schema.safeParse(parsed.data);
  if (result.success) return { value: result.data, problems: [] };
  const { problems } = checked(parsed.data, schema);
  return { problems: problems.map((problem) => placed(problem, parsed.locate)) };
}

/** A problem of data at its place in the file. */
function placed({ path, key, more: _, ...rest }: PathProblem, locate: Parsed['locate']): Problem {
  return { ...locate(path, key), code: 'shape', ...rest };
}
