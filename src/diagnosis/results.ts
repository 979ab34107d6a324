/**
 * A ridden change is evidence too, and it changes the bike: belief after a trial (Breese & Heckerman 1996,
 * "Decision-theoretic troubleshooting", persistence).
 */
import { findSet, membersOf } from './hypotheses.ts';
import type { Model } from './model.ts';

export type Outcome = 'better' | 'same' | 'worse';

/** What a change does to the causes: share of each that it cures, and share by which it makes each appear. */
export interface ChangeEffect {
  /** share 0..1 a cause */
  readonly cures: Float64Array;
  /** how far it moves a setting toward a cause, 0..1 */
  readonly brings: Float64Array;
  /** chance that what it cures is cured for good: one step may be too small; absent = 1 */
  readonly lasts?: number;
}

/**
 * How far the change cures something in this set, and how far it spoils something, 0..1 each: the strongest of each.
 * A cause of the set pushed deeper counts in full; a setting that was right counts in part, and only where the change
 * cures nothing.
 */
export function reach(
  model: Model,
  effect: ChangeEffect,
  set: readonly number[],
): { cure: number; spoil: number } {
  let cure = 0;
  for (const c of set) cure = Math.max(cure, effect.cures[c]!);
  let spoil = 0;
  for (let c = 0; c < effect.brings.length; c++) {
    const push = effect.brings[c]!;
    if (push === 0) continue;
    const setting = model.rules.causes[c]!.setting;
    const off = set.find((x) => model.rules.causes[x]!.setting === setting);
    if (off === c) spoil = Math.max(spoil, push);
    else if (off === undefined && cure === 0)
      spoil = Math.max(spoil, push * model.rules.numbers.advice['upset-when-right']);
  }
  return { cure, spoil };
}

/** P(outcome | set, change): between the three rows of the pack, by how much the change cures or spoils in this set. */
export function outcomeProbability(
  model: Model,
  effect: ChangeEffect,
  set: readonly number[],
  outcome: Outcome,
): number {
  const { helped, nothing, harmed } = model.rules.numbers.results;
  const { cure, spoil } = reach(model, effect, set);
  const help = cure * (1 - spoil);
  const harm = spoil * (1 - cure);
  return help * helped[outcome] + harm * harmed[outcome] + (1 - help - harm) * nothing[outcome];
}

/**
 * Weights after a trial.
 * @param kept whether the change stayed on the bike; what it cured is then taken out of every set, in proportion
 */
export function afterTrial(
  model: Model,
  weights: Float64Array,
  effect: ChangeEffect,
  outcome: Outcome,
  kept: boolean,
): Float64Array {
  const { space } = model;
  const out = new Float64Array(space.size);
  const gone = effect.cures.map((share) => share * (effect.lasts ?? 1));
  for (let h = 0; h < space.size; h++) {
    const set = membersOf(space, h);
    const w = weights[h]! * outcomeProbability(model, effect, set, outcome);
    if (!kept) {
      out[h]! += w;
      continue;
    }
    // Each cause it touches is gone with the share it cures for good, independently of the others.
    const touched = set.filter((c) => gone[c]! > 0);
    for (let pattern = 0; pattern < 1 << touched.length; pattern++) {
      let p = w;
      const away = new Set<number>();
      touched.forEach((c, bit) => {
        const cured = (pattern >> bit) & 1;
        p *= cured ? gone[c]! : 1 - gone[c]!;
        if (cured) away.add(c);
      });
      if (p > 0)
        out[
          findSet(
            space,
            set.filter((c) => !away.has(c)),
          )
        ]! += p;
    }
  }
  let total = 0;
  for (const w of out) total += w;
  return out.map((w) => w / total);
}
