/** Builds the commander program; each command's module is imported only when it is called. */
import { Argument, Command, CommanderError, Help, Option } from 'commander';
import { EXIT, Refusal, type ExitCode, type Io } from './commands/io.ts';
import { processIo } from './commands/process-io.ts';
import { VERSION } from './commands/version.ts';
import { showsUnicode } from './console/shows-unicode.ts';
import { collect } from './program/arguments.ts';
import { findBike } from './program/bike-option.ts';
import { addBikeLines } from './program/bike-lines.ts';
import { addCaseLines } from './program/case-lines.ts';
import type { Line } from './program/line.ts';
import { addRulesLines } from './program/rules-lines.ts';
import { addTrialLines } from './program/trial-lines.ts';
import { printableLines, printableOut } from './report/foreign-text.ts';
import { toAscii } from './report/style.ts';

interface Global {
  readonly rules: readonly string[];
  readonly bikes: readonly string[];
  readonly color: 'always' | 'never' | 'auto';
}

/**
 * @param version what --version prints
 * @returns the program, a getter of the exit code its action came to, and whether its text is marked with colours
 */
export function buildProgram(
  io: Io,
  version = VERSION,
): { program: Command; exit: () => ExitCode; marked: () => boolean } {
  let code: ExitCode = EXIT.done;
  let marked = false;
  const program = new Command('earshot');
  const global = (): Global => program.opts<Global>();
  const line: Line = {
    io,
    rules: () => global().rules,
    style: async () => {
      const { styleFor } = await import('./console/style.ts');
      const style = styleFor({
        isTty: io.stdoutIsTty,
        width: io.width,
        env: io.env,
        color: global().color,
      });
      marked = style.strong('x') !== 'x';
      return style;
    },
    prompter: async () => {
      const [{ openPrompter }, style] = await Promise.all([import('./console/prompter.ts'), line.style()]);
      return () => openPrompter({ input: process.stdin, output: process.stdout, env: io.env }, style);
    },
    done: (result) => result.then((c) => void (code = c)),
  };

  program
    .description(
      "From what a rider says about a mountain bike's suspension to one small, reversible, tested change.",
    )
    .option('--rules <folder>', 'a further rule pack, laid over the built-in one (repeatable)', collect, [])
    .option('--bikes <folder>', 'a further folder where cases may name bike sheets (repeatable)', collect, [])
    .addOption(
      new Option('--color <when>', 'colour in the output')
        .choices(['auto', 'always', 'never'])
        .default('auto'),
    )
    .version(version, '-V, --version', 'versions of the program and of its rules')
    .configureHelp({
      showGlobalOptions: true,
      // A switch that is off and a list that is empty need no telling.
      optionDescription: (option) =>
        new Help().optionDescription(option).replace(/ \(default: (?:false|true|\[\])\)$/, ''),
    })
    .exitOverride()
    .configureOutput({
      writeOut: (text) => void io.out(showsUnicode(io.env, io.stdoutIsTty) ? text : toAscii(text)),
      writeErr: io.err,
      getOutHelpWidth: () => Math.min(100, io.width),
      getErrHelpWidth: () => Math.min(100, io.width),
    })
    .addHelpText(
      'after',
      '\nExit codes: 0 done, 1 some records or checks failed,\n2 wrong usage or unreadable input, 130 interrupted.',
    );

  addCaseLines(program, line);
  addBikeLines(program, line);
  addTrialLines(program, line);
  addRulesLines(program, line);
  program
    .command('completion')
    .description('a script that lets the shell complete commands, options and files')
    .addArgument(new Argument('<shell>', 'which shell').choices(['bash', 'zsh', 'fish']))
    .action(async (shell: 'bash' | 'zsh' | 'fish') => {
      const { completion } = await import('./commands/completion.ts');
      await line.done(completion(shell, program, io));
    });

  program.hook('preAction', (_, command) => findBike(command, io));
  pointAtHelp(program, 'earshot');
  return { program, exit: () => code, marked: () => marked };
}

/** Whoever called a command wrongly is sent to the help of that command. */
function pointAtHelp(command: Command, name: string): void {
  const says = command.commands.length > 0 ? 'lists the commands' : 'says what it takes';
  command.showHelpAfterError(`(${name} --help ${says})`);
  for (const sub of command.commands) pointAtHelp(sub, `${name} ${sub.name()}`);
}

/** The rules' version costs a file to read, so only a line that may ask for it does. */
async function versionOf(argv: readonly string[]): Promise<string> {
  if (!argv.includes('--version') && !argv.includes('-V')) return VERSION;
  return (await import('./commands/built-in.ts')).versionText();
}

function asksForHelp(argv: readonly string[]): boolean {
  return argv.length < 3 || ['help', '-h', '--help'].some((word) => argv.includes(word));
}

/** Messages quote files, ids and words of the user; only progress, which begins with a return, moves the cursor. */
function fit(text: string, unicode: boolean): string {
  const printable = text.startsWith('\r') ? text : printableLines(text);
  return unicode ? printable : toAscii(printable);
}

/** Runs one command line. Never throws; every known mistake is one clear line, an unknown one asks for a report. */
export async function run(argv: readonly string[], given: Io): Promise<ExitCode> {
  const unicode = showsUnicode(given.env, given.stderrIsTty);
  // Not a copy: that would open standard input.
  const io: Io = Object.create(given, {
    err: { value: (text: string) => given.err(fit(text, unicode)) },
    out: { value: (text: string) => given.out(printableOut(text, marked())) },
    packs: { get: () => program.opts<Global>().rules },
    bikes: { get: () => program.opts<Global>().bikes },
  });
  const { program, exit, marked } = buildProgram(io, await versionOf(argv));
  if (asksForHelp(argv)) (await import('./commands/help-examples.ts')).addExamples(program);
  try {
    await program.parseAsync(argv, { from: 'user' });
    return exit();
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
    if (error instanceof Refusal) {
      io.err(`${error.message}\n`);
      return error.exit;
    }
    io.err(
      `This is a fault of earshot ${VERSION}, not of yours. Please report it with these lines:\n${(error as Error).stack ?? String(error)}\n`,
    );
    return EXIT.usage;
  }
}

/** The entry point of the binary. */
export async function main(): Promise<void> {
  const io = processIo();
  process.exitCode = await run(process.argv.slice(2), io);
  // Whoever interrupted does not wait for the end of what is sent.
  if (process.exitCode === EXIT.interrupted) process.stdin.destroy();
  // What is left to wait for is then only the engine, compiling code that nobody will run.
  if (io.allWritten()) process.exit();
}
