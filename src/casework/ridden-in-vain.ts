/** Steps that were ridden on the bike as it stands and rated no better: they do not come first again. */
import type { InVain } from '../advice/refused.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { amountIn, printChange, type Change } from '../bike/change.ts';
import { changesOf, isSameDeed, type Deed } from '../bike/deed.ts';
import { halfStep } from '../bike/half-step.ts';
import { rowsOf } from '../bike/settings.ts';
import type { Model } from '../diagnosis/model.ts';
import { reasonIn } from '../rulebase/reasons.ts';
import { JUDGE } from '../trials/decide.ts';
import { showsNone } from '../trials/leaning.ts';
import type { Case, CaseResult, Round } from './case.ts';
import { riddenAsItStands, roundsOfCase } from './retold.ts';
import { placeTried, type Placed } from './tried/place-tried.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';
import { stemOf } from './tried/could-be-turned.ts';

/**
 * @returns by index of the adjustment whose step it is; undefined where there is none. What was ridden before the last
 * change that stayed on was ridden on another bike, and is left to the belief.
 */
export function riddenInVain(
  model: Model,
  bench: PreparedBike,
  kase: Pick<Case, 'earlier'> & Round,
): ReadonlyMap<number, InVain> | undefined {
  const rounds = roundsOfCase(kase);
  const since = riddenAsItStands(rounds);
  const found = triedInVainBefore(model, bench, kase);
  if (since.length === 0) return found.size === 0 ? undefined : found;
  let done: readonly Change[] | undefined;
  bench.possible.forEach((possible, adjustment) => {
    if (!possible.can || possible.step === undefined) return;
    const step = { changes: [possible.step] };
    const result = lastInVain(since, step) ?? lesserWorse(since, possible.step);
    if (result === undefined) return;
    const [rated] = changesOf(result.change);
    // Of what made no difference less makes none either.
    const less =
      result.outcome === 'worse'
        ? smaller(rated ?? possible.step, (done ??= everTurned(model, bench, rounds)))
        : undefined;
    found.set(adjustment, {
      why: whyNot(result, less),
      tested: true,
      ...(less === undefined ? {} : { less: printChange([less]) }),
    });
  });
  return found.size === 0 ? undefined : found;
}

/**
 * What the rider tried himself and said it made the bike as a whole worse: named again only where much points to it. What
 * made no difference is not turned on to its stop: a knob that does nothing does no more there.
 */
function triedInVainBefore(model: Model, bench: PreparedBike, { tried = [] }: Round): Map<number, InVain> {
  const found = new Map<number, InVain>();
  if (!tried.some(({ result }) => result === 'worse' || result === 'same')) return found;
  const placed = tried.flatMap((one) => {
    const effect = placeTried(model, bench, one);
    return typeof effect === 'string' ? [] : [effect];
  });
  const { reasons, numbers } = model.rules;
  const { 'try-again': unless } = numbers.advice;
  model.rules.adjustments.forEach((adjustment, index) => {
    const before = triedInVain(bench, placed, adjustment)?.tried;
    if (before === undefined || before.for !== undefined) return;
    if (before.result === 'worse') found.set(index, { why: reasonIn(reasons, 'tried-worse'), unless });
    else if (isToStop(bench, index)) found.set(index, { why: reasonIn(reasons, 'tried-same-stop') });
  });
  return found;
}

function isToStop({ possible, sheet }: PreparedBike, adjustment: number): boolean {
  const can = possible[adjustment]!;
  const step = can.can ? can.step : undefined;
  if (step?.unit !== 'clicks' || sheet === undefined) return false;
  const row = rowsOf(sheet.settings).find(({ setting }) => setting === step.setting);
  return step.to === 0 || step.to === row?.shown(sheet)?.of;
}

/**
 * How a step was rated last, where that was worse, or no different and that clearly: by the ratings of all its trials that
 * found no difference, whose middle may as well lie below it. What was better the last time it was ridden was not in vain.
 * @param since what was ridden on the bike as it stands, oldest first
 */
