/** `earshot trial plan`: one change as a fair test, printed with blanks for a pen, and kept in the bike's log. */
import { json } from '../../../form/text.ts';
import { command, flag, format, onBike, text, unless, type Given, type Here } from '../../takes.ts';
import { isByGauge } from '../../../advice/by-gauge.ts';
import { cautionsFor, cautionsOf } from '../../../advice/cautions.ts';
import { countFirst } from '../bike/count-first.ts';
import { refusedChanges } from '../../../workspace/bikes/set-line.ts';
import { applyChange } from '../../../bike/apply.ts';
import { settingWords } from '../../../bike/setting-words.ts';
import { aspect } from '../../../bike/change.ts';
import type { Model } from '../../../diagnosis/model.ts';
import type { Round } from '../../../casework/case.ts';
import { riddenBefore } from '../../../casework/ridden-before.ts';
import { roundsOf } from '../../../casework/rounds.ts';
import { neverCounted, stockTaking } from '../../../logbook/entry.ts';
import type { Style } from '../../../report/style.ts';
import { penSheetText, planScreen } from '../../../report/bike/trial-text.ts';
import { riddenLines } from '../../../report/bike/ridden-text.ts';
import { ratedTrials } from '../../../trials/outcome.ts';
import { penSheet } from '../../../trials/pen-sheet.ts';
import { feelingsFor, type Trial } from '../../../trials/trial.ts';
import { planTrial } from '../../../trials/plan.ts';
import type { CompiledRules } from '../../../rulebase/compiled.ts';
import type { Adjustment } from '../../../rulebase/compiled-adjustment.ts';
import { openWorkspace } from '../../../workspace/workspace.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../../host/io.ts';
import { keptInterviews } from '../../../workspace/cases/kept-interviews.ts';
import { openBike, openToWrite, refusing, type OpenBike } from '../../../workspace/bikes/open-bike.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import {
  mistakes,
  openOnes,
  trialsIn,
  trialsOf,
  trialsOfStep,
} from '../../../workspace/bikes/trial-shelf.ts';
import { notRidden } from './not-ridden.ts';
import { unadvised, wantedBy, type Wanted } from './wanted.ts';

const options = {
  bike: onBike(),
  change: text('change', 'what to try, for example front.rebound.low+2'),
  case: text('file', 'try what this case would do first; with --change, what to mind is taken from it'),
  long: flag('a warm-up and six runs instead of four: shows smaller differences'),
  bothWays: flag('ride the other direction too; this makes it a long trial'),
  id: text('name', 'name of the trial'),
  paper: flag(
    'the whole sheet, with blanks to fill in by pen; without it a screen shows only what you need to begin',
  ),
  save: unless('print only', 'keep it in the log (the default)'),
  format: format('text', 'json'),
};
type TrialPlanOptions = Given<typeof options> &
  Pick<Here, 'rules' | 'prompter'> & {
    readonly style: Style;
    /** what earlier trials said of this step was just read, on the screen of the interview */
    readonly told?: boolean;
  };

export const trialPlanCommand = command({
  about: "plan a trial: which runs, at which settings; it goes in the bike's log",
  options,
  examples: [
    ['earshot trial plan --bike my-bike.yaml --case case.yaml', 'the first change of a case'],
    ['earshot trial plan --bike my-bike.yaml --change front.rebound.low+2', 'a change of your own'],
  ],
  run: async (given, { io, rules, style, prompter }) =>
    trialPlan({ ...given, rules, style: await style(), prompter }, io),
});

