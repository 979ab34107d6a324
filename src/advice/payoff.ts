/**
 * What each adjustment is worth under each set of causes, in fixes.
 *
 * benefit(a, h) = Σ_{i∈h} cure(a,i) − harm(a,h) − cost(a). Harm counts a setting pushed the wrong way in full, and a
 * right one in part. Both are sums over the causes of h, so benefit(a, h) = base(a) + Σ_{i∈h} gain(a,i): the expected
 * benefit needs only the causes' probabilities, and the best adjustment of every set is found once a bike.
 */
import { membersOf } from '../diagnosis/hypotheses.ts';
import type { Model } from '../diagnosis/model.ts';
import { reach, type ChangeEffect } from '../diagnosis/results.ts';
import type { Adjustment, Move } from '../rulebase/compiled.ts';

export interface Payoff {
  /** indices into the rule base's adjustments: those that can be done on this bike */
  readonly adjustments: Uint16Array;
  /** worth of each when nothing is off: its costs */
  readonly base: Float64Array;
  /** [position × causes + cause] → what that cause being off adds to its worth */
  readonly gain: Float64Array;
  /** worth of the best choice under every set; 0 = leave it */
  readonly best: Float64Array;
}

/** How an adjustment acts on the causes. */
export function effectOf(
  model: Model,
  adjustment: Adjustment,
  moves: readonly Move[] = adjustment.moves,
): ChangeEffect {
  const n = model.rules.causes.length;
  const cures = new Float64Array(n);
  const brings = new Float64Array(n);
  for (const { setting, toward, share } of moves) {
    for (const cause of model.rules.settings[setting]!.causes) {
      if (cause === toward) brings[cause] = Math.max(brings[cause]!, share);
      else cures[cause] = Math.max(cures[cause]!, share);
    }
  }
  for (const [cause, share] of adjustment.fixes) cures[cause] = Math.max(cures[cause]!, share);
  return { cures, brings };
}

/**
 * @param can positions of the adjustments that can be done
 * @param moves what each of the rule base's adjustments moves on this bike
 */
export function payoffOf(
  model: Model,
  can: readonly number[],
  moves: (adjustment: number) => readonly Move[],
): Payoff {
  const { rules, space } = model;
  const n = rules.causes.length;
  const { 'trial-cost': trial, 'minute-cost': minute, 'upset-when-right': upset } = rules.numbers.advice;
  const base = new Float64Array(can.length);
  const gain = new Float64Array(can.length * n);
  can.forEach((index, position) => {
    const adjustment = rules.adjustments[index]!;
    const own = moves(index);
    const { cures, brings } = effectOf(model, adjustment, own);
    base[position] = -trial - minute * adjustment.minutes;
    for (const { setting, share } of own) {
      const spoils = upset * share;
      base[position]! -= spoils;
      // Where the setting is off, "moved although it was right" does not apply.
      for (const cause of rules.settings[setting]!.causes) gain[position * n + cause]! += spoils;
    }
    for (let cause = 0; cause < n; cause++) gain[position * n + cause]! += cures[cause]! - brings[cause]!;
  });
  return { adjustments: Uint16Array.from(can), base, gain, best: bestOf(space.size, space, base, gain, n) };
}

function bestOf(
  size: number,
  space: Model['space'],
  base: Float64Array,
  gain: Float64Array,
  n: number,
): Float64Array {
  const best = new Float64Array(size);
  const worth = new Float64Array(size);
  for (let a = 0; a < base.length; a++) {
    worth[0] = base[a]!;
    for (let h = 0; h < size; h++) {
      if (h > 0) worth[h] = worth[space.parent[h]!]! + gain[a * n + space.last[h]!]!;
      if (worth[h]! > best[h]!) best[h] = worth[h]!;
    }
  }
  return best;
}

/** Expected worth of each adjustment. */
export function expectedWorth(payoff: Payoff, causes: Float64Array): Float64Array {
  const n = causes.length;
  return payoff.base.map((b, a) => {
    let worth = b;
    for (let c = 0; c < n; c++) worth += payoff.gain[a * n + c]! * causes[c]!;
    return worth;
  });
}

/** Expected value of perfect information: how much better the choice could be if the causes were known, in fixes. */
export function valueOfKnowing(payoff: Payoff, weights: Float64Array, chosen: number): number {
  let known = 0;
  for (let h = 0; h < weights.length; h++) known += weights[h]! * payoff.best[h]!;
  return Math.max(0, known - Math.max(0, chosen));
}

/** For one adjustment: under every set, the chance that it cures something, and that it spoils something. */
export interface Prospect {
  readonly helps: Float64Array;
  readonly harms: Float64Array;
}

/** Cured and spoilt shares under every set. */
export function prospectOf(model: Model, effect: ChangeEffect): Prospect {
  const { space } = model;
  const helps = new Float64Array(space.size);
  const harms = new Float64Array(space.size);
  for (let h = 0; h < space.size; h++) {
    const { cure, spoil } = reach(model, effect, membersOf(space, h));
    helps[h] = cure;
    harms[h] = spoil;
  }
  return { helps, harms };
}

/** Σ P(h)·share(h). */
export function chance(weights: Float64Array, shares: Float64Array): number {
  let p = 0;
  for (let h = 0; h < weights.length; h++) p += weights[h]! * shares[h]!;
  return p;
}
