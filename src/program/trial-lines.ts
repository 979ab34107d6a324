/** The lines on trials: plan, record, judge, and what to do next. */
import type { Command } from 'commander';
import { collect, formatOption } from './arguments.ts';
import { neededBike } from './bike-option.ts';
import type { Line } from './line.ts';

export function addTrialLines(program: Command, line: Line): void {
  const trial = program.command('trial').description('a fair test of one change: plan it, ride it, judge it');
  const trialOn = (name: string, about: string): Command =>
    trial
      .command(name)
      .description(about)
      .addOption(neededBike())
      .option('--trial <id>', 'which trial; not needed while only one is open');
  trial
    .command('plan')
    .description('runs, settings and blanks on a sheet to print, and the trial into the log of the bike')
    .addOption(neededBike())
    .option('--change <change>', 'what to try, for example front.rebound.low+2')
    .option('--case <file>', 'try what this case would do first')
    .option('--both-ways', 'ride the other direction too', false)
    .option('--id <name>', 'name of the trial')
    .option('--save', 'keep it in the log, as is done without this word too', true)
    .option('--no-save', 'print only')
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (options) => {
      const { trialPlan } = await import('../commands/trial-plan.ts');
      const prompter = await line.prompter();
      await line.done(
        trialPlan({ ...options, rules: line.rules(), style: await line.style(), prompter }, line.io),
      );
    });
  trialOn('record', 'write down a run: at the prompt, or with --rating')
    .option('--run <run>', 'reference, plus or minus; or the number of the run on the sheet')
    .option('--rating <feeling=1..7>', 'one rating, such as grip=5 (repeatable)', collect, [])
    .option('--time <time>', 'time of the run, 61.2 or 1:01.2')
    .option('--note <text>', 'anything worth keeping')
    .option('--hidden', 'the rider does not know how the bike is set for each run')
    .option('--known', 'the rider knows; the trial counts for less')
    .option('--drop-last', 'take the last run off again', false)
    .action(async (options) => {
      const { trialRecord } = await import('../commands/trial-record.ts');
      const prompter = await line.prompter();
      await line.done(trialRecord({ ...options, prompter }, line.io));
    });
  trialOn('judge', 'keep, back, further, half the step, or cannot tell; a verdict goes into sheet and log')
    .option('--close', 'end it now: with the verdict so far, or back at the reference', false)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (options) => {
      const { trialJudge } = await import('../commands/trial-judge.ts');
      await line.done(trialJudge({ ...options, style: await line.style() }, line.io));
    });

  program
    .command('next')
    .description('where this bike is at, what is open, and the one thing to do next')
    .addOption(neededBike())
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (options) => {
      const { next } = await import('../commands/next.ts');
      await line.done(next({ ...options, rules: line.rules(), style: await line.style() }, line.io));
    });
}