export async function trialPlan(options: TrialPlanOptions, io: Io): Promise<ExitCode> {
  if (options.change === undefined && options.case === undefined)
    throw new Refusal(
      'Say what to try: --change front.rebound.low+2, or --case CASE.yaml for its first change.',
    );
  const bike = await (options.save ? openToWrite : openBike)(options.bike, io);
  const workspace = await openWorkspace(io, options.rules, options.bike, true);
  const wanted =
    options.case === undefined
      ? unadvised(options.change!, bike, workspace.rules)
      : await wantedBy(options.case, options, bike, workspace, io);
  const { changes } = wanted;
  const { sheet } = bike;
  if (options.save && (await countFirst({ ...options, sheet, changes, rules: workspace.rules }, io)))
    return await trialPlan(options, io);
  return await refusing(async () => {
    const trials = await trialsOf(bike, io);
    const [open] = openOnes(trials);
    if (open !== undefined && options.save) throw oneAtATime(open, options.bike, io);
    const { entries } = await bike.log.readHistory();
    const { stop } = await keptInterviews(bike, workspace, entries, undefined, io);
    if (stop !== undefined) throw new Refusal(notRidden(stop, options.bike, options.rules));
    const known = roundsOf(entries, () => undefined, ratedTrials(trials));
    const tried =
      wanted.tried ??
      (options.told === true ? [] : riddenLines(riddenBefore(known, { changes }), undefined, { sheet }));
    const trial = plan(options, { ...wanted, tried }, bike, workspace.model, { trials, known });
    if (options.save) await save(trial, wanted, bike, options.bike, io);
    await print(trial, options, bike, workspace.rules, io);
    return EXIT.done;
  });
}

function oneAtATime(open: Trial, bikeFile: string, { packs }: Io): Refusal {
  const at = `--bike ${quoted(bikeFile)} --trial ${quoted(open.id)}${packArgs(packs)}`;
  return new Refusal(
    `Trial ${open.id} is still open; runs ridden: ${open.ridden.length}. Two changes at once tell you nothing. Carry on: earshot trial record ${at}\nOr drop it: earshot trial judge ${at} --close`,
  );
}

function plan(
  options: TrialPlanOptions,
  wanted: Wanted,
  { sheet }: OpenBike,
  model: Model,
  { trials, known }: { readonly trials: readonly Trial[]; readonly known: readonly Round[] },
): Trial {
  const { rules } = model;
  const [change] = wanted.changes;
  const applied = applyChange(sheet, change!);
  if ('message' in applied)
    throw new Refusal(
      `${refusedChanges([applied], options.bike, { packs: options.rules })}${applied.uncounted === undefined ? '' : `\nThen plan it: ${planLine(options)}`}`,
    );
  const { stale, ...step } = applied.step;
  const id = options.id ?? freeId(step.setting, trials);
  if (trials.some((trial) => trial.id === id))
    throw new Refusal(`There is a trial ${id} already. Choose another --id, or leave it out.`);
  const same = rules.adjustments.filter(
    (a) => a.change?.setting === step.setting && aspect(a.change.unit) === aspect(step.unit),
  );
  const [along, against] = [1, -1].map((way) =>
    same.filter((a) => Math.sign(a.change!.by) === way * Math.sign(change!.by)),
  ) as [Adjustment[], Adjustment[]];
  const { bothWays } = options;
  const asksFor = (all: readonly Adjustment[]): Set<string> =>
    new Set(all.flatMap((a) => cautionsOf(a, wanted.known, change)));
  if (bothWays) refuseDanger(asksFor(along), asksFor(against), rules);
  const feel = along[0]?.feel;
  const ridden = bothWays ? same : along;
  const { points, misled, open } = rules.numbers.trial;
  const planned = planTrial({
    id,
    bike: sheet.id,
    change: { ...step, words: settingWords(step.setting, sheet) },
    chances: wanted.chances,
    expected: { points, misled, open },
    feelings: feelingsFor(rules.feelings, wanted.complaint),
    others: wanted.others,
    reasons: rules.reasons,
    bothWays,
    before: trialsOfStep(trials, known, step),
    byGauge: along.some((a) => isByGauge(model, sheet, a, wanted.known)),
    short: !options.long,
    ...(feel === undefined ? {} : { feel }),
    notes: wanted.tried ?? [],
    cautions: [
      ...(wanted.alarms ?? []),
      ...cautionsFor(rules, new Set([...(wanted.cautions ?? []), ...asksFor(ridden)]), true).map(
        ({ text }) => text,
      ),
      ...(stale.length === 0
        ? []
        : [
            `Measure ${stale.map((reading) => reading.replace('.measured', '').replace('-', ' ')).join(' and ')} again afterwards: the value on the sheet no longer applies.`,
          ]),
    ],
  });
  if (!planned.ok) throw mistakes(planned.problems);
  return wanted.case === undefined ? planned.value : { ...planned.value, case: wanted.case.id };
}

