/** Checks parsed data against a zod schema and turns each finding into a problem with a place. */
import type * as z from 'zod';
import { checked } from './checked.ts';
import type { Parsed } from './parse.ts';
import type { PathProblem, Problem } from './problem.ts';

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
