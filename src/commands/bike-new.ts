/** `earshot bike new FILE`: a new bike sheet, asked at the prompt or all by options. */
import { basename, extname } from 'node:path';
import {
  emptyDraft,
  newSteps,
  nextStep,
  PATH,
  problemsAt,
  valueAt,
  withValueAt,
  type Draft,
  type NewStep,
} from '../bike/new-steps.ts';
import { readSheet } from '../bike/read.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { Left, type Prompter } from '../console/prompter.ts';
import { parse } from 'yaml';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { sheetText } from './sheet-text.ts';
import { refuseExisting, writeNew } from './write-new.ts';

export interface BikeNewOptions {
  readonly file: string;
  readonly id?: string | undefined;
  readonly name?: string | undefined;
  readonly kind?: string | undefined;
  /** of pressures */
  readonly units?: string | undefined;
  readonly riderMass?: string | undefined;
  /** key=value in the file form, e.g. front.spring.pressure=82 */
  readonly set: readonly string[];
  readonly force: boolean;
  readonly prompter: () => Promise<Prompter>;
}

const HEAD =
  "# A bike sheet. Clicks are counted from fully closed; the maker's manual wins over everything here.\n";

export async function bikeNew(options: BikeNewOptions, io: Io): Promise<ExitCode> {
  await refuseExisting(options.file, options.force, io);
  let draft = given(options);
  if (io.stdinIsTty && io.stdoutIsTty) {
    const asked = await askAll(draft, options);
    if (asked === undefined) {
      io.err('Nothing was written.\n');
      return EXIT.interrupted;
    }
    draft = asked;
  } else if (valueAt(draft, 'id') === undefined) draft = withValueAt(draft, 'id', stem(options.file));
  const { sheet, problems } = readSheet(draft);
  if (sheet === undefined) throw new Refusal(refused(draft, problems));
  for (const { path, message, remedy } of problems) io.err(`${path.join('.')}: ${message} ${remedy}\n`);
  await writeNew(options.file, textOf(sheet, options.file), options.force, io);
  io.err(`Written: ${options.file}. Next: earshot bike check ${options.file}\n`);
  return EXIT.done;
}

function textOf(sheet: BikeSheet, file: string): string {
  return sheetText(sheet, file, HEAD);
}

/** What the options say, each mistake at once. */
function given(options: BikeNewOptions): Draft {
  let draft = emptyDraft();
  const plain: readonly (readonly [string, string | undefined])[] = [
    ['id', options.id],
    ['name', options.name],
    ['kind', options.kind],
    ['units.pressure', options.units],
  ];
  for (const [path, value] of plain) if (value !== undefined) draft = withValueAt(draft, path, value);
  if (options.riderMass !== undefined) draft = withValueAt(draft, 'rider-mass', scalar(options.riderMass));
  const wrong: string[] = [];
  for (const one of options.set) {
    const equals = one.indexOf('=');
    const path = one.slice(0, equals).trim();
    if (equals < 1 || !PATH.test(path)) {
      wrong.push(`--set ${one}: write key=value, such as front.spring.pressure=82.`);
      continue;
    }
    draft = withValueAt(draft, path, scalar(one.slice(equals + 1).trim()));
  }
  if (wrong.length > 0) throw new Refusal(wrong.join('\n'));
  return draft;
}

/** `82` is a number, `[2.9, 2.6, 2.3]` a list, `5.6 bar` and everything that is no YAML a text. */
function scalar(text: string): unknown {
  try {
    return parse(text, { schema: 'core', maxAliasCount: 0 }) as unknown;
  } catch {
    return text;
  }
}

function refused(draft: Draft, problems: ReturnType<typeof readSheet>['problems']): string {
  const lines = problems
    .filter(({ severity }) => severity === 'error')
    .map(({ path, message, remedy }) => `${path.join('.') || 'sheet'}: ${message} ${remedy}`);
  const open = newSteps(draft).filter(({ path, needed }) => needed && valueAt(draft, path) === undefined);
  const named = open.filter(({ path }) => path !== 'units.pressure').map(({ path }) => hint(path));
  return [
    ...lines,
    ...(named.length === 0
      ? []
      : [`Say it all by options (or use a terminal, where it is asked): ${named.join(' ')}`]),
  ].join('\n');
}

function hint(path: string): string {
  if (path === 'id' || path === 'kind') return `--${path} ...`;
  return `--set ${path}=...`;
}

/** @returns undefined when the user left */
async function askAll(begun: Draft, options: BikeNewOptions): Promise<Draft | undefined> {
  const prompter = await options.prompter();
  let draft = begun;
  const passed = new Set<string>();
  try {
    prompter.say('Return leaves a thing open: what nobody measured is better left out than guessed.\n');
    for (let step = nextStep(draft, passed); step !== undefined; step = nextStep(draft, passed)) {
      const value = await askOne(step, draft, options.file, prompter);
      if (value === undefined) {
        if (!step.needed) passed.add(step.path);
        continue;
      }
      const next = withValueAt(draft, step.path, value);
      const wrong = problemsAt(next, step.path);
      if (wrong.some(({ severity }) => severity === 'error'))
        prompter.say(`${wrong.map(({ message, remedy }) => `  ${message} ${remedy}`).join('\n')}\n`);
      else draft = next;
    }
    return draft;
  } catch (error) {
    if (error instanceof Left) return undefined;
    throw error;
  } finally {
    await prompter.close();
  }
}

async function askOne(
  { path, ask, help, choices }: NewStep,
  draft: Draft,
  file: string,
  prompter: Prompter,
): Promise<unknown> {
  if (choices !== undefined) {
    const list = choices.map((value) => ({ value, name: value }));
    return (await prompter.ask({ head: '', message: ask, help, choices: list, actions: [] })).value;
  }
  if (path === 'id') return (await prompter.text(`${ask} (${stem(file)}):`)).trim() || stem(file);
  const unit = unitFor(path, draft);
  const shown = `${ask}${unit === '' ? '' : `, ${unit}`}${help === undefined ? '' : `. ${help}`}:`;
  const answer = (await prompter.text(shown)).trim();
  return answer === '' ? undefined : path === 'name' ? answer : scalar(answer);
}

/** The unit that a plain number will be read in. */
function unitFor(path: string, draft: Draft): string {
  const unit = (of: string, usual: string): string => String(valueAt(draft, `units.${of}`) ?? usual);
  if (/spring\.(?:pressure|min|max|maker)$|tyre\./.test(path)) return unit('pressure', 'psi');
  if (path.endsWith('-mass')) return unit('mass', 'kg');
  if (path.endsWith('spring.rate')) return unit('rate', 'N/mm');
  if (/wheelbase|travel|stroke|preload|spacers-under-stem/.test(path)) return unit('length', 'mm');
  return '';
}

function stem(file: string): string {
  return basename(file, extname(file));
}
