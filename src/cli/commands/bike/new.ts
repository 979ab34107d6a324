/** `earshot bike new FILE`: a new bike sheet, asked at the prompt or all by options. */
import { arg, choice, command, flag, text, texts, type Given, type Here } from '../../takes.ts';
import { basename, extname } from 'node:path';
import {
  emptyDraft,
  mostSteps,
  newSteps,
  nextStep,
  PATH,
  problemsAt,
  valueAt,
  withValueAt,
  type Draft,
  type NewStep,
} from '../../../bike/form/new-steps.ts';
import { dottedLine, type PathProblem } from '../../../form/problem.ts';
import type { OwnSetting } from '../../../bike/own-setting.ts';
import { draftOf } from '../../../bike/form/said.ts';
import { readSheet } from '../../../bike/form/read.ts';
import { BIKE_KINDS } from '../../../bike/sheet.ts';
import { Left, type Prompter } from '../../../console/prompter.ts';
import { typedValue } from './typed-value.ts';
import { paragraph } from '../../../report/wrap.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import { openWorkspace } from '../../../workspace/workspace.ts';
import { readRecords } from '../../../workspace/cases/records.ts';
import { ownSettings } from '../../../workspace/rules/own-settings.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import { sheetText } from '../../../workspace/bikes/sheet-text.ts';
import { mayBeNew, writeNew } from '../../../disk/write-new.ts';

const args = { file: arg('the sheet to write, .yaml or .json') };
const options = {
  id: text('name', 'short name of the bike, for files and logs'),
  name: text('text', 'its full name'),
  kind: text('kind', BIKE_KINDS.join(', ')),
  units: choice('unit', 'of pressures', ['psi', 'bar', 'kPa']),
  riderMass: text('mass', 'with kit: 84, or 185lb'),
  set: texts(
    'key=value',
    'anything else, as the file has it: front.travel=170, front.rebound.low.clicks=16 (repeatable)',
  ),
  case: text('file', 'begin with what this case says the bike has'),
  all: flag('ask for everything a sheet can hold, not only what is needed first'),
  force: flag('overwrite an existing file'),
};
export type BikeNewOptions = Given<typeof args & typeof options> &
  Pick<Here, 'prompter'> & { /** what the sheet begins with */ readonly begun?: Draft };

export const bikeNewCommand = command({
  about: 'make a new sheet, at the prompt or by options',
  args,
  options,
  examples: [
    ['earshot bike new my-bike.yaml', 'asked at the prompt'],
    ['earshot bike new my-bike.yaml --id birch --kind enduro --rider-mass 84', 'start with what is known'],
  ],
  run: (given, { io, prompter }) => bikeNew({ ...given, prompter }, io),
});

const HEAD =
  "# A bike sheet. Clicks are counted from fully closed; the manufacturer's manual wins over everything here.\n";

export async function bikeNew(options: BikeNewOptions, io: Io): Promise<ExitCode> {
  await mayBeNew(options.file, options.force, io);
  const own = await ownSettings(io);
  const begun = options.case === undefined ? options.begun : await toldIn(options.case, io);
  let draft = given(options, begun);
  if (io.stdinIsTty && io.stdoutIsTty) {
    refuseWrong(draft, own);
    const asked = await askAll(draft, own, options);
    if (asked === undefined) {
      io.err('Nothing was written.\n');
      return EXIT.interrupted;
    }
    draft = asked;
  } else if (valueAt(draft, 'id') === undefined) draft = withValueAt(draft, 'id', stem(options.file));
  const { sheet, problems } = readSheet(draft, own);
  if (sheet === undefined) throw new Refusal(refused(draft, own, problems));
  for (const problem of problems) io.err(`${dottedLine(problem)}\n`);
  await writeNew(options.file, sheetText(sheet, options.file, HEAD, draft), options.force, io);
  io.err(`Written: ${options.file}\nNext: earshot bike check ${quoted(options.file)}${packArgs(io.packs)}\n`);
  return EXIT.done;
}

/** What a case says that its bike has, as the beginning of a sheet. */
async function toldIn(file: string, io: Io): Promise<Draft> {
  const workspace = await openWorkspace(io, io.packs ?? []);
  for await (const record of readRecords([file], io)) {
    const opened = await workspace.open(record);
    if ('faults' in opened) throw new Refusal(opened.faults.join('\n'));
    const { has } = opened.kase;
    if (has !== undefined) return draftOf(has.bike, has.raw);
    break;
  }
  throw new Refusal(`${file}: it does not say what the bike has (has:). Leave out --case.`);
}

/** What the options say, each mistake at once. */
function given(options: BikeNewOptions, begun: Draft = {}): Draft {
  let draft: Draft = { ...emptyDraft(), ...begun };
  const plain: readonly (readonly [string, string | undefined])[] = [
    ['id', options.id],
    ['name', options.name],
    ['kind', options.kind],
    ['units.pressure', options.units],
  ];
  for (const [path, value] of plain) if (value !== undefined) draft = withValueAt(draft, path, value);
  if (options.riderMass !== undefined)
    draft = withValueAt(draft, 'rider-mass', typedValue(options.riderMass));
  const wrong: string[] = [];
  for (const one of options.set) {
    const equals = one.indexOf('=');
    const path = one.slice(0, equals).trim();
    if (equals < 1 || !PATH.test(path)) {
      wrong.push(`--set ${one}: write key=value, such as front.spring.pressure=82.`);
      continue;
    }
    draft = withValueAt(draft, path, typedValue(one.slice(equals + 1).trim()));
  }
  if (wrong.length > 0) throw new Refusal(wrong.join('\n'));
  return draft;
}

