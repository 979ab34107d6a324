/** Reading and writing the YAML of a log. */
import { isMap } from '../form/plain-data.ts';
import { stringify } from 'yaml';
import type * as z from 'zod';
import { parseYaml, type Parsed } from '../form/parse.ts';
import type { Problem } from '../form/problem.ts';
import { validate } from '../form/checked.ts';

export interface Read<T> {
  readonly value?: T;
  readonly problems: readonly Problem[];
}

export function readYaml(text: string, file: string): Read<Record<string, unknown>> & Pick<Parsed, 'locate'> {
  const parsed = parseYaml(text, file);
  const { problems, locate } = parsed;
  if (problems.length > 0) return { problems, locate };
  if (isMap(parsed.data)) return { value: parsed.data, problems: [], locate };
  return { problems: [notMap(parsed)], locate };
}

/**
 * The same, checked against a form.
 * @param firstLine the line of the file at which this text begins, 1-based
 */
export function readForm<T>(text: string, file: string, form: z.ZodType<T>, firstLine = 1): Read<T> {
  const parsed = parseYaml(text, file, firstLine);
  return parsed.problems.length > 0 || isMap(parsed.data)
    ? validate(parsed, form)
    : { problems: [notMap(parsed)] };
}

function notMap({ locate }: Parsed): Problem {
  return {
    ...locate([]),
    code: 'shape',
    severity: 'error',
    message: 'Expected keys and values.',
    remedy: 'Correct this place in an editor.',
  };
}

/** Text of a file that other tools, and git, can read; values that look like something else are quoted. */
export function writeYaml(data: unknown): string {
  return stringify(data, { schema: 'core', lineWidth: 0, aliasDuplicateObjects: false });
}
