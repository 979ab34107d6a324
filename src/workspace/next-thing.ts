/** The single next thing to do with a bike, out of all that is open; reads nothing. */
import { printChange, type ChangeUnit } from '../bike/change.ts';
import { settingWords } from '../bike/setting-words.ts';
import { ENDS, type BikeSheet } from '../bike/sheet.ts';
import { capital, wholePercent } from '../form/text.ts';
import { asRead } from '../bike/units.ts';
import { shownValue, type Entry } from '../logbook/entry.ts';
import type { NextThing } from '../report/bike/next-text.ts';
import type { LeftGood } from '../logbook/left-good.ts';
import { leftGoodWords } from '../report/bike/left-good-words.ts';
import { interviewName } from '../report/phrases.ts';
import { setLine, worstLines } from '../report/bike/trial-text.ts';
import { MOST_NAME, printable } from '../report/foreign-text.ts';
import { judge } from '../trials/judge.ts';
import { penRows } from '../trials/pen-sheet.ts';
import { ratedWorst } from '../trials/record.ts';
import { runsLeft } from '../trials/sequence.ts';
import { tidy, type Trial } from '../trials/trial.ts';
import { leaning } from '../trials/leaning.ts';
import { againWords, isOver, tooScattered, verdictSentence } from '../trials/verdict-words.ts';
import type { KeptInterview, StopFound } from './cases/kept-interviews.ts';
import { quoted } from '../host/quoted.ts';
import { setLine as countLine } from './bikes/set-line.ts';
import { afterInterview, type About } from './after-interview.ts';

export interface Open extends About {
  readonly trials: readonly Trial[];
  /** the trial that was judged last, and is what the bike stands on */
  readonly last: Trial | undefined;
  readonly untested: readonly Entry[];
  /** what a trial kept and was moved since in none */
  readonly left: readonly LeftGood[];
  /** what a gauge still asks for where that one was kept, or else what the rules check then */
  readonly stillOff: readonly NextThing[];
  /** the newest one whose adjustment was not tried yet */
  readonly interview: KeptInterview | undefined;
  /** the bike must not be ridden */
  readonly stop: StopFound | undefined;
}

/** Everything that is not finished, most pressing first; empty when there is nothing. */
export function openThings(open: Open): NextThing[] {
  const { interview, stop } = open;
  return [
    ...(stop === undefined ? [] : [stopThing(stop, open.file)]),
    ...open.trials.map((trial) => trialThing(trial, open.file, open.trials.length === 1)),
    ...open.untested.toReversed().map((entry) => untestedThing(entry, open)),
    ...(open.last === undefined ? [] : furtherThing(open.last, open.file)),
    ...(interview === undefined || stop !== undefined ? [] : [afterInterview(interview, open)]),
    ...open.stillOff,
  ];
}

/**
 * What to do when nothing is open.
 * @param last whether what was tried last was kept, and is still on the bike, or a redo puts it there; absent: nothing was
 * tried yet
 * @param good every knob stands on the maker's sheet
 * @param back what was to be put back after the last trial, in words: nobody said that it was
 * @param said what bothered before the last trial
 */
export function restThing(
  file: string,
  last: { readonly kept: boolean; readonly takenBack?: boolean; readonly redo?: boolean } | undefined,
  good: boolean,
  said?: string,
  back?: string,
): NextThing {
  const command = `earshot interview --bike ${quoted(file)}`;
  const check = back === undefined ? '' : `Check that ${back}. `;
  if (last === undefined)
    return {
      kind: 'interview',
      do: `Nothing is open on this bike. ${check}When something feels wrong, start here:`,
      command,
    };
  if (!last.kept)
    return {
      kind: 'interview',
      do: `The last change was not kept, so the problem may still be there. ${check}Do the interview again; it counts that trial:`,
      command,
    };
  if (last.takenBack === true) {
    const redo = last.redo === true ? `: earshot log redo --bike ${quoted(file)}\nIf` : '. If';
    return {
      kind: 'interview',
      do: `The last trial kept its change, and it was taken back since. ${check}If the problem is back too, put the change on again${redo} something else feels wrong:`,
      command,
    };
  }
  const where = good ? 'every knob is at its recommended setting' : 'the last change was kept';
  const left =
    said === undefined
      ? 'Ride it; when something feels wrong:'
      : `Ride it. If anything is left of "${printable(said, MOST_NAME)}", or something else feels wrong:`;
  return { kind: 'rest', do: `Nothing to do: ${where}. ${check}${left}`, command };
}

/** Sag that was measured, and nobody wrote down what it should be: without that it counts for nothing. */
export function targetsOpen(sheet: BikeSheet, file: string): NextThing[] {
  return ENDS.flatMap((end): NextThing[] => {
    const { sagMeasured, sagWanted } = sheet.ends[end];
    if (sagMeasured === undefined || sagWanted !== undefined) return [];
    return [
      {
        kind: 'count',
        do: `${capital(end)} sag is ${wholePercent(sagMeasured)}, and its target is not recorded: until then it counts for nothing. With the manufacturer's target in place of T:`,
        command: countLine([`${end}.sag.wanted=T%`], file),
      },
    ];
  });
}

/** @param alone no other is open: it need not be named */
function trialThing(trial: Trial, file: string, alone: boolean): NextThing {
  const at = `--bike ${quoted(file)}${alone ? '' : ` --trial ${quoted(trial.id)}`}`;
  const thing = trialStep(trial, at);
  return ratedWorst(trial)
    ? { ...thing, do: `${worstLines(`earshot trial judge ${at} --close`)}${thing.do}` }
    : thing;
}

