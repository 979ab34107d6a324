/** The lines on the rules themselves. */
import type { Command } from 'commander';
import { formatOption, probability, wholeNumber } from './arguments.ts';
import type { Line } from './line.ts';

export function addRulesLines(program: Command, line: Line): void {
  const rules = program.command('rules').description('look at, check and try the rules');
  for (const [name, about, lints] of [
    ['check', 'schema, lints and every check, all findings at once', true],
    ['test', 'only the checks that stand beside the rules', false],
  ] as const) {
    const command = rules
      .command(name)
      .description(about)
      .option('--only <text>', 'only checks whose name or place matches')
      .addOption(formatOption(['text', 'json'], 'text'));
    if (lints)
      command
        .option(
          '--sensitivity',
          'instead: the words on which most checks hang, each moved by one (about a minute)',
          false,
        )
        .option('--disputed', 'instead: the links on which the heads behind the rules differ most', false)
        .option('--most <count>', 'with --disputed: how many to list', wholeNumber, 20);
    command.action(async ({ sensitivity, disputed, most, ...options }) => {
      if (disputed) {
        const { rulesDisputed } = await import('../commands/rules-disputed.ts');
        await line.done(
          rulesDisputed({ ...options, most, rules: line.rules(), style: await line.style() }, line.io),
        );
        return;
      }
      if (sensitivity) {
        const { rulesSensitivity } = await import('../commands/rules-sensitivity.ts');
        await line.done(
          rulesSensitivity({ ...options, rules: line.rules(), style: await line.style() }, line.io),
        );
        return;
      }
      const { rulesCheck } = await import('../commands/rules-check.ts');
      await line.done(rulesCheck({ ...options, lints, rules: line.rules() }, line.io));
    });
  }
  rules
    .command('show')
    .description('one rule in words, or a list: questions, causes, settings, adjustments, cautions')
    .argument('[id]', 'an id, or the name of a list')
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (id: string | undefined, options) => {
      const { rulesShow } = await import('../commands/rules-show.ts');
      await line.done(rulesShow({ id, ...options, rules: line.rules(), style: await line.style() }, line.io));
    });
  rules
    .command('audit')
    .description('the rules that carry physics, against the model of three default bikes')
    .option('--full', 'the numbers of every run, and what the model cannot reach', false)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (options) => {
      const { rulesAudit } = await import('../commands/rules-audit.ts');
      await line.done(rulesAudit({ ...options, rules: line.rules(), style: await line.style() }, line.io));
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
    .option('--echoes <p>', 'share of answers coloured by an earlier sign of any topic', probability, 0)
    .option('--twice', 'every question from memory a second time, in other words, answered the same', false)
    .option('--compare', 'against a fixed and a random order of questions', false)
    .option('--confusion', 'which cause is named first for which', false)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async ({ slips, misread, cannotTell, topicWrong, endMixedUp, echoes, ...options }) => {
      const { rulesSimulate } = await import('../commands/rules-simulate.ts');
      const manners = { slips, misread, cannotTell, topicWrong, endMixedUp, echoes };
      await line.done(rulesSimulate({ ...options, manners, rules: line.rules() }, line.io));
    });
  rules
    .command('learn')
    .description('from logged outcomes to strengths: which words of the rules your own cases would move')
    .argument('<logs...>', 'case files with results (YAML, JSON, NDJSON), the folder of a log, or -')
    .option('--out <folder>', 'write the moved words as a pack of your own, into a new folder')
    .option('--bike <file>', 'bike sheet for cases that name none')
    .option('--weight <n>', "how many cases the pack's own words count for", wholeNumber, 20)
    .option('--full', 'every strength, also those that stay', false)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (logs: string[], options) => {
      const { rulesLearn } = await import('../commands/rules-learn.ts');
      await line.done(
        rulesLearn({ logs, ...options, rules: line.rules(), style: await line.style() }, line.io),
      );
    });
  rules
    .command('schema')
    .description('the JSON Schema of a file form, for editors: rules, pack, case, result, bike')
    .argument('[form]', 'which form', 'rules')
    .action(async (what: string) => {
      const { rulesSchema } = await import('../commands/rules-show.ts');
      await line.done(rulesSchema(what, line.io));
    });
}
