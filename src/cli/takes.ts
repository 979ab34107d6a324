/**
 * What a command takes, as plain data with inferred types: the key of an option is its name on the line (`bothWays` is
 * `--both-ways`) and its name in the code, so that renaming one breaks the build where the other is used.
 */
import type { Prompter } from '../console/prompter.ts';
import type { ExitCode, Io } from '../host/io.ts';
import type { Style } from '../report/style.ts';
import type { CompletionCommand } from '../report/completion/completion.ts';

/** An option, or an argument, that comes to a value of type T. */
export interface Takes<T> {
  readonly about: string;
  /** what stands for the value in the help; a switch has none. An argument is shown by its key. */
  readonly value?: string;
  readonly short?: string;
  readonly choices?: readonly string[];
  /** @throws InvalidArgumentError, which says what to write instead */
  readonly parse?: (text: string) => T;
  readonly fallback?: T;
  /** the value may be left away: the option alone is true; an argument alone is absent */
  readonly bare?: boolean;
  /** comes several times, or is all the rest of the line */
  readonly many?: boolean;
  /** a switch that turns off: `--no-KEY`; with words of its own, `--KEY` may be said too */
  readonly off?: { readonly also?: string };
  /** the only bike that is known where none is named */
  readonly onlyBike?: boolean;
  /** an argument that may be said by the option of this key as well */
  readonly option?: string;
}

type Shape = Readonly<Record<string, Takes<unknown>>>;
type ValueOf<T> = T extends Takes<infer V> ? V : never;
/** What the line came to: what may be left away may be absent. */
export type Given<S> = {
  readonly [K in keyof S as undefined extends ValueOf<S[K]> ? never : K]: ValueOf<S[K]>;
} & {
  readonly [K in keyof S as undefined extends ValueOf<S[K]> ? K : never]?: ValueOf<S[K]> | undefined;
};

/** What a command is run with beside what its line says. */
export interface Here {
  readonly io: Io;
  /** folders of further rule packs */
  readonly rules: readonly string[];
  readonly style: () => Promise<Style>;
  /** opens what asks at the terminal; tests hand in their own */
  readonly prompter: () => Promise<Prompter>;
  /** the program as data, with all its commands */
  readonly tree: () => Promise<CompletionCommand>;
}

/** A command line that works, and what it is for. */
export type Example = readonly [line: string, about: string];

export interface Command<A extends Shape = Shape, O extends Shape = Shape> {
  readonly about: string;
  /** in the order in which they stand on the line */
  readonly args?: A;
  readonly options?: O;
  readonly examples: readonly Example[];
  readonly run: (given: Given<A> & Given<O>, here: Here) => Promise<ExitCode>;
}

/** A command whose types are its own affair. */
export type AnyCommand = Omit<Command, 'run'> & {
  readonly run: (given: never, here: Here) => Promise<ExitCode>;
};

/** Nothing but the types. */
export function command<A extends Shape = Record<never, never>, O extends Shape = Record<never, never>>(
  one: Command<A, O>,
): Command<A, O> {
  return one;
}

export function arg(about: string): Takes<string> {
  return { about };
}

export function args(about: string): Takes<readonly string[]> {
  return { about, many: true };
}

export function maybeArg(about: string): Takes<string | undefined> {
  return { about, bare: true };
}

export function maybeArgs(about: string): Takes<readonly string[]> {
  return { about, bare: true, many: true };
}

export function oneOf<const C extends readonly string[]>(about: string, choices: C): Takes<C[number]> {
  return { about, choices };
}

export function text(value: string, about: string): Takes<string | undefined> {
  return { value, about };
}

export function texts(value: string, about: string): Takes<readonly string[]> {
  return { value, about, many: true, fallback: [] };
}

/** The option alone is true. */
export function maybeText(value: string, about: string): Takes<string | true | undefined> {
  return { value, about, bare: true };
}

export function flag(about: string): Takes<boolean> {
  return { about, fallback: false };
}

/** On, unless `--no-KEY` is said. @param also what `--KEY` is, where it may be said too */
export function unless(about: string, also?: string): Takes<boolean> {
  return { about, off: also === undefined ? {} : { also } };
}

export function choice<const C extends readonly string[]>(
  value: string,
  about: string,
  choices: C,
): Takes<C[number] | undefined>;
export function choice<const C extends readonly string[]>(
  value: string,
  about: string,
  choices: C,
  fallback: C[number],
): Takes<C[number]>;
export function choice(value: string, about: string, choices: readonly string[], fallback?: string) {
  return { value, about, choices, ...(fallback === undefined ? {} : { fallback }) };
}

export function format<const C extends readonly [string, ...string[]]>(...choices: C): Takes<C[number]> {
  return { ...choice('form', 'output format', choices, choices[0]), short: '-f' };
}

export function whom(about: string): Takes<'mechanic' | 'rider'> {
  return choice('whom', about, ['mechanic', 'rider'], 'mechanic');
}

/** A sheet, a name used before, or nothing while only one bike is known. */
export function onBike(): Takes<string> {
  return {
    value: 'sheet',
    about: 'bike sheet, or the id of a bike with a log; not needed if there is only one',
    onlyBike: true,
  };
}

/** The same as an argument, as a sheet that is looked at is named; `--bike`, as everywhere else, says it too. */
export const SHEET_OR_BIKE = {
  args: { file: { ...onBike(), bare: true, option: 'bike' } satisfies Takes<string> as Takes<string> },
  options: { bike: text('sheet', 'the same, as all other commands take it') },
} as const;
