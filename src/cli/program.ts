/** The commander program, made from the commands as they say themselves what they take. */
import { Argument, Command, Help, InvalidArgumentError, Option, type OutputConfiguration } from 'commander';
import { didYouMean } from '../form/suggest.ts';
import { Refusal, type ExitCode, type Io } from '../host/io.ts';
import { showsUnicode } from '../console/shows-unicode.ts';
import { toAscii } from '../report/style.ts';
import { COMMANDS, DEFAULTS, GROUPS } from './commands.ts';
import type { AnyCommand, Here, Takes } from './takes.ts';
import { WrongValue } from './values.ts';

/** Options of the program itself; they may stand behind any command. */
const GLOBAL = {
  rules: ['--rules <folder>', 'another rule pack, laid over the built-in one (repeatable)'],
  bikes: ['--bikes <folder>', 'another folder that cases may take bike sheets from (repeatable)'],
} as const;
const COLOR = '--color';

export interface Global {
  readonly rules: readonly string[];
  readonly bikes: readonly string[];
  /** false: --no-color */
  readonly color: 'always' | 'never' | 'auto' | false;
}

/**
 * The program with the one command that the line names, for loading them all takes longer than most of them; with every
 * command where it names none of them, or wants to be told about them; with none where it asks for the version.
 * @param argv the words behind the program's name
 */
export async function programFor(
  argv: readonly string[],
  version: string,
  here: Here,
  done: (code: ExitCode) => void,
): Promise<Command> {
  const one = named(argv);
  const none = argv[0] === '--version' || argv[0] === '-V';
  return makeProgram(here, none ? [] : one === undefined ? undefined : [one], version, done);
}

/** @param paths the commands it has, by the words that lead to them; all without it */
export async function makeProgram(
  here: Here,
  paths: readonly string[] = Object.keys(COMMANDS),
  version = '',
  done: (code: ExitCode) => void = () => undefined,
): Promise<Command> {
  const program = new Command('earshot')
    .description(
      "Turns what a rider says about a mountain bike's suspension into one small, reversible, tested change.",
    )
    .option(...GLOBAL.rules, collect, [])
    .option(...GLOBAL.bikes, collect, [])
    .addOption(
      new Option(`${COLOR} <when>`, 'colour in the output')
        .choices(['auto', 'always', 'never'])
        .default('auto'),
    )
    .addOption(new Option('--no-color', 'the same as --color never'))
    .version(version, '-V, --version', 'versions of the program and of its rules')
    .configureHelp({
      showGlobalOptions: true,
      // A switch that is off and a list that is empty need no telling.
      optionDescription: (option) =>
        new Help().optionDescription(option).replace(/ \(default: (?:false|true|\[\])\)$/, ''),
    })
    .exitOverride()
    .configureOutput(output(here.io))
    .addHelpText(
      'after',
      '\nExit codes: 0 done, 1 some records or checks failed,\n2 wrong usage or unreadable input, 130 interrupted.',
    )
    .addHelpText('after', examplesText(EXAMPLES));
  const commands = await Promise.all(paths.map((path) => COMMANDS[path]!()));
  for (const [n, path] of paths.entries()) {
    const words = path.split(' ');
    const parent = words.length === 1 ? program : groupOf(words[0]!, program);
    addCommand(parent, words.at(-1)!, DEFAULTS.has(path), commands[n]!, here, done);
  }
  pointAtHelp(program, 'earshot');
  return program;
}

const EXAMPLES: AnyCommand['examples'] = [
  ['earshot interview', 'a few questions, then the one thing to do first'],
  ['earshot bike new my-bike.yaml', 'record what the bike has and how it is set'],
  ['earshot next', 'what is open on this bike'],
  ['earshot diagnose case.yaml', 'the same from saved answers'],
];

function output(io: Io): OutputConfiguration {
  const width = (): number => Math.min(100, io.width);
  return {
    writeOut: (text) => void io.out(showsUnicode(io.env, io.stdoutIsTty) ? text : toAscii(text)),
    writeErr: io.err,
    getOutHelpWidth: width,
    getErrHelpWidth: width,
  };
}

/** The command that the line begins with, whatever of the program's own options stands before it. */
function named(argv: readonly string[]): string | undefined {
  const words: string[] = [];
  for (let at = 0; at < argv.length && words.length < 2; at++) {
    const word = argv[at]!;
    if (['--rules', '--bikes', COLOR].includes(word)) at++;
    else if (!word.startsWith('-')) words.push(word);
    if (Object.hasOwn(COMMANDS, words.join(' '))) return words.join(' ');
  }
  return undefined;
}

function groupOf(name: string, program: Command): Command {
  return (
    program.commands.find((group) => group.name() === name) ??
    program.command(name).description(GROUPS[name]!)
  );
}

