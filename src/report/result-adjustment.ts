/** One adjustment of a result: what to do on this bike, what for, how likely it helps and harms, and the way back. */
import { chance } from '../advice/prospect.ts';
import type { Bench } from '../advice/bench.ts';
import { printChange, type Change, type ChangeUnit } from '../bike/change.ts';
import type { Consultation } from '../casework/consult.ts';
import type { Model } from '../diagnosis/model.ts';
import { round } from './round.ts';

export interface ResultAdjustment {
  readonly id: string;
  readonly do: string;
  /** the likeliest cause it cures */
  readonly cures: string | null;
  /** change notation, e.g. front.rebound.low+2; null when it is not a number on the bike */
  readonly change: string | null;
  /** the same as data: what is turned, how far (+ is more open, more pressure, higher), and in what */
  readonly setting: string | null;
  readonly by: number | null;
  readonly unit: ChangeUnit | null;
  readonly from: number | null;
  readonly to: number | null;
  /** chance that it cures something that is off, and that it spoils something */
  readonly helps: number;
  readonly harms: number;
  /** expected worth in fixes, trial and minutes paid */
  readonly benefit: number;
  readonly minutes: number;
  readonly wayBack: string;
  readonly feel: string;
  readonly note: string | null;
  readonly cautions: readonly string[];
  readonly knockOn: readonly string[];
}

/** @param advised, its expected worth in fixes, and what the physical model says it does besides, in lines */
export function adjustmentOf(
  model: Model,
  bench: Bench,
  c: Consultation,
  {
    adjustment: index,
    worth,
    knockOn,
  }: { readonly adjustment: number; readonly worth: number; readonly knockOn: readonly string[] },
): ResultAdjustment {
  const a = bench.rules.adjustments[index]!;
  const possible = bench.possible[index]!;
  const step = possible.can ? possible.step : undefined;
  const prospect = bench.prospect(index);
  return {
    id: a.id,
    do: a.do,
    cures: likeliest(model, bench, c, index),
    change: step === undefined ? null : printChange([step]),
    setting: step?.setting ?? null,
    by: step?.by ?? null,
    unit: step?.unit ?? null,
    from: step?.from === undefined ? null : round(step.from, 2),
    to: step?.to === undefined ? null : round(step.to, 2),
    helps: round(chance(c.belief, prospect.helps)),
    harms: round(chance(c.belief, prospect.harms)),
    benefit: round(worth),
    minutes: a.minutes,
    wayBack: a.wayBack,
    feel: a.feel,
    note: possible.can ? (possible.note ?? null) : null,
    cautions: a.cautions,
    knockOn: [...(a.knockOn === undefined ? [] : [a.knockOn]), ...knockOn],
  };
}

/** What is turned, where something is. */
export function changeOf({
  setting,
  by,
  unit,
}: Pick<ResultAdjustment, 'setting' | 'by' | 'unit'>): Change | undefined {
  return setting === null || by === null || unit === null ? undefined : { setting, by, unit };
}

/** The likeliest cause it cures. */
function likeliest(model: Model, bench: Bench, c: Consultation, adjustment: number): string | null {
  const { cures } = bench.effect(adjustment);
  let best = -1;
  for (let i = 0; i < cures.length; i++) {
    if (
      cures[i]! > 0 &&
      (best < 0 || cures[i]! * c.belief.causes[i]! > cures[best]! * c.belief.causes[best]!)
    )
      best = i;
  }
  return best < 0 ? null : model.rules.causes[best]!.id;
}
