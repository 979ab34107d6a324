/** What an interview has still to ask beside its questions, and what can be done once they are over. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { applyChange } from '../../bike/apply.ts';
import { allOf } from '../../casework/several.ts';
import { look } from '../../interview/settle.ts';
import type { Interview } from '../../interview/state.ts';
import { changeOf, firstOf, type Result, type ResultAdjustment } from '../../report/result/result.ts';
import { CANNOT_TELL } from '../../rulebase/compiled.ts';
import type { Workspace } from '../../workspace/workspace.ts';

/**
 * What was tried is asked once, right behind the safety questions.
 * @param heard the rider's own words told of a change: whether there were others is still asked
 */
export function triedOpen(
  { steps, current, tried, results, earlier }: Interview,
  { rules }: PreparedBike,
  heard = false,
): boolean {
  const safety = (id: string | null | undefined): boolean => isSafety({ rules }, id);
  return (
    (tried === undefined || heard) &&
    results.length === 0 &&
    earlier.length === 0 &&
    safety(steps.at(-1)?.question) &&
    !safety(current)
  );
}

/** Whether the last answer says that something was changed: what it was is asked, once. */
export function changeOpen(
  { steps, results, earlier }: Interview,
  { rules }: Pick<PreparedBike, 'rules'>,
): boolean {
  const last = steps.at(-1);
  const asksTried = rules.questions.find(({ id }) => id === last?.question)?.asksTried ?? [];
  const given = last === undefined ? [] : allOf(last);
  return results.length === 0 && earlier.length === 0 && given.some((answer) => asksTried.includes(answer));
}

export function isSafety({ rules }: Pick<PreparedBike, 'rules'>, id: string | null | undefined): boolean {
  return rules.questions.find((q) => q.id === id)?.safety === true;
}

/** Before a knob is asked about that nobody said exists, what the bike has is asked once. */
export function asksOfKnob({ has, current }: Interview, { sheet, rules }: PreparedBike): boolean {
  const gates = rules.questions.find((q) => q.id === current)?.gates ?? [];
  return (
    sheet === undefined &&
    has === undefined &&
    gates.some((gate) => gate.on === 'bike' && gate.values.includes('knob'))
  );
}

/** Before a knob is named that nobody said exists, what the bike has is asked once. */
export function hasOpen(
  { has }: Interview,
  { sheet }: PreparedBike,
  { verdict, adjustments }: Result,
): boolean {
  return (
    sheet === undefined &&
    has === undefined &&
    verdict === 'change' &&
    adjustments.some((a) => a.unit === 'clicks')
  );
}

/** Whether the first change is one that can be set on a bike with a log, there and back. */
export function canTry(result: Result, { sheet }: PreparedBike): boolean {
  const first = firstOf(result);
  return sheet !== undefined && result.verdict === 'change' && first?.change != null;
}

/**
 * The step that comes first, where it may have been ridden by now: one thing turned, with nothing put back before it.
 * @param log whether the bike's log is written to: on a bike with a sheet its result belongs there
 */
export function rideable(result: Result, bench: PreparedBike, log: boolean): ResultAdjustment | undefined {
  const first = firstOf(result);
  if (result.verdict !== 'change' || first?.change == null || first.before !== null) return undefined;
  const { sheet } = bench;
  if (sheet === undefined) return first;
  // From a place that nobody counted there is no telling where it stands now.
  const change = changeOf(first);
  return log && change !== undefined && !('message' in applyChange(sheet, change)) ? first : undefined;
}

/** The question that is answered by what is to be measured first. */
export function readsOf({ verdict, first }: Result, { rules }: PreparedBike): string | undefined {
  return verdict === 'change' ? rules.adjustments.find(({ id }) => id === first)?.reads : undefined;
}

/** Whether he was asked already, and could not tell. */
export function couldNot({ steps }: Interview, question: string): boolean {
  return steps.some((s) => s.question === question && s.answer === CANNOT_TELL);
}

/** The knob that comes first, on a bike that was told of and has no sheet. */
export function knobFirst(result: Result, { has }: Interview, { sheet }: PreparedBike): string | undefined {
  const first = firstOf(result);
  return sheet === undefined && has !== undefined && result.verdict === 'change' && first?.unit === 'clicks'
    ? (first.setting ?? undefined)
    : undefined;
}

/** How many questions going on past enough would find to ask. */
export function moreToAsk(workspace: Workspace, bench: PreparedBike, state: Interview): number {
  const { stop, open } = look(workspace.model, bench, { ...state, keepAsking: true, ended: null });
  return stop === undefined ? open.length : 0;
}
