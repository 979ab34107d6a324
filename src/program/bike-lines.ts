/** The lines on a bike: its sheet, its log, and what a change does on it. */
import { Option, type Command } from 'commander';
import { BIKE_KINDS } from '../bike/sheet.ts';
import { collect, degrees, formatOption, wholeNumber } from './arguments.ts';
import { neededBike } from './bike-option.ts';
import type { Line } from './line.ts';

export function addBikeLines(program: Command, line: Line): void {
  const bike = program
    .command('bike')
    .description('the bike sheet: make one, show it, check it, find starting points');
  bike
    .command('new')
    .description('make a new sheet, at the prompt or by options')
    .argument('<file>', 'the sheet to write, .yaml or .json')
    .option('--id <name>', 'short name of the bike, for files and logs')
    .option('--name <text>', 'its full name')
    .option('--kind <kind>', BIKE_KINDS.join(', '))
    .addOption(new Option('--units <unit>', 'of pressures').choices(['psi', 'bar', 'kPa']))
    .option('--rider-mass <mass>', 'with kit: 84, or 185lb')
    .option(
      '--set <key=value>',
      'anything else, as the file has it: front.travel=170, front.rebound.low.clicks=16 (repeatable)',
      collect,
      [],
    )
    .option('--all', 'ask for everything a sheet can hold, not only what is needed first', false)
    .option('--force', 'overwrite an existing file', false)
    .action(async (file: string, options) => {
      const { bikeNew } = await import('../commands/bike-new.ts');
      const prompter = await line.prompter();
      await line.done(bikeNew({ ...options, file, prompter }, line.io));
    });
  bike
    .command('show')
    .description('current settings, recommended settings, and the range left each way')
    .argument('<file>', 'bike sheet')
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (file: string, options) => {
      const { bikeShow } = await import('../commands/bike-show.ts');
      await line.done(bikeShow({ ...options, file, style: await line.style() }, line.io));
    });
  bike
    .command('check')
    .description('what is missing, over a limit or contradictory; exit code 1 when something must be done')
    .argument('<file>', 'bike sheet')
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (file: string, options) => {
      const { bikeCheck } = await import('../commands/bike-show.ts');
      await line.done(bikeCheck({ ...options, file, style: await line.style() }, line.io));
    });
  bike
    .command('set')
    .description('write down what was counted or read: front.rebound.low=5 rear.sag=29%')
    .argument('<value...>', 'a setting, = and its value; also any place of the sheet, such as rider-mass=84')
    .option('--bike <bike>', 'bike sheet, or the id of a bike with a log; needless where there is only one')
    .option('--reason <text>', 'why')
    .action(async (values: string[], options) => {
      const { bikeSet } = await import('../commands/bike-set.ts');
      await line.done(bikeSet({ ...options, values, style: await line.style() }, line.io));
    });
  bike
    .command('start')
    .description('starting points: spring, clicks and balance; recommended settings win where there are any')
    .argument('<file>', 'bike sheet')
    .option('--write <file>', 'write a sheet with these starting points')
    .option('--force', 'overwrite an existing file', false)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (file: string, options) => {
      const { bikeStart } = await import('../commands/bike-show.ts');
      await line.done(bikeStart({ ...options, file, style: await line.style() }, line.io));
    });

  const log = program.command('log').description('what was done to a bike, and how to undo it');
  const logOn = (name: string, about: string, isDefault = false): Command =>
    log.command(name, { isDefault }).description(about).addOption(neededBike());
  logOn('history', 'every change with date and reason (the default)', true)
    .option('--last <n>', 'only the newest n', wholeNumber)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (options) => {
      const { logHistory } = await import('../commands/log.ts');
      await line.done(logHistory({ ...options, style: await line.style() }, line.io));
    });
  logOn('change', 'record a change in the log and on the sheet')
    .argument('<change>', 'for example front.rebound.low+2, several separated by commas')
    .option('--reason <text>', 'why')
    .action(async (change: string, options) => {
      const { logChange } = await import('../commands/log-write.ts');
      const prompter = await line.prompter();
      await line.done(logChange({ ...options, change, style: await line.style(), prompter }, line.io));
    });
  logOn('undo', 'undo the last change, in the log and on the sheet; again for the one before')
    .option('--reason <text>', 'why')
    .action(async (options) => {
      const { logUndo } = await import('../commands/log-write.ts');
      await line.done(logUndo({ ...options, style: await line.style() }, line.io));
    });
  logOn('note', 'record a note')
    .argument('<text...>', 'the words')
    .option('--case <id>', 'the interview whose advice this settles')
    .action(async (words: string[], options) => {
      const { logNote } = await import('../commands/log-write.ts');
      await line.done(logNote({ ...options, text: words.join(' '), style: await line.style() }, line.io));
    });
  logOn('start', 'everything was counted again: the log restarts from the sheet')
    .option('--reason <text>', 'why')
    .action(async (options) => {
      const { logStart } = await import('../commands/log-write.ts');
      await line.done(logStart({ ...options, style: await line.style() }, line.io));
    });
  logOn('diff', 'what differs between two days')
    .argument('<from>', 'year-month-day')
    .argument('[to]', 'year-month-day; now when left out')
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (from: string, to: string | undefined, options) => {
      const { logDiff } = await import('../commands/log.ts');
      await line.done(logDiff({ ...options, from, to, style: await line.style() }, line.io));
    });
  logOn('export', 'the whole history for other tools')
    .addOption(formatOption(['csv', 'json'], 'csv'))
    .action(async (options) => {
      const { logExport } = await import('../commands/log.ts');
      await line.done(logExport(options, line.io));
    });

  program
    .command('predict')
    .description('what a change does on this bike, before → after')
    .option('--bike <file>', 'bike sheet')
    .addOption(
      new Option('--kind <kind>', 'default bike when no sheet is given')
        .choices([...BIKE_KINDS])
        .default('enduro'),
    )
    .option('--change <change>', 'for example front.rebound.low+2, several separated by commas')
    .option('--sweep <knob>', 'a knob over its whole range: where it starts to pack down or kick')
    .option('--slope <degrees>', 'how the same clicks act on a slope', degrees)
    .option('--celsius <degrees>', 'oil temperature', degrees)
    .option('--svg <file>', 'write the plots as an SVG file')
    .option('--force', 'overwrite an existing file', false)
    .option('--full', 'also what hardly changes, and what each number means', false)
    .addOption(formatOption(['text', 'json'], 'text'))
    .action(async (options) => {
      const { predict } = await import('../commands/predict.ts');
      await line.done(predict({ ...options, style: await line.style() }, line.io));
    });
}
