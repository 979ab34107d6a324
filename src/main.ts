/** Builds the commander program; each command's module is imported only when it is called. */
import { Argument, Command, CommanderError, Help, InvalidArgumentError, Option } from 'commander';
import { EXIT, Refusal, type ExitCode, type Io } from './commands/io.ts';
import { processIo } from './commands/process-io.ts';
import { VERSION } from './commands/version.ts';
import { printableLines } from './report/foreign-text.ts';

interface Global {
  readonly rules: readonly string[];
  readonly color: 'always' | 'never' | 'auto';
}

/**
 * @param version what --version prints
 * @returns the program, and a getter of the exit code its action came to
 */
export function buildProgram(io: Io, version = VERSION): { program: Command; exit: () => ExitCode } {
  let code: ExitCode = EXIT.done;
  const program = new Command('earshot');
  const done = (result: Promise<ExitCode>): Promise<void> => result.then((c) => void (code = c));
  const global = (): Global => program.opts<Global>();
  const style = async (color = global().color, isTty = io.stdoutIsTty) => {
    const { styleFor } = await import('./console/style.ts');
    return styleFor({ isTty, width: io.width, env: io.env, color });
  };
  const collect = (value: string, before: readonly string[]): readonly string[] => [...before, value];
  const format = (choices: readonly string[], fallback: string): Option =>
    new Option('-f, --format <form>', 'form of the output').choices([...choices]).default(fallback);

  program
    .description(
      "From what a rider says about a mountain bike's suspension to one small, reversible, tested change.",
    )
    .option('--rules <folder>', 'a further rule pack, laid over the built-in one (repeatable)', collect, [])
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
    .showHelpAfterError('(earshot --help lists the commands)')
    .exitOverride()
    .configureOutput({
      writeOut: (text) => void io.out(text),
      writeErr: io.err,
      getOutHelpWidth: () => Math.min(100, io.width),
      getErrHelpWidth: () => Math.min(100, io.width),
    })
    .addHelpText(
      'after',
      '\nExit codes: 0 done, 1 some records or checks failed,\n2 wrong usage or unreadable input, 130 interrupted.',
    );

  program
    .command('diagnose')
    .description('saved cases → what to do first, and why')
    .argument('<files...>', 'case files (YAML, JSON, NDJSON), or - for standard input')
    .addOption(format(['text', 'json', 'ndjson', 'csv', 'markdown'], 'text'))
    .option('--bike <file>', 'bike sheet for cases that name none; earlier trials in its log count')
    .option('--no-log', 'leave the log of that bike out of it')
    .option('--full', 'everything: evidence, all candidates, every caution', false)
    .option('--next', 'ndjson, csv: rank the open questions too', false)
    .option('--explain', 'ndjson: the effect of every answer too', false)
    .action(async (files: string[], options) => {
      const { diagnose } = await import('./commands/diagnose.ts');
      await done(diagnose({ files, ...options, rules: global().rules, style: await style() }, io));
    });

  program
    .command('explain')
    .description('why: the evidence for and against each cause')
    .argument('<case>', 'a case file, or -')
    .argument('[cause]', 'one cause, e.g. front.rebound.high.too-slow')
    .addOption(format(['text', 'json'], 'text'))
    .option('--bike <file>', 'bike sheet for a case that names none; earlier trials in its log count')
    .option('--no-log', 'leave the log of that bike out of it')
    .option('--conflict', 'also the conflict measure of the answers', false)
    .action(async (file: string, cause: string | undefined, options) => {
      const { explain } = await import('./commands/explain.ts');
      await done(explain({ file, cause, ...options, rules: global().rules, style: await style() }, io));
    });

  program
    .command('interview')
    .description('questions at the prompt → what to do first, and why')
    .option('--bike <file>', 'bike sheet; earlier trials in its log count')
    .option('--no-log', 'leave the log of that bike out of it')
    .addOption(
      new Option('--for <whom>', 'terse for a mechanic, plain words and help for a rider')
        .choices(['mechanic', 'rider'])
        .default('mechanic'),
    )
    .option('--save <file>', 'keep the case here')
    .option('--resume [file]', 'go on with a saved case; without a file, with the interview kept last')
    .option('--id <name>', 'name of the case')
    .action(async (options) => {
      const [{ interview }, { openPrompter }] = await Promise.all([
        import('./commands/interview.ts'),
        import('./console/prompter.ts'),
      ]);
      const shown = await style();
      const prompter = () =>
        openPrompter({ input: process.stdin, output: process.stdout, env: io.env }, shown);
      await done(interview({ ...options, audience: options.for, rules: global().rules, prompter }, io));
    });

  const bike = program
    .command('bike')
    .description('the bike sheet: write one, look at it, check it, begin from it');
  bike
    .command('new')
    .description('write a new sheet, asked at the prompt or all by options')
    .argument('<file>', 'the sheet to write, .yaml or .json')
    .option('--id <name>', 'short name of the bike, for files and logs')
    .option('--name <text>', 'its full name')
    .option('--kind <kind>', 'trail, enduro or downhill')
    .addOption(new Option('--units <unit>', 'of pressures').choices(['psi', 'bar', 'kPa']))
    .option('--rider-mass <mass>', 'with kit: 84, or 185lb')
    .option(
      '--set <key=value>',
      'anything else, as the file has it: front.travel=170, front.rebound.low.clicks=16 (repeatable)',
      collect,
      [],
    )
    .option('--force', 'write over a file that is there', false)
    .action(async (file: string, options) => {
      const [{ bikeNew }, { openPrompter }] = await Promise.all([
        import('./commands/bike-new.ts'),
        import('./console/prompter.ts'),
      ]);
      const shown = await style();
      const prompter = () =>
        openPrompter({ input: process.stdin, output: process.stdout, env: io.env }, shown);
      await done(bikeNew({ ...options, file, prompter }, io));
    });
  bike
    .command('show')
    .description("where everything stands, the maker's start, and the room left each way")
    .argument('<file>', 'bike sheet')
    .addOption(format(['text', 'json'], 'text'))
    .action(async (file: string, options) => {
      const { bikeShow } = await import('./commands/bike-show.ts');
      await done(bikeShow({ ...options, file, style: await style() }, io));
    });
  bike
    .command('check')
    .description('what is missing, beyond a limit or against itself; exit code 1 when something must be done')
    .argument('<file>', 'bike sheet')
    .addOption(format(['text', 'json'], 'text'))
    .action(async (file: string, options) => {
      const { bikeCheck } = await import('./commands/bike-show.ts');
      await done(bikeCheck({ ...options, file, style: await style() }, io));
    });
  bike
    .command('start')
    .description("where to begin: spring, clicks and balance; the maker's sheet wins where there is one")
    .argument('<file>', 'bike sheet')
    .option('--write <file>', 'write a sheet with the starting points in it')
    .option('--force', 'write over a file that is there', false)
    .addOption(format(['text', 'json'], 'text'))
    .action(async (file: string, options) => {
      const { bikeStart } = await import('./commands/bike-show.ts');
      await done(bikeStart({ ...options, file, style: await style() }, io));
    });

  const log = program.command('log').description('what was done to a bike, and the way back');
  const logOn = (name: string, about: string, isDefault = false): Command =>
    log.command(name, { isDefault }).description(about).requiredOption('--bike <file>', 'bike sheet');
  logOn('history', 'every click, pressure and part with date and reason (the default)', true)
    .option('--last <n>', 'only so many of the newest', wholeNumber)
    .addOption(format(['text', 'json'], 'text'))
    .action(async (options) => {
      const { logHistory } = await import('./commands/log.ts');
      await done(logHistory({ ...options, style: await style() }, io));
    });
  logOn('change', 'set something: into the log and the sheet together')
    .argument('<change>', 'for example front.rebound.low+2, several separated by commas')
    .option('--reason <text>', 'why')
    .action(async (change: string, options) => {
      const { logChange } = await import('./commands/log-write.ts');
      await done(logChange({ ...options, change, style: await style() }, io));
    });
  logOn('undo', 'take the last change back, in the log and on the sheet; again for the one before')
    .option('--reason <text>', 'why')
    .action(async (options) => {
      const { logUndo } = await import('./commands/log-write.ts');
      await done(logUndo({ ...options, style: await style() }, io));
    });
  logOn('note', 'write down words only')
    .argument('<text...>', 'the words')
    .action(async (words: string[], options) => {
      const { logNote } = await import('./commands/log-write.ts');
      await done(logNote({ ...options, text: words.join(' '), style: await style() }, io));
    });
  logOn('start', 'everything was counted afresh: the log begins again from what the sheet says')
    .option('--reason <text>', 'why')
    .action(async (options) => {
      const { logStart } = await import('./commands/log-write.ts');
      await done(logStart({ ...options, style: await style() }, io));
    });
  logOn('diff', 'what stands differently between two days')
    .argument('<from>', 'year-month-day')
    .argument('[to]', 'year-month-day; now when left out')
    .addOption(format(['text', 'json'], 'text'))
    .action(async (from: string, to: string | undefined, options) => {
      const { logDiff } = await import('./commands/log.ts');
      await done(logDiff({ ...options, from, to, style: await style() }, io));
    });
  logOn('export', 'the whole history for other tools')
    .addOption(format(['csv', 'json'], 'csv'))
    .action(async (options) => {
      const { logExport } = await import('./commands/log.ts');
      await done(logExport(options, io));
    });

  const trial = program.command('trial').description('a fair test of one change: plan it, ride it, judge it');
  const trialOn = (name: string, about: string): Command =>
    trial
      .command(name)
      .description(about)
      .requiredOption('--bike <file>', 'bike sheet')
      .option('--trial <id>', 'which trial; not needed while only one is open');
  trial
    .command('plan')
    .description('runs, settings and blanks on a sheet to print, and the trial into the log of the bike')
    .requiredOption('--bike <file>', 'bike sheet')
    .option('--change <change>', 'what to try, for example front.rebound.low+2')
    .option('--case <file>', 'try what this case would do first')
    .option('--id <name>', 'name of the trial')
    .option('--save', 'keep it in the log, as is done without this word too', true)
    .option('--no-save', 'print only')
    .addOption(format(['text', 'json'], 'text'))
    .action(async (options) => {
      const { trialPlan } = await import('./commands/trial-plan.ts');
      await done(trialPlan({ ...options, rules: global().rules, style: await style() }, io));
    });
  trialOn('record', 'write down a run: at the prompt, or with --rating')
    .option('--run <run>', 'reference, plus, minus or sham; or the number of the run on the sheet')
    .option('--rating <feeling=1..7>', 'one rating, such as grip=5 (repeatable)', collect, [])
    .option('--time <time>', 'time of the run, 61.2 or 1:01.2')
    .option('--note <text>', 'anything worth keeping')
    .option('--drop-last', 'take the last run off again', false)
    .action(async (options) => {
      const [{ trialRecord }, { openPrompter }] = await Promise.all([
        import('./commands/trial-record.ts'),
        import('./console/prompter.ts'),
      ]);
      const shown = await style();
      const prompter = () =>
        openPrompter({ input: process.stdin, output: process.stdout, env: io.env }, shown);
      await done(trialRecord({ ...options, prompter }, io));
    });
  trialOn('judge', 'keep, back, further, half the step, or cannot tell; a verdict goes into sheet and log')
    .option('--close', 'end it now: with the verdict so far, or back at the reference', false)
    .addOption(format(['text', 'json'], 'text'))
    .action(async (options) => {
      const { trialJudge } = await import('./commands/trial-judge.ts');
      await done(trialJudge({ ...options, style: await style() }, io));
    });

  program
    .command('next')
    .description('where this bike stands, what is open, and the one thing to do next')
    .requiredOption('--bike <file>', 'bike sheet')
    .addOption(format(['text', 'json'], 'text'))
    .action(async (options) => {
      const { next } = await import('./commands/next.ts');
      await done(next({ ...options, rules: global().rules, style: await style() }, io));
    });

  program
    .command('predict')
    .description('what a change does on this bike, before → after')
    .option('--bike <file>', 'bike sheet')
    .addOption(
      new Option('--kind <kind>', 'default bike when no sheet is given')
        .choices(['trail', 'enduro', 'downhill'])
        .default('enduro'),
    )
    .option('--change <change>', 'for example front.rebound.low+2, several separated by commas')
    .option('--sweep <knob>', 'a knob over its whole range: where packing and kicking begin')
    .option('--slope <degrees>', 'how the same clicks act on a slope', degrees)
    .option('--celsius <degrees>', 'oil temperature', degrees)
    .option('--svg <file>', 'write the plots as an SVG file')
    .option('--full', 'also what hardly moves, and what each number means', false)
    .addOption(format(['text', 'json'], 'text'))
    .action(async (options) => {
      const { predict } = await import('./commands/predict.ts');
      await done(predict({ ...options, style: await style() }, io));
    });

  program
    .command('report')
    .description(
      'a pit sheet to hand over: one page with the first change, its reasons, and its trial to fill in',
    )
    .argument('<case>', 'a case file, or -')
    .addOption(format(['html', 'markdown'], 'html'))
    .option('--out <file>', 'write it here; without it, or with -, to standard output')
    .option('--force', 'write over a file that is there', false)
    .option('--bike <file>', 'bike sheet for a case that names none')
    .action(async (file: string, options) => {
      const { report } = await import('./commands/report.ts');
      await done(report({ file, ...options, rules: global().rules }, io));
    });

  program
    .command('words')
    .description('what a phrase of a rider could mean; or the glossary')
    .argument('[said...]', 'the words, or with --list a term of the glossary')
    .option('--list', 'explain the words of the trade', false)
    .addOption(format(['text', 'json'], 'text'))
    .action(async (said: string[], options) => {
      const { words } = await import('./commands/words.ts');
      await done(words({ said, ...options, rules: global().rules, style: await style() }, io));
    });

  const rules = program.command('rules').description('look at, check and try the rules');
  for (const [name, about, lints] of [
    ['check', 'schema, lints and every check, all findings at once', true],
    ['test', 'only the checks that stand beside the rules', false],
  ] as const) {
    const command = rules
      .command(name)
      .description(about)
      .option('--only <text>', 'only checks whose name or place matches')
      .addOption(format(['text', 'json'], 'text'));
    if (lints)
      command.option(
        '--sensitivity',
        'instead: the words on which most checks hang, each moved by one (about a minute)',
        false,
      );
    command.action(async ({ sensitivity, ...options }) => {
      if (sensitivity) {
        const { rulesSensitivity } = await import('./commands/rules-sensitivity.ts');
        await done(rulesSensitivity({ ...options, rules: global().rules, style: await style() }, io));
        return;
      }
      const { rulesCheck } = await import('./commands/rules-check.ts');
      await done(rulesCheck({ ...options, lints, rules: global().rules }, io));
    });
  }
  rules
    .command('show')
    .description('one rule in words, or a list: questions, causes, settings, adjustments, cautions')
    .argument('[id]', 'an id, or the name of a list')
    .addOption(format(['text', 'json'], 'text'))
    .action(async (id: string | undefined, options) => {
      const { rulesShow } = await import('./commands/rules-show.ts');
      await done(rulesShow({ id, ...options, rules: global().rules, style: await style() }, io));
    });
  rules
    .command('audit')
    .description('the rules that carry physics, against the model of three default bikes')
    .option('--full', 'the numbers of every run, and what the model cannot reach', false)
    .addOption(format(['text', 'json'], 'text'))
    .action(async (options) => {
      const { rulesAudit } = await import('./commands/rules-audit.ts');
      await done(rulesAudit({ ...options, rules: global().rules, style: await style() }, io));
    });
  rules
    .command('simulate')
    .description('made-up riders, interviewed by the engine: how often it finds what is off, and how soon')
    .option('--riders <n>', 'how many', wholeNumber, 500)
    .option('--seed <n>', 'same seed, same riders', wholeNumber, 1)
    .option('--most <n>', 'questions at most', wholeNumber, 20)
    .option('--slips <p>', 'share of answers replaced by another', probability, 0.05)
    .option('--misread <p>', 'share of checks on the bike that are misread', probability, 0.01)
    .option('--cannot-tell <p>', "share of answers that are can't tell", probability, 0.05)
    .option('--topic-wrong <p>', 'share of topics misremembered as a whole', probability, 0.05)
    .option('--end-mixed-up <p>', 'share of riders who mix up front and rear', probability, 0)
    .option('--repeats <p>', 'share of answers that only repeat the last one of the topic', probability, 0)
    .option('--compare', 'against a fixed and a random order of questions', false)
    .option('--confusion', 'which cause is named first for which', false)
    .addOption(format(['text', 'json'], 'text'))
    .action(async ({ slips, misread, cannotTell, topicWrong, endMixedUp, repeats, ...options }) => {
      const { rulesSimulate } = await import('./commands/rules-simulate.ts');
      const manners = { slips, misread, cannotTell, topicWrong, endMixedUp, repeats };
      await done(rulesSimulate({ ...options, manners, rules: global().rules }, io));
    });
  rules
    .command('learn')
    .description('from logged outcomes to strengths: which words of the rules your own cases would move')
    .argument('<logs...>', 'case files with results (YAML, JSON, NDJSON), the folder of a log, or -')
    .option('--out <folder>', 'write the moved words as a pack of your own, into a new folder')
    .option('--bike <file>', 'bike sheet for cases that name none')
    .option('--weight <n>', "how many cases the pack's own words count for", wholeNumber, 20)
    .option('--full', 'every strength, also those that stay', false)
    .addOption(format(['text', 'json'], 'text'))
    .action(async (logs: string[], options) => {
      const { rulesLearn } = await import('./commands/rules-learn.ts');
      await done(rulesLearn({ logs, ...options, rules: global().rules, style: await style() }, io));
    });
  rules
    .command('schema')
    .description('the JSON Schema of a file form, for editors: rules, pack, case, result, bike')
    .argument('[form]', 'which form', 'rules')
    .action(async (what: string) => {
      const { rulesSchema } = await import('./commands/rules-show.ts');
      await done(rulesSchema(what, io));
    });

  program
    .command('completion')
    .description('a script that lets the shell complete commands, options and files')
    .addArgument(new Argument('<shell>', 'which shell').choices(['bash', 'zsh', 'fish']))
    .action(async (shell: 'bash' | 'zsh' | 'fish') => {
      const { completion } = await import('./commands/completion.ts');
      await done(completion(shell, program, io));
    });

  return { program, exit: () => code };
}

function wholeNumber(text: string): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1)
    throw new InvalidArgumentError('Write a whole number from 1 up.');
  return value;
}

function degrees(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= -40 && value <= 150))
    throw new InvalidArgumentError('Write a number of degrees, such as 25.');
  return value;
}

function probability(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= 0 && value <= 1))
    throw new InvalidArgumentError('Write a number from 0 to 1, such as 0.1.');
  return value;
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
function fit(text: string): string {
  return text.startsWith('\r') ? text : printableLines(text);
}

/** Runs one command line. Never throws; every known mistake is one clear line, an unknown one asks for a report. */
export async function run(argv: readonly string[], given: Io): Promise<ExitCode> {
  // Not a copy: that would open standard input.
  const io: Io = Object.create(given, { err: { value: (text: string) => given.err(fit(text)) } });
  const { program, exit } = buildProgram(io, await versionOf(argv));
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
  process.exitCode = await run(process.argv.slice(2), processIo());
  // With all written, what is left to wait for is the engine compiling code that nobody will run.
  if (process.stdout.writableLength === 0 && process.stderr.writableLength === 0) process.exit();
}