/** @param at names bike and trial on a command line */
function trialStep(trial: Trial, at: string): NextThing {
  const left = runsLeft(trial);
  const record = `earshot trial record ${at}`;
  if (trial.begun !== undefined)
    return {
      kind: 'ride',
      do: `Run ${trial.ridden.length + 1} of trial ${trial.id} is written down in part. Carry on with it:`,
      command: record,
    };
  if (left > 0) {
    const [row] = penRows(trial);
    return {
      kind: 'ride',
      do: `${setLine(trial, row!)} ${left} ${left === 1 ? 'run' : 'runs'} of trial ${trial.id} to go.`,
      command: record,
    };
  }
  const judged = judge(trial);
  const judging = `earshot trial judge ${at}`;
  if (judged.verdict !== 'cannot-tell')
    return {
      kind: 'judge',
      do: `All runs of trial ${trial.id} are done. Get the verdict:`,
      command: judging,
    };
  if (isOver(judged) && leaning(judged) === 'better')
    return {
      kind: 'give-up',
      do: `Trial ${trial.id} looks better, but not sure, and more runs like these won't tell. Keep the step, or end it with --close in place of --keep${trial.hidden === true ? '' : ' and plan it again, with somebody else setting it unseen'}:`,
      command: `${judging} --keep`,
    };
  if (isOver(judged) || judged.more === null || judged.more === undefined)
    return {
      kind: 'give-up',
      do: `Trial ${trial.id} ${tooScattered(judged) ? 'could not tell: its ratings scatter too much' : OVER[leaning(judged)]}, and more runs like these won't help. End it and go back to the reference:`,
      command: `${judging} --close`,
    };
  if (judged.more.verdict !== undefined)
    return {
      kind: 'ride',
      do: `Trial ${trial.id} ${SHOWS[leaning(judged)]}. ${capital(againWords(trial, judged.more.runs))}: at this rate that should tell. ${setLine(trial, penRows(trial, 1)[0]!)}`,
      command: record,
    };
  return {
    kind: 'ride',
    do: `Trial ${trial.id} ${SHOWS[leaning(judged)]}. About ${judged.more.runs} more ${judged.more.runs === 1 ? 'run' : 'runs'} should tell.`,
    command: record,
  };
}

const OVER = {
  better: 'looks better, but not sure',
  worse: 'looks worse, if anything',
  none: 'shows no clear difference',
} as const;

const SHOWS = {
  better: 'looks better so far, but not sure yet',
  worse: 'looks worse so far, but not sure yet',
  none: 'shows no clear difference yet',
} as const;

function untestedThing(entry: Entry, { file, sheet, left, words }: Open): NextThing {
  const change = entry.changes!.find(({ to }) => typeof to === 'number')!;
  const { setting, from, to, unit } = change;
  const read = (value: typeof to): typeof to =>
    typeof value === 'number' && unit !== undefined ? asRead(value, unit) : value;
  const now = `The ${settingWords(setting, sheet)} was set${typeof from === 'number' ? ` from ${read(from)}` : ''} to ${shownValue(read(to), unit)} (log entry ${entry.entry}) and has not been tested yet`;
  if (typeof from !== 'number' || unit === undefined)
    return {
      kind: 'try',
      do: `${now}. Ride it. If it is no better: earshot log undo --bike ${quoted(file)}\nIf it is better, keep it:`,
      command: `earshot log start --bike ${quoted(file)} --reason 'ridden and kept'`,
    };
  const back = {
    setting: setting.replace(/\.(?:rate|preload)$/, ''),
    by: tidy(from - Number(to)),
    unit: unit as ChangeUnit,
  };
  // What was rated well is no mere old setting.
  const good = left.find((one) => one.setting === setting && one.good === from);
  const known = good === undefined ? '' : `${capital(leftGoodWords(good, words.rules.reasons, sheet))}. `;
  return {
    kind: 'try',
    do: `${now}. ${known}Test it against the old setting:`,
    command: `earshot trial plan --bike ${quoted(file)} --change ${quoted(printChange([back]))}`,
  };
}

/** A trial that was still getting better at its end. */
function furtherThing(trial: Trial, file: string): NextThing[] {
  if (trial.verdict !== 'further') return [];
  const judged = judge(trial);
  if (judged.next === undefined) return [];
  const by = printChange([
    { setting: trial.change.setting, by: tidy(judged.next - judged.set), unit: trial.change.unit },
  ]);
  return [
    {
      kind: 'further',
      do: verdictSentence(trial, judged),
      command: `earshot trial plan --bike ${quoted(file)} --change ${quoted(by)}`,
    },
  ];
}

function stopThing({ id, path, first }: StopFound, file: string): NextThing {
  const found = `Do not ride this bike: ${interviewName(id)} found something that must be fixed first.${first === undefined ? '' : ` ${first}.`}`;
  const where =
    path === undefined
      ? 'The saved answers are gone, but the log still has it.'
      : `Details: earshot diagnose ${quoted(path)}`;
  return {
    kind: 'repair',
    do: `${found} ${where}\nWhen it is fixed, run the interview again; STOP clears once the safety questions are answered:`,
    command: `earshot interview --bike ${quoted(file)}`,
  };
}
