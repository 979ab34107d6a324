/** `earshot bike new FILE`: a new bike sheet, asked at the prompt or all by options. */
import { arg, choice, command, flag, text, texts, type Given, type Here } from '../../takes.ts';
import { basename, extname, resolve } from 'node:path';
import { emptyDraft, PATH, valueAt, withValueAt, type Draft } from '../../../bike/form/draft.ts';
import { newSteps } from '../../../bike/form/new-steps.ts';
import { dottedLine, type PathProblem } from '../../../form/problem.ts';
import type { OwnSetting } from '../../../bike/own-setting.ts';
import { draftOf } from '../../../bike/form/said.ts';
import { readSheet } from '../../../bike/form/read.ts';
import { BIKE_KINDS } from '../../../bike/sheet.ts';
import { typedValue } from './typed-value.ts';
import { hear } from '../../../casework/evidence.ts';
import type { NewBike } from '../../asking/new-bike-prompt.ts';
import { intoLog } from '../../asking/interview-log.ts';
import { keptCase } from '../../../workspace/cases/kept-case.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import { openWorkspace } from '../../../workspace/workspace.ts';
import { readRecords } from '../../../workspace/cases/records.ts';
import { loadRules } from '../../../workspace/rules/load-rules.ts';
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
  Pick<Here, 'prompter'> & {
    /** what the sheet begins with */
    readonly begun?: Draft;
    /** the only knobs to be counted now, as settings; nothing else is asked then but what a sheet cannot be without */
    readonly count?: readonly string[];
  };

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
  const { adjusters: own, sheetAsks: asks } = await loadRules(io, io.packs);
  const told = options.case === undefined ? undefined : await toldIn(options.case, io);
  let draft = given(options, told?.draft ?? options.begun);
  if (io.stdinIsTty && io.stdoutIsTty) {
    refuseWrong(draft, own);
    const asked = await atPrompt(draft, { own, asks }, options);
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
  io.err(`Written: ${options.file}\n`);
  if (told?.stop === true) {
    io.err(`STOP: do not ride this bike until what ${options.case} found is fixed.\n`);
    await intoLog(told, sheet.id, told.path, io);
  }
  if (options.count === undefined)
    io.err(
      `What else is worth writing down: earshot bike check ${quoted(options.file)}${packArgs(io.packs)}\n`,
    );
  return EXIT.done;
}

async function atPrompt(
  draft: Draft,
  pack: Pick<NewBike, 'own' | 'asks'>,
  { file, all, count, prompter: open }: BikeNewOptions,
): Promise<Draft | undefined> {
  const { askBike } = await import('../../asking/new-bike-prompt.ts');
  const prompter = await open();
  try {
    return await askBike(draft, { ...pack, id: stem(file), all, count }, prompter);
  } finally {
    await prompter.close();
  }
}

/** A case that a sheet is begun from. */
interface Told {
  readonly id: string;
  /** full path */
  readonly path: string;
  /** what it says that the bike has */
  readonly draft: Draft;
  /** it found that the bike must not be ridden; the log of the new sheet is told */
  readonly stop: boolean;
}

async function toldIn(file: string, io: Io): Promise<Told> {
  const workspace = await openWorkspace(io, io.packs ?? []);
  for await (const record of readRecords([file], io)) {
    const opened = await workspace.open(record);
    if ('faults' in opened) throw new Refusal(opened.faults.join('\n'));
    const { kase, bench } = opened;
    const { has, id, answers } = kase;
    if (has === undefined) break;
    return {
      id,
      path: resolve(io.cwd, keptCase(file, io)),
      draft: draftOf(has.bike, has.raw),
      stop: hear(workspace.model, answers, bench.fact).dangers.length > 0,
    };
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
    ...(named.length === 0 ? [] : [`Use a terminal to be asked, or give these options: ${named.join(' ')}`]),
  ].join('\n');
}

function hint(path: string): string {
  if (path === 'id' || path === 'kind') return `--${path} ...`;
  return `--set ${path}=...`;
}

function stem(file: string): string {
  return basename(file, extname(file));
}
