/** One adjustment of a result: what to do on this bike, what for, how likely it helps and harms, and the way back. */
import type { Change, ChangeUnit } from '../../bike/change.ts';

export interface ResultAdjustment {
  readonly id: string;
  readonly do: string;
  /** the same for a rider without a workshop: which way to turn, and what to count */
  readonly plain: string;
  /** the likeliest cause it is for */
  readonly cures: string | null;
  /** chance of that cause, the same that is told of it among the causes; null where it is for none */
  readonly likely: number | null;
  /** change notation, e.g. front.rebound.low+2; null when it is not a number on the bike */
  readonly change: string | null;
  /** the same as data: what is turned, how far (+ is more open, more pressure, higher), and in what */
  readonly setting: string | null;
  readonly by: number | null;
  readonly unit: ChangeUnit | null;
  readonly from: number | null;
  readonly to: number | null;
  /** the names of what it can stand at, by number from 0; null for what is counted */
  readonly positions: readonly string[] | null;
  /** what was tried in vain and goes back before it, in a sentence for a mechanic and one for a rider; null: nothing */
  readonly before: { readonly do: string; readonly plain: string } | null;
  /** chance that it cures something that is off, and that it spoils something */
  readonly helps: number;
  readonly harms: number;
  /** chance that the rider reports better, and worse, after one step of it; null where nothing is changed */
  readonly feelsBetter: number | null;
  readonly feelsWorse: number | null;
  /** expected worth in fixes, trial and minutes paid */
  readonly benefit: number;
  readonly minutes: number;
  readonly wayBack: string;
  readonly feel: string;
  readonly note: string | null;
  /** what of the note is told wherever this is listed: a bike it is only for, and that it was tried in vain */
  readonly heed: string | null;
  /** the numbers that it finds out, as `earshot bike set` takes them: `front.sag=N%`, a target by `TARGET`; usually empty */
  readonly writeDown: readonly string[];
  readonly cautions: readonly string[];
  readonly knockOn: readonly string[];
  /** why it is advised although a trial did not keep it, or although it takes a kept change back; usually empty */
  readonly ridden: readonly string[];
}

/** Behind the key of a reading: the word that writes its target down, as T. */
export const TARGET = '.wanted=T%';

/** What is turned, where something is. */
export function changeOf({
  setting,
  by,
  unit,
}: Pick<ResultAdjustment, 'setting' | 'by' | 'unit'>): Change | undefined {
  return setting === null || by === null || unit === null ? undefined : { setting, by, unit };
}