/** What the options say wrongly is said before anything is asked, not after it; what they leave open is asked. */
function refuseWrong(draft: Draft, own: readonly OwnSetting[]): void {
  const wrong = readSheet(draft, own).problems.filter(
    ({ severity, path, key }) =>
      severity === 'error' && (key !== undefined || !isOpen(valueAt(draft, path.join('.')))),
  );
  if (wrong.length > 0) throw new Refusal(wrong.map(dottedLine).join('\n'));
}

/** Not said at all, or a part of the bike of which more will be asked. */
function isOpen(value: unknown): boolean {
  return value === undefined || (typeof value === 'object' && value !== null && !Array.isArray(value));
}

function refused(draft: Draft, own: readonly OwnSetting[], problems: readonly PathProblem[]): string {
  const lines = problems.filter(({ severity }) => severity === 'error').map(dottedLine);
  const open = newSteps(draft, { own }).filter(
    ({ path, needed }) => needed && valueAt(draft, path) === undefined,
  );
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

/** How far the asking has come. */
interface Asking {
  readonly draft: Draft;
  /** steps that were left open */
  readonly passed: ReadonlySet<string>;
}

/** Typed, or the letter b where there is a list, instead of an answer. */
const BACK = Symbol('back');

/** @returns undefined when the user left */
async function askAll(
  begun: Draft,
  own: readonly OwnSetting[],
  options: BikeNewOptions,
): Promise<Draft | undefined> {
  const prompter = await options.prompter();
  const say = (text: string, lead = ''): void =>
    prompter.say(`${paragraph(text, prompter.style.width - 1, lead)}\n`);
  let now: Asking = { draft: begun, passed: new Set() };
  const before: Asking[] = [];
  try {
    say('Return leaves it open: better open than guessed. ? explains, back goes back.');
    for (;;) {
      const { draft, passed } = now;
      const wanted = { own, all: options.all, passed };
      const step = nextStep(draft, wanted);
      if (step === undefined) return draft;
      const steps = newSteps(draft, wanted);
      const at = steps.findIndex(({ path }) => path === step.path) + 1;
      const most = mostSteps(draft, wanted);
      const place = `${at} of ${most}`;
      const value = await askOne(step, place, draft, options.file, prompter);
      if (value === BACK) {
        const earlier = before.pop();
        if (earlier === undefined) say('This is the first question.', '  ');
        else now = earlier;
        continue;
      }
      if (value === undefined && step.needed) {
        say('This one is needed.', '  ');
        continue;
      }
      const next = value === undefined ? draft : withValueAt(draft, step.path, value);
      const wrong = value === undefined ? [] : problemsAt(next, step.path, own);
      for (const { message, remedy } of wrong) say(`${message} ${remedy}`, '  ');
      if (wrong.some(({ severity }) => severity === 'error')) continue;
      before.push(now);
      now = { draft: next, passed: value === undefined ? new Set([...passed, step.path]) : passed };
    }
  } catch (error) {
    if (error instanceof Left) return undefined;
    throw error;
  } finally {
    await prompter.close();
  }
}

/** What there is to say about a question that explains itself. */
const NO_MORE = 'Leave it open with Return if you do not know.';

async function askOne(
  { path, ask, help, choices, needed }: NewStep,
  place: string,
  draft: Draft,
  file: string,
  prompter: Prompter,
): Promise<unknown> {
  const explain = (): void => prompter.say(`${paragraph(help ?? NO_MORE, prompter.style.width - 1, '  ')}\n`);
  if (choices !== undefined) {
    // Return leaves a question open, and answers none that has to be answered.
    const open = choices.findIndex((choice) => choice.value === undefined);
    for (;;) {
      const { value } = await prompter.ask({
        head: place,
        message: ask,
        ...(needed || open < 0 ? { deliberate: true } : { start: open }),
        choices: choices.map(({ name }) => ({ value: name, name })),
        actions: [
          { key: 'b', value: 'back', name: 'back' },
          { key: '?', value: 'explain', name: 'explain' },
        ],
      });
      if (value === 'back') return BACK;
      if (value !== 'explain') return choices.find(({ name }) => name === value)?.value;
      explain();
    }
  }
  const unit = unitFor(path, draft);
  const hints = path === 'id' ? `Return: ${stem(file)}` : help;
  const shown = `${place}  ${ask}${unit === '' ? '' : `, ${unit}`}${hints === undefined ? '' : ` (${hints})`}:`;
  for (;;) {
    const answer = (await prompter.text(shown)).trim();
    if (answer === '?') {
      explain();
      continue;
    }
    if (answer === 'back') return BACK;
    if (path === 'id') return answer || stem(file);
    if (answer === '') return undefined;
    if (path === 'name') return answer;
    // A plain number of sag is a percentage, as it is said; the file says so by its sign.
    return unit === '%' && /^\d+(?:[.,]\d+)?$/.test(answer) ? `${answer}%` : typedValue(answer);
  }
}

/** The unit that a plain number will be read in. */
function unitFor(path: string, draft: Draft): string {
  const unit = (of: string, usual: string): string => String(valueAt(draft, `units.${of}`) ?? usual);
  if (/spring\.(?:pressure|min|max|maker)$|tyre\./.test(path)) return unit('pressure', 'psi');
  if (path.endsWith('-mass')) return unit('mass', 'kg');
  if (path.endsWith('spring.rate')) return unit('rate', 'N/mm');
  if (/wheelbase|travel|stroke|preload|spacers-under-stem/.test(path)) return unit('length', 'mm');
  return path.includes('.sag.') ? '%' : '';
}

function stem(file: string): string {
  return basename(file, extname(file));
}
