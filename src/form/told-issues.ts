/** What zod finds wrong with data, as its author meant the data: each with its path and remedy. */
import * as z from 'zod';
import { isMap } from './plain-data.ts';
import type { Path } from './parse.ts';
import type { PathProblem } from './problem.ts';
import { printable } from './text.ts';
import { didYouMean } from './suggest.ts';
import { otherKeysOf, peel, remedyOf } from './teach.ts';

const OTHER_KIND: ReadonlySet<string> = new Set(['invalid_type', 'invalid_value', 'invalid_union']);

/** Of a union, the branch that its author meant: one that takes the kind of value, with the fewest complaints; all of them are told. */
export function meant(issue: z.core.$ZodIssue): z.core.$ZodIssue[] {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return [issue];
  const branches = issue.errors.map((branch) =>
    branch.flatMap((one) => meant({ ...one, path: [...issue.path, ...one.path] })),
  );
  const depth = (branch: readonly z.core.$ZodIssue[]): number =>
    Math.max(...branch.map(({ path, code }) => path.length + (code === 'unrecognized_keys' ? 0.5 : 1)));
  const [found] = branches
    .filter((branch) =>
      branch.every(({ path, code }) => path.length > issue.path.length || !OTHER_KIND.has(code ?? '')),
    )
    .sort((one, other) => one.length - other.length || depth(other) - depth(one));
  return found ?? [{ ...issue, message: [...new Set(branches.flat().map(expected))].join(', or ') }];
}

/** A key too many makes zod speak for one branch of a union; here each is heard. */
export function everyBranch(data: unknown, schema: z.ZodType, issue: z.core.$ZodIssue): z.core.$ZodIssue {
  if (issue.code !== 'unrecognized_keys') return issue;
  const union = peel(schemaAt(schema, issue.path, data));
  if (!(union instanceof z.ZodUnion) || union instanceof z.ZodDiscriminatedUnion) return issue;
  const value = valueAt(data, issue.path);
  const errors = union.options.map(
    (one) => (one as z.ZodType).safeParse(value, { reportInput: true }).error?.issues ?? [],
  );
  return { ...issue, code: 'invalid_union', errors };
}

/** What tells the branches apart is missing or none of them: the words that it may be. */
export function ofKinds(data: unknown, schema: z.ZodType, issue: z.core.$ZodIssue): z.core.$ZodIssue {
  if (issue.code !== 'invalid_union' || issue.errors.length > 0) return issue;
  const union = peel(schemaAt(schema, issue.path.slice(0, -1), undefined));
  const key = String(issue.path.at(-1));
  const values = unionsIn(union).flatMap((one) => {
    const kind = one instanceof z.ZodObject ? (one.shape as Record<string, unknown>)[key] : undefined;
    return kind instanceof z.ZodLiteral ? [...(kind.values as Set<string>)] : [];
  });
  return { ...issue, code: 'invalid_value', values, input: valueAt(data, issue.path) };
}

function unionsIn(schema: z.ZodType | undefined): (z.ZodType | undefined)[] {
  return schema instanceof z.ZodUnion
    ? schema.options.flatMap((one) => unionsIn(peel(one as z.ZodType)))
    : [schema];
}

const KINDS: Readonly<Record<string, string>> = {
  object: 'a map',
  record: 'a map',
  array: 'a list',
  tuple: 'a list',
  string: 'a text',
  int: 'a whole number',
  boolean: 'true or false',
};

function expected(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return KINDS[issue.expected] ?? `a ${issue.expected}`;
    case 'invalid_value':
      return issue.values.length === 1
        ? String(issue.values[0])
        : `one of ${issue.values.map(String).join(', ')}`;
    case 'too_small':
      return issue.origin === 'string' || issue.origin === 'array'
        ? `${issue.minimum} or more ${issue.origin === 'string' ? 'characters' : 'entries'}`
        : issue.inclusive === false
          ? `more than ${issue.minimum}`
          : `${issue.minimum} or more`;
    case 'too_big':
      return issue.origin === 'string' || issue.origin === 'array'
        ? `at most ${issue.maximum} ${issue.origin === 'string' ? 'characters' : 'entries'}`
        : `at most ${issue.maximum}`;
    default:
      return issue.message;
  }
}

const IN_THAT_FORM = 'Write the value in that form.';

