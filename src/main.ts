/** Runs one command line, and turns every mistake into a clear line and an exit code. */
import { CommanderError, type Command } from 'commander';
import { EXIT, Refusal, type ExitCode, type Io } from './host/io.ts';
import { processIo } from './host/process-io.ts';
import { VERSION } from './host/root.ts';
import { showsUnicode } from './console/shows-unicode.ts';
import { makeProgram, programFor, type Global } from './cli/program.ts';
import type { Here } from './cli/takes.ts';
import { once } from './diagnosis/fast/once.ts';
import { completionTree } from './cli/tree.ts';
import { foldText } from './report/wrap.ts';
import { printableLines, printableOut } from './report/foreign-text.ts';
import { toAscii, type Style } from './report/style.ts';

/** What a command is run with, once the program's own options are known. */
function hereFor(io: Io, global: () => Global, seen: (style: Style) => void): Here {
  const style = async (): Promise<Style> => {
    const { styleFor } = await import('./console/style.ts');
    const made = styleFor({
      isTty: io.stdoutIsTty,
      width: io.width,
      env: io.env,
      color: global().color || 'never',
    });
    seen(made);
    return made;
  };
  const here: Here = {
    io,
    get rules() {
      return global().rules;
    },
    style,
    prompter: async () => {
      const [{ openPrompter }, made] = await Promise.all([import('./console/prompter.ts'), style()]);
      return openPrompter({ input: process.stdin, output: process.stdout, env: io.env }, made);
    },
    tree: async () => completionTree(await makeProgram(here)),
  };
  return here;
}

/** The rules' version costs a file to read, so only a line that may ask for it does. */
async function versionOf(argv: readonly string[]): Promise<string> {
  if (!argv.includes('--version') && !argv.includes('-V')) return VERSION;
  return (await import('./workspace/rules/built-in.ts')).versionText();
}

/** Messages quote files, ids and words of the user; only progress, which begins with a return, moves the cursor. */
function fit(text: string, unicode: boolean): string {
  const printable = text.startsWith('\r') ? text : printableLines(text);
  return unicode ? printable : toAscii(printable);
}

/** Runs one command line. Never throws; every known mistake is one clear line, an unknown one asks for a report. */
export async function run(argv: readonly string[], given: Io): Promise<ExitCode> {
  const unicode = once(() => showsUnicode(given.env, given.stderrIsTty));
  let code: ExitCode = EXIT.done;
  let marked = false;
  let program: Command | undefined;
  const global = (): Global => program!.opts<Global>();
  // Not a copy: that would open standard input.
  const io: Io = Object.create(given, {
    err: {
      value: (text: string) => {
        // For a person, who copies commands out of it; a script gets each line whole, and progress stays on its one.
        const whole = !given.stderrIsTty || text.startsWith('\r');
        given.err(fit(whole ? text : foldText(text, given.width), unicode()));
      },
    },
    out: { value: (text: string) => given.out(printableOut(text, marked)) },
    packs: { get: () => global().rules },
    bikes: { get: () => global().bikes },
  });
  const here = hereFor(io, global, (style) => (marked = style.strong('x') !== 'x'));
  try {
    program = await programFor(argv, await versionOf(argv), here, (came) => (code = came));
    await program.parseAsync(argv, { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.usage;
    if (error instanceof Refusal) {
      io.err(`${error.message}\n`);
      return error.exit;
    }
    io.err(
      `This is a fault in earshot ${VERSION}, not in what you did. Please report it with these lines:\n${(error as Error).stack ?? String(error)}\n`,
    );
    return EXIT.usage;
  }
}

/** The entry point of the binary. @param afterwards what may wait until all output is out */
export async function main(afterwards?: () => Promise<void>): Promise<void> {
  const io = processIo();
  if (afterwards !== undefined) io.afterwards?.(afterwards);
  process.exitCode = await run(process.argv.slice(2), io);
  // Whoever interrupted does not wait for the end of what is sent.
  if (process.exitCode === EXIT.interrupted) process.stdin.destroy();
  else await io.finish();
  // What is left to wait for is then only the engine, compiling code that nobody will run.
  if (io.allWritten()) process.exit();
}
