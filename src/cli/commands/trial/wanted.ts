/** What a trial is to try: a change asked for by name, what a case would do first, or a change beside a case. */
import { ownSize } from '../../../advice/step/own-size.ts';
import { parseChange, type Change } from '../../../bike/change.ts';
import { readDeed } from '../../../bike/deed.ts';
import type { BikeSheet } from '../../../bike/sheet.ts';
import type { InterviewNotes } from '../../../casework/case.ts';
import { consult } from '../../../casework/consult.ts';
import { capital, withStop } from '../../../form/text.ts';
import type { Known } from '../../../diagnosis/gates.ts';
import { packArgs, quoted } from '../../../host/quoted.ts';
import { Refusal, type Io } from '../../../host/io.ts';
import { alarmsOf, alarmTexts } from '../../../report/verdict/alarms.ts';
import { changeWords } from '../../../report/bike/change-words.ts';
import { MOST_NAME, printable } from '../../../report/foreign-text.ts';
import { changeOf, type ResultAdjustment, firstOf, type Result } from '../../../report/result/result.ts';
import { toResult } from '../../../report/result/to-result.ts';
import { aimedAt } from '../../../report/verdict/complaint-lines.ts';
import { smallerStep } from '../../../report/verdict/verdict-lines.ts';
import type { CompiledRules } from '../../../rulebase/compiled.ts';
import type { Chances } from '../../../trials/trial.ts';
import type { OpenBike } from '../../../workspace/bikes/open-bike.ts';
import { readRecords } from '../../../workspace/cases/records.ts';
import type { Workspace } from '../../../workspace/workspace.ts';

/** The change to try, and the interview behind it. */
export interface Wanted {
  readonly changes: readonly Change[];
  /** what the diagnosis expects of it */
  readonly chances: Chances;
  /** what earlier trials say of this very step; the advice says it itself */
  readonly tried?: readonly string[];
  /** what was answered there */
  readonly known?: Known;
  /** ids of the cautions that go with what was answered, and with what is likely, whatever is changed */
  readonly cautions?: readonly string[];
  /** what must be checked before it is ridden, as every other form of the result says it */
  readonly alarms?: readonly string[];
  /** what the rider said that it is for */
  readonly complaint?: string | undefined;
  /** what else was said to bother */
  readonly others?: readonly string[];
  readonly case?: { readonly id: string; readonly data: Readonly<Record<string, unknown>> };
}

/** A change that was asked for by name: nobody knows what is behind it. @throws Refusal where it is no change, or several */
export function unadvised(text: string, { sheet }: OpenBike, { numbers }: CompiledRules): Wanted {
  const { changes, problems } = parseChange(text, sheet.settings, sheet);
  if (problems.length > 0) throw new Refusal(problems.map((p) => `${p.message} ${p.remedy}`).join('\n'));
  if (changes.length > 1)
    throw new Refusal(`${text}: one change at a time, or nobody can tell which one did it.`);
  return { changes, chances: numbers.trial.unadvised };
}

/**
 * What a trial may take for granted: never that the diagnosis cannot be wrong. A step that goes a part of the way is felt
 * where its cause is there, and not as seldom as it mends it whole.
 */
function chancesOf(
  { helps, harms, likely }: Pick<ResultAdjustment, 'helps' | 'harms' | 'likely'>,
  { numbers }: CompiledRules,
): Chances {
  const most = Math.min(Math.max(helps, likely ?? 0), numbers.trial['most-helps']);
  return { helps: most, harms: Math.min(harms, (1 - most) / 2) };
}

/** Where a case is read: the bike as the line names it, its packs, and a change of the line's own. */
interface Asked {
  readonly bike: string;
  readonly rules: readonly string[];
  readonly change?: string | undefined;
  /** what earlier trials said of it is known to the reader */
  readonly told?: boolean | undefined;
}

/**
 * The first adjustment of a case, if it is one that can be tried; or a change of the line's own, with everything that
 * the case says must be checked before it, and what it is for.
 * @throws Refusal where the bike must not be ridden, or there is nothing to try
 */