function addCommand(
  parent: Command,
  name: string,
  isDefault: boolean,
  { about, args = {}, options = {}, examples, run }: AnyCommand,
  here: Here,
  done: (code: ExitCode) => void,
): void {
  const command = parent.command(name, { isDefault }).description(about);
  for (const [key, takes] of Object.entries(args)) command.addArgument(argumentOf(key, takes));
  for (const [key, takes] of Object.entries(options))
    for (const option of optionsOf(key, takes)) command.addOption(option);
  command.addHelpText('after', examplesText(examples));
  const bare = isDefault && Object.keys(args).length === 0;
  if (bare) command.allowExcessArguments(true);
  command.action(async (...told: unknown[]) => {
    if (bare && command.args.length > 0) throw misplaced(parent.name(), command.args[0]!);
    const given: Record<string, unknown> = command.opts();
    for (const [n, key] of Object.keys(args).entries()) given[key] = told[n];
    for (const [key, { option }] of Object.entries(args))
      if (option !== undefined) given[key] = eitherOf(given, key, option);
    for (const [key, { onlyBike }] of Object.entries({ ...args, ...options }))
      if (onlyBike === true && given[key] === undefined)
        given[key] = (await import('../workspace/bikes/known-bikes.ts')).onlyBike(here.io);
    // What commander read by these words is what their types say.
    done(await run(given as never, here));
  });
}

/** What was said as an argument, or by an option in its place. */
function eitherOf(given: Readonly<Record<string, unknown>>, key: string, option: string): unknown {
  const { [key]: told, [option]: said } = given;
  if (told !== undefined && said !== undefined && told !== said)
    throw new Refusal(`Name one: ${String(told)}, or --${dashed(option)} ${String(said)}.`);
  return told ?? said;
}

/** A command of a group that stands behind the options of its default one, or is none. */
function misplaced(group: string, word: string): Refusal {
  const known = Object.keys(COMMANDS).flatMap((name) =>
    name.startsWith(`${group} `) ? [name.slice(group.length + 1)] : [],
  );
  return new Refusal(
    known.includes(word)
      ? `Put ${word} before the options: earshot ${group} ${word} ...`
      : `earshot ${group} has no command ${word}. ${didYouMean(word, known)} earshot ${group} --help lists them.`.replace(
          '  ',
          ' ',
        ),
  );
}

function argumentOf(key: string, { about, bare, many, choices, fallback }: Takes<unknown>): Argument {
  const name = `${dashed(key)}${many === true ? '...' : ''}`;
  const argument = new Argument(bare === true || fallback !== undefined ? `[${name}]` : `<${name}>`, about);
  if (choices !== undefined) argument.choices([...choices]);
  return fallback === undefined ? argument : argument.default(fallback);
}

function optionsOf(key: string, takes: Takes<unknown>): Option[] {
  const { about, value, short, choices, parse, fallback, bare, many, off } = takes;
  if (off !== undefined)
    return [
      ...(off.also === undefined ? [] : [new Option(`--${dashed(key)}`, off.also).default(true)]),
      new Option(`--no-${dashed(key)}`, about),
    ];
  const place = value === undefined ? '' : bare === true ? ` [${value}]` : ` <${value}>`;
  const option = new Option(`${short === undefined ? '' : `${short}, `}--${dashed(key)}${place}`, about);
  if (choices !== undefined) option.choices([...choices]);
  if (many === true) option.argParser(collect);
  if (parse !== undefined) option.argParser((text) => refused(parse, text));
  return [fallback === undefined ? option : option.default(fallback)];
}

function refused(parse: (text: string) => unknown, text: string): unknown {
  try {
    return parse(text);
  } catch (error) {
    if (error instanceof WrongValue) throw new InvalidArgumentError(error.message);
    throw error;
  }
}

/** For an option that may come several times. */
function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

/** `bothWays` → `both-ways`. */
function dashed(key: string): string {
  return key.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function examplesText(examples: AnyCommand['examples']): string {
  return `\nExamples:\n${examples.map(([line, about]) => `  ${line}\n      ${about}`).join('\n')}`;
}

/** Whoever called a command wrongly is sent to the help of that command. */
function pointAtHelp(command: Command, name: string): void {
  const says = command.commands.length > 0 ? 'lists the commands' : 'lists its options';
  const wanted = command.registeredArguments.filter(({ required }) => required);
  const what = wanted.map((one) => `${one.name()}: ${one.description}\n`).join('');
  command.showHelpAfterError(`${what}(${name} --help ${says})`);
  for (const sub of command.commands) pointAtHelp(sub, `${name} ${sub.name()}`);
}
