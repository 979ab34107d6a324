/**
 * What each adjustment is worth under each set of causes, in fixes.
 *
 * benefit(a, h) = Σ_{i∈h} cure(a,i) − harm(a,h) − cost(a). Harm counts a setting pushed the wrong way in full, and a
 * right one in part. Both are sums over the causes of h, so benefit(a, h) = base(a) + Σ_{i∈h} gain(a,i): the expected
 * benefit needs only the causes' probabilities, and the best adjustment of every set is found once a bike.
 */
import { keepNothing, type Keep } from '../diagnosis/fast/precomputed.ts';
import type { Model } from '../diagnosis/model.ts';
import type { ChangeEffect } from '../diagnosis/results.ts';
import type { Adjustment, Move } from '../rulebase/compiled-adjustment.ts';

export interface Payoff {
  /** indices into the rule base's adjustments: those that can be done on this bike */
  readonly adjustments: Uint16Array;
  /** worth of each when nothing is off: its costs */
  readonly base: Float64Array;
  /** what each cause being off adds to its worth; only causes that add anything: a list an adjustment, laid end to end */
  readonly gainStart: Int32Array;
  readonly gainCause: Int16Array;
  readonly gain: Float64Array;
  /** in the same layout, the share of each cause that it cures */
  readonly cure: Float64Array;
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
  keep: Keep = keepNothing,
): Payoff {
  const { rules, space } = model;
  const n = rules.causes.length;
  const { 'trial-cost': trial, 'minute-cost': minute, 'upset-when-right': upset } = rules.numbers.advice;
  const base = new Float64Array(can.length);
  const gainStart = new Int32Array(can.length + 1);
  const gainCause: number[] = [];
  const gain: number[] = [];
  const cure: number[] = [];
  can.forEach((index, position) => {
    const adjustment = rules.adjustments[index]!;
    const own = moves(index);
    const { cures, brings } = effectOf(model, adjustment, own);
    const adds = cures.map((c, cause) => c - brings[cause]!);
    base[position] = -trial - minute * adjustment.minutes;
    for (const { setting, share } of own) {
      const spoils = upset * share;
      base[position]! -= spoils;
      // Where the setting is off, "moved although it was right" does not apply.
      for (const cause of rules.settings[setting]!.causes) adds[cause]! += spoils;
    }
    gainStart[position] = gain.length;
    adds.forEach((add, cause) => {
      if (add === 0 && cures[cause] === 0) return;
      gainCause.push(cause);
      gain.push(add);
      cure.push(cures[cause]!);
    });
  });
  gainStart[can.length] = gain.length;
  const table = {
    adjustments: Uint16Array.from(can),
    base,
    gainStart,
    gainCause: Int16Array.from(gainCause),
    gain: Float64Array.from(gain),
    cure: Float64Array.from(cure),
  };
  // A look at every set, which not every case needs, and what the bike could have had never does.
  let best: Float64Array | undefined;
  return {
    ...table,
    get best() {
      return (best ??= keep('best', () => ({ best: bestOf(space, table, n) })).best);
    },
  };
}

/**
 * An adjustment that does nothing to the causes of a set is worth its costs, less than leaving it: so only those are
 * looked at that do, and along the walk from each set to its extensions only those that the last cause adds to.
 */
function bestOf(space: Model['space'], table: Omit<Payoff, 'best'>, n: number): Float64Array {
  const { last, depth, size, most } = space;
  const { base, gainStart, gainCause, gain } = table;
  const adjustments = base.length;
  const causeStart = new Int32Array(n + 1);
  for (let i = 0; i < gain.length; i++) causeStart[gainCause[i]! + 1]!++;
  for (let c = 0; c < n; c++) causeStart[c + 1]! += causeStart[c]!;
  const place = causeStart.slice();
  const of = new Int32Array(gain.length);
  const add = new Float64Array(gain.length);
  for (let a = 0; a < adjustments; a++) {
    for (let i = gainStart[a]!; i < gainStart[a + 1]!; i++) {
      const at = place[gainCause[i]!]!++;
      of[at] = a;
      add[at] = gain[i]!;
    }
  }
  const best = new Float64Array(size);
  /** [depth × adjustments] worth under the set of that depth along the walk */
  const worth = new Float64Array((most + 1) * adjustments);
  worth.set(base);
  /** [depth] the best of them, or -1 for none above nothing */
  const first = new Int32Array(most + 1);
  const bestIn = (row: number): number => {
    let top = -1;
    let much = 0;
    for (let a = 0; a < adjustments; a++) {
      if (worth[row + a]! <= much) continue;
      top = a;
      much = worth[row + a]!;
    }
    return top;
  };
  first[0] = bestIn(0);
  if (first[0] >= 0) best[0] = base[first[0]]!;
  for (let h = 1; h < size; h++) {
    const d = depth[h]!;
    const from = (d - 1) * adjustments;
    const to = d * adjustments;
    const start = causeStart[last[h]!]!;
    const end = causeStart[last[h]! + 1]!;
    let top = first[d - 1]!;
    let much = top < 0 ? 0 : worth[from + top]!;
    let lost = false;
    for (let i = start; i < end; i++) {
      const a = of[i]!;
      const w = worth[from + a]! + add[i]!;
      if (a === top && w < much) lost = true;
      if (w <= much) continue;
      top = a;
      much = w;
    }
    // A full set has no extensions, so it needs no row of its own, unless the best of its parent is worth less in it.
    if (d < most || lost) {
      worth.copyWithin(to, from, to);
      for (let i = start; i < end; i++) worth[to + of[i]!]! += add[i]!;
    }
    if (lost) {
      top = bestIn(to);
      much = top < 0 ? 0 : worth[to + top]!;
    }
    first[d] = top;
    best[h] = much;
  }
  return best;
}

/** Expected worth of each adjustment. */
export function expectedWorth(
  { base, gainStart, gainCause, gain }: Payoff,
  causes: Float64Array,
): Float64Array {
  const out = new Float64Array(base.length);
  for (let a = 0; a < base.length; a++) {
    let worth = base[a]!;
    const end = gainStart[a + 1]!;
    for (let i = gainStart[a]!; i < end; i++) worth += gain[i]! * causes[gainCause[i]!]!;
    out[a] = worth;
  }
  return out;
}

/** Expected share of a fix that each adjustment brings, harm and costs left out. */
export function expectedCure(
  { base, gainStart, gainCause, cure }: Payoff,
  causes: Float64Array,
): Float64Array {
  const out = new Float64Array(base.length);
  for (let a = 0; a < base.length; a++) {
    let cured = 0;
    const end = gainStart[a + 1]!;
    for (let i = gainStart[a]!; i < end; i++) cured += cure[i]! * causes[gainCause[i]!]!;
    out[a] = cured;
  }
  return out;
}

/** Expected value of perfect information: how much better the choice could be if the causes were known, in fixes. */
export function valueOfKnowing(payoff: Payoff, weights: Float64Array, chosen: number): number {
  let known = 0;
  for (let h = 0; h < weights.length; h++) known += weights[h]! * payoff.best[h]!;
  return Math.max(0, known - Math.max(0, chosen));
}
