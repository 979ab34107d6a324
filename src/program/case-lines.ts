/** The lines on cases: diagnose, explain, interview, report, and what a rider's words mean. */
import { Option, type Command } from 'commander';
import { formatOption, jobs } from './arguments.ts';
import type { Line } from './line.ts';

export function addCaseLines(program: Command, line: Line): void {
  program
    .command('diagnose')
    .description('saved answers → what to do first, and why')
    .argument('<files...>', 'case files (YAML, JSON, NDJSON), or - for standard input')
    .addOption(formatOption(['text', 'json', 'ndjson', 'csv', 'markdown'], 'text'))
    .option('--bike <file>', 'bike sheet for cases that name none')
    .option('--no-log', 'leave out what was tested on the bike before')
    .option('--full', 'everything: evidence, all options, every caution', false)
    .option('--next', 'ndjson, csv: rank the open questions too', false)
    .option('--explain', 'ndjson: the effect of every answer too', false)
    .addOption(whom('text, markdown: trade words for a mechanic, plain words for a rider'))
    .option('--jobs <n>', 'ndjson, csv: threads for long inputs; the output is the same', jobs, 1)
    .action(async (files: string[], { for: audience, ...options }) => {
      const { diagnose } = await import('../commands/diagnose.ts');
      await line.done(
        diagnose({ files, ...options, audience, rules: line.rules(), style: await line.style() }, line.io),
      );
    });

  program
    .command('explain')
    .description('why: the evidence for and against each cause')
    .argument('<case>', 'a case file, or - for standard input')
    .argument('[cause]', 'one cause, e.g. front.rebound.high.too-slow')
    .addOption(formatOption(['text', 'json'], 'text'))
    .option('--bike <file>', 'bike sheet for a case that names none')
    .option('--no-log', 'leave out what was tested on the bike before')
    .option('--conflict', 'also the conflict measure of the answers', false)
    .addOption(whom('trade words for a mechanic, plain words for a rider'))
    .action(async (file: string, cause: string | undefined, { for: audience, ...options }) => {
      const { explain } = await import('../commands/explain.ts');
      await line.done(
        explain(
          { file, cause, ...options, audience, rules: line.rules(), style: await line.style() },
          line.io,
        ),
      );
    });

  program
    .command('interview')
    .description('questions at the prompt → what to do first, and why')
    .option('--bike <file>', 'bike sheet')
    .option('--no-log', 'leave out what was tested on the bike before')
    .addOption(whom('short for a mechanic, plain words and help for a rider'))
    .option('--save <file>', 'save the answers here')
    .option('--resume [file]', 'carry on with a saved interview; without a file, the last one')
    .option('--id <name>', 'name of the case')
    .action(async (options) => {
      const { interview } = await import('../commands/interview.ts');
      const prompter = await line.prompter();
      await line.done(
        interview({ ...options, audience: options.for, rules: line.rules(), prompter }, line.io),
      );
    });

  program
    .command('report')
    .description(
      'a pit sheet to hand over: one page with the first change, the reasons, and a trial to fill in',
    )
    .argument('<case>', 'a case file, or - for standard input')
    .addOption(formatOption(['html', 'markdown'], 'html'))
    .option('--out <file>', 'write it here; without it, or with -, to standard output')
    .option('--force', 'overwrite an existing file', false)
    .option('--bike <file>', 'bike sheet for a case that names none')
    .option('--no-log', 'leave out what was tested on the bike before')
    .addOption(whom('trade words for a mechanic, plain words for a rider'))
    .action(async (file: string, { for: audience, ...options }) => {
      const { report } = await import('../commands/report.ts');
      await line.done(report({ file, ...options, audience, rules: line.rules() }, line.io));
    });

  program
    .command('words')
    .description('what a phrase of a rider could mean; or the glossary')
    .argument('[said...]', 'the words, or with --list a term of the glossary')
    .option('--list', 'explain the words of the trade', false)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (said: string[], options) => {
      const { words } = await import('../commands/words.ts');
      await line.done(words({ said, ...options, rules: line.rules(), style: await line.style() }, line.io));
    });
}

function whom(what: string) {
  return new Option('--for <whom>', what)
    .choices(['mechanic', 'rider'] as const)
    .default('mechanic' as const);
}