export function lastInVain(since: readonly CaseResult[], step: Deed): CaseResult | undefined {
  const own = since.filter(({ change, kept }) => !kept && isSameDeed(change, step));
  const last = own.at(-1);
  if (last?.outcome !== 'same') return last?.outcome === 'worse' ? last : undefined;
  let [told, sum] = [0, 0];
  for (const { outcome, points = 0, error } of own) {
    if (outcome !== 'same' || error === undefined) continue;
    told += 1 / error ** 2;
    sum += points / error ** 2;
  }
  return told > 0 && showsNone({ points: sum / told, error: 1 / Math.sqrt(told) }) ? last : undefined;
}

/**
 * A part of a step, or a step that is smaller by little, that was rated worse when it was ridden last: more of it is no better,
 * unless as much or more was rated better on the bike as it stands.
 */
function lesserWorse(since: readonly CaseResult[], step: Change): CaseResult | undefined {
  const along = since.flatMap((result) => {
    const [one, ...others] = changesOf(result.change);
    const by = one === undefined || others.length > 0 ? undefined : amountIn(one, step.unit);
    if (one?.setting !== step.setting || by === undefined || Math.sign(by) !== Math.sign(step.by)) return [];
    return [{ result, far: Math.abs(by) }];
  });
  const last = along.findLast(({ result: { kept }, far }) => !kept && far <= Math.abs(step.by) + 1e-9);
  if (last?.result.outcome !== 'worse') return undefined;
  return along.some(({ result: { outcome }, far }) => outcome === 'better' && far > last.far + 1e-9)
    ? undefined
    : last.result;
}

function whyNot({ date, outcome, points = 0 }: CaseResult, less: Change | undefined): string {
  const when = date === undefined ? '' : ` on ${date}`;
  const rated = outcome === 'worse' ? 'worse' : points >= JUDGE.worth ? 'hardly better' : 'no different';
  const tested = `it was tested${when} and rated ${rated}`;
  return less === undefined ? tested : `${tested}; a smaller step of ${clicksWords(less)} was not tested`;
}

function clicksWords({ by }: Change): string {
  return Math.abs(by) === 1 ? '1 click' : `${Math.abs(by)} clicks`;
}

/** All that was ever turned, whatever came of it: in a trial, or tried before an interview. */
function everTurned(model: Model, bench: PreparedBike, rounds: readonly Round[]): Change[] {
  return rounds.flatMap(({ results, tried = [] }) => [
    ...results.flatMap(({ change }) => changesOf(change)),
    ...tried.flatMap((one) => {
      const placed = placeTried(model, bench, one);
      return typeof placed === 'string' ? [] : (placed.couldBe ?? placed.changes);
    }),
  ]);
}

/** Half the step in whole clicks, where that is less and nobody turned as little as that. */
function smaller(step: Change, done: readonly Change[]): Change | undefined {
  const half = step.unit === 'clicks' ? halfStep(step) : undefined;
  if (half === undefined) return undefined;
  const isDone = done.some(
    ({ setting, by }) =>
      setting === half.setting && Math.sign(by) === Math.sign(half.by) && Math.abs(by) <= Math.abs(half.by),
  );
  return isDone ? undefined : half;
}

/**
 * The last report that it did not help: of the same setting turned the same way, or of the adjustment by its name. Where the
 * bike has a knob for each circuit and nobody said which one was turned, it is a trial of neither.
 */
export function triedInVain<T extends Pick<Placed, 'tried' | 'change' | 'changes'>>(
  { fact }: Pick<PreparedBike, 'fact'>,
  placed: readonly T[],
  { change, id }: Pick<Adjustment, 'change' | 'id'>,
): T | undefined {
  return placed.findLast(
    ({ tried, changes, change: named }) =>
      (tried.result === 'same' || tried.result === 'worse') &&
      (('name' in named && named.name === id) ||
        changes.some(
          (one) =>
            one.setting === change?.setting &&
            one.by > 0 === change.by > 0 &&
            !(tried.change === undefined && isOneOfTwo(fact, one, changes)),
        )),
  );
}

/** Whether another of these may have been turned instead: the bike has both knobs, and one name for both was said. */
function isOneOfTwo(fact: PreparedBike['fact'], one: Change, changes: readonly Change[]): boolean {
  const isKnob = ({ setting }: Change): boolean => fact(setting) === 'knob';
  return (
    isKnob(one) &&
    changes.some((other) => other.setting !== one.setting && stemOf(other) === stemOf(one) && isKnob(other))
  );
}