export async function wantedBy(
  file: string,
  { bike: named, rules, change: own, told }: Asked,
  bike: OpenBike,
  workspace: Workspace,
  io: Io,
): Promise<Wanted> {
  const wanted: Wanted[] = [];
  for await (const record of readRecords([file], io)) {
    if (wanted.length > 0)
      throw new Refusal(`${file}: there is more than one case in it; a trial is for one.`);
    const opened = await workspace.open(record);
    if ('faults' in opened) throw new Refusal(opened.faults.join('\n'));
    const { kase, bench } = opened;
    // A safety question that is still open is among what must be checked.
    const thought = consult(workspace.model, bench, kase, { next: true, explain: 0, fit: false });
    const said = await workspace.said(kase);
    const result = toResult(workspace.model, kase, thought, { most: 1, ...said });
    const why = `See why: earshot diagnose ${quoted(file)} --bike ${quoted(named)}${packArgs(rules)}`;
    if (result.verdict === 'stop')
      throw new Refusal(`Do not ride this bike: there is nothing to try. ${why}`);
    // Whatever the case advises, a change is set.
    const set: Result = { ...result, verdict: 'change' };
    wanted.push({
      ...(own === undefined
        ? advised(result, bike, workspace.rules, {
            told: told === true,
            why,
            less: lessLine(result, bike, `--bike ${quoted(named)}${packArgs(rules)} --case ${quoted(file)}`),
          })
        : { ...unadvised(own, bike, workspace.rules), ...saidOf(result) }),
      alarms: [
        ...alarmTexts(alarmsOf(set, bench.rules, kase.interview?.for ?? 'mechanic')),
        // What goes back is off in both settings: else two things would differ.
        ...(own === undefined ? beforeText(firstOf(result)!, kase.interview?.for) : []),
      ],
      known: thought.heard.known,
      cautions: [
        ...thought.heard.cautions,
        ...result.cautions.flatMap(({ likely, id }) => (likely === true ? [id] : [])),
        ...(own === undefined && firstOf(result)!.before !== null ? firstOf(result)!.cautions : []),
      ],
      case: { id: kase.id, data: record.data as Readonly<Record<string, unknown>> },
    });
  }
  if (wanted[0] === undefined) throw new Refusal(`${file}: there is no case in it.`);
  return wanted[0];
}

/** That a smaller step of what was ridden in vain is left, with the line that plans it; undefined where none is. */
function lessLine(result: Result, { sheet }: OpenBike, at: string): string | undefined {
  const less = smallerStep(result);
  return less === undefined
    ? undefined
    : `A smaller step of what was tried has not been tested: ${changeWords(readDeed(less, sheet.settings), sheet)}. Plan its trial: earshot trial plan ${at} --change ${quoted(less)}`;
}

interface Advising {
  /** whether what earlier trials said of it is known to the reader */
  readonly told: boolean;
  /** where the reason of a refusal is to be read */
  readonly why: string;
  /** what may be tried instead where nothing is advised */
  readonly less: string | undefined;
}

/** What the case would do first. */
function advised(
  result: Result,
  { sheet }: OpenBike,
  rules: CompiledRules,
  { told, why, less }: Advising,
): Wanted {
  const first = firstOf(result);
  if (first === undefined || result.verdict !== 'change')
    throw new Refusal(
      less === undefined
        ? `This case asks for no change, so there is nothing to try. ${why}`
        : `This case asks for no change. ${less}`,
    );
  const change = changeOf(first);
  if (change === undefined)
    throw new Refusal(
      `${first.do}. You cannot turn that back and forth between runs, so it cannot be tested here. ${why}`,
    );
  return {
    changes: [change],
    chances: chancesOf(first, rules),
    tried: [...resized(first, rules, sheet), ...(told ? [] : first.ridden)],
    ...saidOf(result),
  };
}

/** What the change is for in the rider's words, and what else he said; a part of the same words is nothing else. */
function saidOf(result: Result): Pick<Wanted, 'complaint' | 'others'> {
  const complaint = aimedAt(result) ?? firstSaid(result);
  if (complaint === undefined) return {};
  const phrases = new Set(result.complaints.map(({ phrase }) => printable(phrase, MOST_NAME)));
  const isPart = (one: string): boolean =>
    [complaint, ...phrases].some((other) => other !== one && other.includes(one));
  return {
    complaint,
    others: [...phrases].filter((one) => one !== complaint && !one.includes(complaint) && !isPart(one)),
  };
}

/** Where the change is for nothing that was said, what was said first is what is to get better; a danger is checked, and not rated. */
function firstSaid({ complaints, unconfirmed }: Result): string | undefined {
  const dangers = unconfirmed.filter(({ danger }) => danger === true);
  const phrase = complaints.find(
    (one) => !dangers.some((danger) => danger.phrase.includes(one.phrase)),
  )?.phrase;
  return phrase === undefined ? undefined : printable(phrase, MOST_NAME);
}

/** What goes back on the bike before a trial of the step. */
function beforeText({ before }: ResultAdjustment, audience: InterviewNotes['for']): string[] {
  if (before === null) return [];
  return [`Before the first run: ${withStop(audience === 'rider' ? before.plain : before.do)}`];
}

/** Before a knob was counted only the usual step could be named: why it is another one now. */
function resized(
  first: ResultAdjustment,
  { adjustments, numbers, reasons }: CompiledRules,
  sheet: BikeSheet,
): string[] {
  const usual = adjustments.find(({ id }) => id === first.id)?.change;
  const why = ownSize(usual, changeOf(first)!, sheet, { ...numbers.advice, reasons });
  return why === undefined ? [] : [`${capital(why)}.`];
}
