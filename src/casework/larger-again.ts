/** A step that failed on the bike as it stands, where a larger one the same way was rated better: that one is the step. */
import { reasonIn } from '../rulebase/reasons.ts';
import { notPastTried } from '../advice/step/cut-step.ts';
import { bySagTold } from '../advice/step/told-sag-step.ts';
import { byTyreTold } from '../advice/step/told-tyre-step.ts';
import type { Possibility } from '../advice/feasibility.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { asFarAs } from '../advice/step/room-left.ts';
import { amountIn } from '../bike/change.ts';
import { changesOf, isSameDeed } from '../bike/deed.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Case, CaseResult, Round } from './case.ts';
import { lastInVain } from './ridden-in-vain.ts';
import { riddenAsItStands, roundsOfCase } from './retold.ts';

/**
 * The bike with the steps that are named after what was tried and ridden.
 * @param tried of this round, as for `notPastTried`
 */
export function nextSteps(
  model: Model,
  bench: PreparedBike,
  tried: Parameters<typeof notPastTried>[2],
  kase: Pick<Case, 'earlier'> & Round,
): PreparedBike {
  const told = byTyreTold(model.rules, bySagTold(model.rules, bench, kase.answers), kase.answers);
  return asLargeAsRatedBetter(model, told, notPastTried(model, told, tried), kase);
}

/**
 * The bike with such steps as large as they were ridden. What fails at a part of the way says nothing against the whole of
 * it; a step that was rated better and not kept is offered again, not forgotten. How much a rule turns at once does not bound
 * it, because it was ridden; a stop or a limit of the sheet does.
 * @param cut the same bike with no step past what was tried
 */
function asLargeAsRatedBetter(
  { rules: { numbers, reasons } }: Model,
  bench: PreparedBike,
  cut: PreparedBike,
  kase: Pick<Case, 'earlier'> & Round,
): PreparedBike {
  const since = riddenAsItStands(roundsOfCase(kase));
  if (!since.some(({ kept, outcome }) => !kept && outcome === 'better')) return cut;
  const does = new Map<number, ReturnType<PreparedBike['stepped']>>();
  const possible = cut.possible.map((one, index): Possibility => {
    if (!one.can || one.step === undefined) return one;
    const { from: _, to: __, ...step } = one.step;
    const last = lastInVain(since, { changes: [step] });
    if (last?.outcome !== 'same') return one;
    const far = Math.max(0, ...since.map((result) => ratedBetter(result, since, step)));
    if (far <= Math.abs(step.by) + 1e-9) return one;
    const by = Number((Math.sign(step.by) * far).toFixed(3));
    const can = asFarAs(
      bench.rules.adjustments[index]!,
      bench.sheet,
      { ...step, by },
      { ...numbers.advice, reasons },
    );
    if (!can.can || can.step === undefined || Math.abs(can.step.by) <= Math.abs(step.by) + 1e-9) return one;
    does.set(index, bench.stepped(index, can.step));
    return {
      ...can,
      note: notesOf(noteBeside(bench, index), can.note, reasonIn(reasons, 'larger-better')),
    };
  });
  return does.size === 0
    ? cut
    : {
        ...cut,
        possible,
        effect: (index) => does.get(index)?.effect ?? cut.effect(index),
        prospect: (index) => does.get(index)?.prospect() ?? cut.prospect(index),
      };
}

/** What is said of the rule's own step, but for how far that goes, where the sag says so. */
function noteBeside(bench: PreparedBike, index: number): string | undefined {
  const own = bench.possible[index]!;
  return own.can && bench.whole(index) === undefined ? own.note : undefined;
}

function notesOf(...notes: readonly (string | undefined)[]): string {
  return [...new Set(notes.flatMap((note) => note?.split('; ') ?? []))].join('; ');
}

/** How far the one change of a trial that was rated better, and not worse since, goes the way of a step; 0 otherwise. */
function ratedBetter(
  { change, kept, outcome }: CaseResult,
  since: readonly CaseResult[],
  step: { readonly setting: string; readonly by: number; readonly unit: Parameters<typeof amountIn>[1] },
): number {
  const [one, ...others] = changesOf(change);
  if (kept || outcome !== 'better' || one === undefined || others.length > 0) return 0;
  if (one.setting !== step.setting || Math.sign(one.by) !== Math.sign(step.by)) return 0;
  const last = since.findLast((result) => isSameDeed(result.change, change));
  return last?.outcome === 'better' ? Math.abs(amountIn(one, step.unit) ?? 0) : 0;
}
