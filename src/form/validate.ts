/** Checks parsed data against a zod schema and turns each finding into a problem with a place. */
import * as z from 'zod';
import type { Parsed, Path } from './parse.ts';
import type { Problem } from './problem.ts';
import { didYouMean } from './suggest.ts';

/** What to write, for the keys people leave out most. */
const TEACH: Readonly<Record<string, string>> = {
  default: 'Name the answer given when no sign is noticed, e.g. default: no.',
  'when-several': 'Say what is answered when several signs are noticed: cancel, any, or an answer id.',
  how: 'Say how it is answered: how: recall, stand or ride.',
  minutes: 'Say what it costs, in minutes: 0.3 to recall, 5 in the stand, 10 for a run.',
  topic: 'Name the impression it is answered from; questions of one topic share their trust.',
  help: 'Write a sentence or two on how the rider can find out.',
  plain: 'Write it again in words a rider without a workshop understands.',
  'confusable-with': 'Name what this is mistaken for, and how to tell: [{id: ..., tell: ...}].',
  'way-back': 'Say how to undo it.',
  feel: 'Say what to feel for on the trial run.',
};

export function validate<T>(parsed: Parsed, schema: z.ZodType<T>): { value?: T; problems: Problem[] } {
  if (parsed.data === undefined) return { problems: [...parsed.problems] };
  const result = schema.safeParse(parsed.data, { reportInput: true });
  if (result.success) return { value: result.data, problems: [] };
  return { problems: result.error.issues.flatMap((issue) => toProblems(parsed, schema, flatten(issue))) };
}

/** Of a union, the branch whose complaint goes deepest is the one its author meant. */
function flatten(issue: z.core.$ZodIssue): z.core.$ZodIssue {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return issue;
  const branches = issue.errors.flat().map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }));
  const deepest = Math.max(...branches.map((b) => b.path.length));
  const found = branches.find((b) => b.path.length === deepest && deepest > issue.path.length);
  return (
    found ??
    branches.find((b) => b.code === 'unrecognized_keys') ?? { ...issue, message: unionMessage(branches) }
  );
}

function unionMessage(branches: readonly z.core.$ZodIssue[]): string {
  return `Expected ${[...new Set(branches.map(expected))].join(', or ')}`;
}

function expected(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected === 'object'
        ? 'a map'
        : issue.expected === 'array'
          ? 'a list'
          : `a ${issue.expected}`;
    case 'invalid_value':
      return issue.values.map(String).join(' | ');
    default:
      return issue.message;
  }
}

const SHAPE = { code: 'shape', severity: 'error' } as const;
const IN_THAT_FORM = 'Write the value in that form.';

function toProblems(parsed: Parsed, schema: z.ZodType, issue: z.core.$ZodIssue): Problem[] {
  const name = label(parsed, issue.path);
  switch (issue.code) {
    case 'unrecognized_keys': {
      const known = keysAt(schema, issue.path);
      return issue.keys.map((key) => ({
        ...parsed.locate(issue.path, key),
        ...SHAPE,
        message: `${name}: the key ${key} is not known here.`,
        remedy: didYouMean(key, known) || `Known keys: ${known.join(', ')}.`,
      }));
    }
    case 'invalid_type':
    case 'invalid_value':
      if (issue.input === undefined) return [missingKey(parsed, issue)];
      return [{ ...parsed.locate(issue.path), ...SHAPE, ...wrongValue(name, issue) }];
    case 'invalid_key':
      return [
        {
          ...parsed.locate(issue.path.slice(0, -1), String(issue.path.at(-1))),
          ...SHAPE,
          message: `${name}: ${issue.issues.map((i) => i.message).join('; ')}.`,
          remedy: 'Rename the key.',
        },
      ];
    default:
      if (issue.input === undefined) return [missingKey(parsed, issue)];
      return [
        {
          ...parsed.locate(issue.path),
          ...SHAPE,
          message: `${name}: ${show(issue.input)}: ${issue.message}.`,
          remedy: IN_THAT_FORM,
        },
      ];
  }
}

function missingKey(parsed: Parsed, issue: z.core.$ZodIssue): Problem {
  const key = String(issue.path.at(-1) ?? '');
  const { code } = issue;
  const what =
    code === 'invalid_type'
      ? `: (${expected(issue)})`
      : code === 'invalid_value'
        ? `: one of ${issue.values.map(String).join(', ')}`
        : '';
  return {
    ...parsed.locate(issue.path),
    ...SHAPE,
    message: `${label(parsed, issue.path.slice(0, -1))}: the key ${key} is missing.`,
    remedy: TEACH[key] ?? `Add ${key}${what}.`,
  };
}

function wrongValue(
  name: string,
  issue: z.core.$ZodIssueInvalidType | z.core.$ZodIssueInvalidValue,
): Pick<Problem, 'message' | 'remedy'> {
  const found = `${name}: found ${show(issue.input)}`;
  if (issue.code === 'invalid_type')
    return { message: `${found}, expected ${expected(issue)}.`, remedy: IN_THAT_FORM };
  const choices = issue.values.map(String);
  return {
    message: `${found}, expected one of ${choices.join(', ')}.`,
    remedy: didYouMean(String(issue.input), choices) || 'Choose one of these.',
  };
}

/** A path in words: the entry by its own id where it has one, then the keys below it. */
function label(parsed: Parsed, path: Path): string {
  let node: unknown = parsed.data;
  const words: string[] = [];
  for (const step of path) {
    node =
      typeof node === 'object' && node !== null ? (node as Record<PropertyKey, unknown>)[step] : undefined;
    const entry = node as { id?: unknown; name?: unknown } | undefined;
    if (typeof step === 'number') {
      const own = entry?.id ?? entry?.name;
      words.push(typeof own === 'string' ? own : `entry ${step + 1}`);
    } else words.push(String(step));
  }
  return words.length === 0 ? 'the file' : words.join(' › ');
}

function show(value: unknown): string {
  const text =
    typeof value === 'object' && value !== null
      ? Array.isArray(value)
        ? 'a list'
        : 'a map'
      : JSON.stringify(value);
  return text === undefined ? 'nothing' : text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** The keys a strict object allows at a path, found by walking the schema; empty when it is no object. */
function keysAt(schema: z.ZodType, path: Path): string[] {
  let here: unknown = schema;
  for (const step of path) {
    here = peel(here);
    if (here instanceof z.ZodObject) here = (here.shape as Record<PropertyKey, unknown>)[step];
    else if (here instanceof z.ZodArray) here = here.element;
    else if (here instanceof z.ZodRecord) here = here.valueType;
    else if (here instanceof z.ZodUnion) {
      here =
        here.options.map(peel).find((o: unknown) => o instanceof z.ZodObject && step in o.shape) ?? undefined;
      if (here instanceof z.ZodObject) here = (here.shape as Record<PropertyKey, unknown>)[step];
    } else return [];
  }
  here = peel(here);
  if (here instanceof z.ZodUnion)
    here = here.options.map(peel).find((o: unknown) => o instanceof z.ZodObject);
  return here instanceof z.ZodObject ? Object.keys(here.shape) : [];
}

function peel(schema: unknown): unknown {
  let here = schema;
  while (here instanceof z.ZodOptional || here instanceof z.ZodNullable || here instanceof z.ZodDefault)
    here = here.unwrap();
  return here;
}