/** This very plan, to be copied. */
function planLine({ bike, case: file, change, rules, long, bothWays }: TrialPlanOptions): string {
  const from = [
    ...(file === undefined ? [] : [`--case ${quoted(file)}`]),
    ...(change === undefined ? [] : [`--change ${quoted(change)}`]),
    ...(long ? ['--long'] : []),
    ...(bothWays ? ['--both-ways'] : []),
  ];
  return `earshot trial plan --bike ${quoted(bike)} ${from.join(' ')}${packArgs(rules)}`;
}

/** The other direction is not ridden where the rules see a danger in it that the advised step has not. */
function refuseDanger(own: ReadonlySet<string>, against: ReadonlySet<string>, rules: CompiledRules): void {
  const others = new Set([...against].filter((id) => !own.has(id)));
  const dangers = cautionsFor(rules, others, false).filter(({ level }) => level !== 'note');
  if (dangers.length > 0)
    throw new Refusal(
      `Do not test the other direction. ${dangers.map(({ text }) => text).join(' ')} Leave out --both-ways.`,
    );
}

/** `front-rebound-low-2`: the setting, and how often it has been tried. */
function freeId(setting: string, trials: readonly Trial[]): string {
  const stem = setting.replaceAll('.', '-');
  for (let n = 1; ; n++) if (!trials.some((trial) => trial.id === `${stem}-${n}`)) return `${stem}-${n}`;
}

/** The interview goes in before the trial, so that no trial names one that is not there. */
async function save(
  trial: Trial,
  wanted: Wanted,
  { log, sheet }: OpenBike,
  file: string,
  io: Io,
): Promise<void> {
  const { entries } = await log.readHistory();
  if (neverCounted(entries))
    await log.append(stockTaking(sheet, 'as on the bike sheet, before the first trial'));
  if (wanted.case !== undefined) await log.saveCase(wanted.case.id, wanted.case.data);
  await log.saveTrial(trial.id, (papers) => {
    // Another may have been planned at the same moment.
    const trials = trialsIn(papers, () => undefined);
    const [open] = openOnes(trials);
    if (open !== undefined) throw oneAtATime(open, file, io);
    if (trials.some(({ id }) => id === trial.id)) throw new Refusal(`There is a trial ${trial.id} already.`);
    return { ...trial };
  });
}

/** What is noted at every change. */
function usualOf({ cautions }: CompiledRules): ReadonlySet<string> {
  return new Set(
    cautions.flatMap(({ level, show, text }) => (level === 'note' && show === 'always' ? [text] : [])),
  );
}

async function print(
  trial: Trial,
  { format, style, save, paper, bike: file }: TrialPlanOptions,
  { sheet }: OpenBike,
  rules: CompiledRules,
  io: Io,
): Promise<void> {
  const pen = penSheet(trial, rules.rideRules);
  if (format === 'json') {
    await io.out(json({ format: 1, saved: save, trial, sheet: pen }));
    return;
  }
  const name = settingWords(trial.change.setting, sheet);
  const bike = sheet.name ?? sheet.id;
  const onScreen = io.stdoutIsTty && !paper && pen.short === true;
  const at = `--bike ${quoted(file)}${packArgs(io.packs)}`;
  const kept = save
    ? `Kept in the log. After each run: earshot trial record ${at}`
    : 'Not kept in the log. To record runs, plan it again without --no-save.';
  if (onScreen) {
    await io.out(planScreen(trial, pen, { name, bike, usual: usualOf(rules) }, style));
    io.err(`${kept}\n`);
    return;
  }
  // Whoever prints a sheet may not know that the trial is open from now on.
  const opened = save
    ? [
        'This trial is open in the log of the bike from now on.',
        `Enter the ratings, run by run: earshot trial record ${at}`,
        `Drop it: earshot trial judge ${at} --trial ${quoted(trial.id)} --close`,
      ]
    : [kept];
  await io.out(penSheetText(pen, name, bike, style, opened));
}