export function told(data: unknown, schema: z.ZodType, issue: z.core.$ZodIssue, what: string): PathProblem[] {
  const path = issue.path as PathProblem['path'];
  const name = label(data, path, what);
  const at = (where: PathProblem['path'], message: string, remedy: string, key?: string): PathProblem => ({
    path: where,
    ...(key === undefined ? {} : { key }),
    severity: 'error',
    message,
    remedy,
  });
  const here = schemaAt(schema, path, data);
  if (issue.code === 'unrecognized_keys') {
    const known = keysOf(here, valueAt(data, path));
    const others = otherKeysOf(here);
    const all = `Known keys: ${known.join(', ')}.${others === undefined ? '' : ` ${others}`}`;
    const remedy = (key: string): string =>
      didYouMean(key, known) || (known.length === 0 ? 'Check that this is the right file.' : all);
    return issue.keys.map((key) =>
      at(path, `${name}: ${printable(key)} is not known here.`, remedy(key), key),
    );
  }
  if (issue.code === 'invalid_key') {
    const key = String(path.at(-1));
    const why = issue.issues.map(({ message }) => message).join('; ');
    return [at(path.slice(0, -1), `${name}: ${why}.`, 'Rename the key.', key)];
  }
  const lesson = remedyOf(here);
  if (issue.input === undefined && path.length > 0) {
    const key = String(path.at(-1));
    const form =
      issue.code === 'invalid_value'
        ? `: one of ${issue.values.map(String).join(', ')}`
        : issue.code === 'invalid_type'
          ? `: (${expected(issue)})`
          : '';
    const message = `${label(data, path.slice(0, -1), what)}: ${key} is missing.`;
    return [at(path.slice(0, -1), message, lesson ?? `Add ${key}${form}.`)];
  }
  if (issue.code === 'custom' || issue.code === 'invalid_format')
    return [at(path, `${name}: ${show(issue.input)}: ${issue.message}.`, lesson ?? IN_THAT_FORM)];
  const message = `${name}: found ${show(issue.input)}, expected ${expected(issue)}.`;
  const choices = issue.code === 'invalid_value' && issue.values.length > 1 ? issue.values.map(String) : [];
  const words = issue.code === 'invalid_union' ? wordsOf(here) : choices;
  const near = typeof issue.input === 'string' ? didYouMean(issue.input, words) || lesson : lesson;
  return [at(path, message, near ?? (choices.length > 0 ? 'Choose one of these.' : IN_THAT_FORM))];
}

/** The words that a union may be, beside its maps and lists. */
function wordsOf(schema: z.ZodType | undefined): string[] {
  return unionsIn(peel(schema)).flatMap((one) =>
    one instanceof z.ZodLiteral
      ? [...one.values].map(String)
      : one instanceof z.ZodEnum
        ? one.options.map(String)
        : [],
  );
}

/** A path in words: the entry by its own id where it has one, then the keys below it. */
function label(data: unknown, path: Path, what: string): string {
  let node: unknown = data;
  const words: string[] = [];
  for (const step of path) {
    node =
      typeof node === 'object' && node !== null ? (node as Record<PropertyKey, unknown>)[step] : undefined;
    const entry = node as { id?: unknown; name?: unknown } | undefined | null;
    if (typeof step === 'number') {
      const own = entry?.id ?? entry?.name;
      words.push(typeof own === 'string' ? printable(own) : `entry ${step + 1}`);
    } else words.push(printable(String(step)));
  }
  return words.length === 0 ? what : words.join(' › ');
}

/** A value in a message. */
function show(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (typeof value === 'object') return Array.isArray(value) ? 'a list' : 'a map';
  return typeof value === 'string' ? `"${printable(value)}"` : String(value).slice(0, 60);
}

/** The schema of what stands at a path; of a union, the branch that the data there has the kind of. */
export function schemaAt(schema: z.ZodType, path: Path, data: unknown): z.ZodType | undefined {
  let here: z.ZodType | undefined = schema;
  let node = data;
  for (const step of path) {
    const inner: unknown = branch(here, node);
    if (inner instanceof z.ZodObject) here = (inner.shape as Record<PropertyKey, z.ZodType>)[step];
    else if (inner instanceof z.ZodArray) here = inner.element as z.ZodType;
    else if (inner instanceof z.ZodTuple) here = inner.def.items[Number(step)] as z.ZodType | undefined;
    else if (inner instanceof z.ZodRecord) here = inner.valueType as z.ZodType;
    else return undefined;
    node = (node as Record<PropertyKey, unknown> | null | undefined)?.[step];
  }
  return here;
}

function branch(schema: z.ZodType | undefined, data: unknown): z.ZodType | undefined {
  const inner = peel(schema);
  if (!(inner instanceof z.ZodUnion)) return inner;
  const options = inner.options.map((one) => branch(one as z.ZodType, data));
  const fits = (one: z.ZodType | undefined): number => {
    if (one instanceof z.ZodArray || one instanceof z.ZodTuple) return Array.isArray(data) ? 0 : -1;
    if (!(one instanceof z.ZodObject)) return typeof data === 'object' ? -1 : 0;
    if (!isMap(data)) return -1;
    return isOther(one, data) ? 0 : 1 + Object.keys(one.shape as object).filter((key) => key in data).length;
  };
  return options.reduce((best, one) => (fits(one) > fits(best) ? one : best));
}

/** The keys that a strict object allows; of a union, those of each branch that the data may be meant for. */
function keysOf(schema: z.ZodType | undefined, data: unknown): string[] {
  const inner = peel(schema);
  if (inner instanceof z.ZodUnion)
    return [...new Set(inner.options.flatMap((one) => keysOf(one as z.ZodType, data)))];
  return inner instanceof z.ZodObject && !isOther(inner, data) ? Object.keys(inner.shape as object) : [];
}

/** Whether what tells the branches of a union apart says that it is another one. */
function isOther(form: z.ZodObject, data: unknown): boolean {
  return Object.entries(form.shape as Record<string, z.ZodType>).some(
    ([key, of]) =>
      of instanceof z.ZodLiteral && isMap(data) && key in data && !of.values.has(data[key] as never),
  );
}

function valueAt(data: unknown, path: Path): unknown {
  return path.reduce((node, step) => (node as Record<PropertyKey, unknown> | null | undefined)?.[step], data);
}
