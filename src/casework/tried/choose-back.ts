/**
 * What made something worse and is still on the bike: of all such changes the one whose way back is likeliest to cure it,
 * whatever the order in which they were told, with what the rules say goes back in the same go.
 */
import { chancesOf } from '../../advice/help-harm.ts';
import type { WayBack } from '../../advice/way-back.ts';
import { wayBack } from '../../bike/change.ts';
import { isSameDeed, printDeed } from '../../bike/deed.ts';
import type { Belief } from '../../diagnosis/belief.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { ChangeEffect } from '../../diagnosis/results.ts';
import type { Tried } from '../case.ts';
import { asOneChange, type Placed } from './place-tried.ts';
import type { Trade } from './trades.ts';
import { isOneChange, type TriedEffect } from './weigh-tried.ts';

export interface Back extends WayBack {
  readonly tried: TriedEffect;
}

/**
 * Everything that made something worse and is still on the bike. It stays where the bike as a whole, or the complaint
 * itself, got better with it: then it is weighed. What the bike has no room for cannot go back.
 */
export function worseAndOn(model: Model, effects: readonly TriedEffect[]): readonly TriedEffect[] {
  const { rules, questionIndex } = model;
  const complaint = rules.numbers['one-impression'].of;
  const topic = rules.questions[questionIndex.get(complaint) ?? -1]?.topic;
  const isMain = ({ for: named }: Tried): boolean =>
    named === undefined || named.some((name) => name === complaint || name === topic);
  return effects.filter((one) => {
    if (one.tried.result !== 'worse' || one.back === undefined) return false;
    const told = effects.filter((other) => other === one || isOneChange(one, other));
    return (
      told.some(({ tried }) => tried.putBack === 'no') &&
      (isMain(one.tried) || !told.some(({ tried }) => tried.result === 'better' && isMain(tried)))
    );
  });
}

/**
 * What made no difference and is still on the bike, and can be turned back: a part that was fitted, or a fault that was mended,
 * stays. Nothing speaks for putting back what can spoil nothing.
 */
export function sameAndOn(effects: readonly TriedEffect[]): readonly TriedEffect[] {
  return effects.filter((one) => {
    const { tried, back, changes, couldBe, effects: each } = one;
    if (tried.result !== 'same' || back === undefined || (changes.length === 0 && couldBe === undefined))
      return false;
    if (!each.some(({ brings }) => brings.some((share) => share > 0))) return false;
    const told = effects.filter((other) => other === one || isOneChange(one, other));
    return told.every((t) => t.tried.result === 'same') && told.some((t) => t.tried.putBack === 'no');
  });
}

/**
 * @param worse what can be put back, as `worseAndOn` says
 * @param trades of all that was tried
 * @returns undefined where there is nothing to put back
 */
export function chooseBack(
  model: Model,
  worse: readonly TriedEffect[],
  belief: Belief,
  trades: readonly Trade[],
): Back | undefined {
  const [first] = waysBack(model, worse, belief, 'worse');
  return first !== undefined && trades.some((trade) => isOneChange(trade.worse, first.tried))
    ? { ...first, trade: true }
    : first;
}

/** The same of what made no difference, the likeliest to help first. @param same as `sameAndOn` says */
export function waysBack(
  model: Model,
  same: readonly TriedEffect[],
  belief: Belief,
  after: Back['after'] = 'same',
): readonly Back[] {
  if (same.length === 0) return NONE;
  const all = same.map((one): Back => {
    const tried = withCompanion(model, one, same);
    const each = tried.effects.map(({ cures, brings }) =>
      chancesOf(model, belief, { cures: brings, brings: cures }),
    );
    const mean = (of: 'helps' | 'harms'): number =>
      each.reduce((sum, chances) => sum + chances[of], 0) / each.length;
    return {
      tried,
      helps: mean('helps'),
      harms: mean('harms'),
      likely: tried.effects.reduce((sum, effect) => sum + likeliestOf(effect, belief), 0),
      steps: wayBack(tried.couldBe ?? tried.changes),
      counted: tried.loose !== true && (tried.tried.by !== undefined || tried.tried.change !== undefined),
      after,
    };
  });
  return all.toSorted((a, b) => rank(b) - rank(a) || order(a, b));
}

/** Of most cases, each time that one is told again. */
const NONE: readonly Back[] = [];

/** Chance of the likeliest cause that a change may have brought. */
function likeliestOf({ brings }: ChangeEffect, { causes }: Belief): number {
  return brings.reduce((most, share, cause) => (share > 0 ? Math.max(most, causes[cause]!) : most), 0);
}

/** Rounded, so that what is equal but for the last bits does not hang on them. */
const rank = ({ helps }: Back): number => Math.round(helps * 1e9);

/** Of equal ones always the same, in whatever order they were told. */
function order({ tried: a }: Back, { tried: b }: Back): number {
  const [one, other] = [printDeed(a.change), printDeed(b.change)];
  return one < other ? -1 : one > other ? 1 : 0;
}

/** With the change of the setting that the rules put back in the same go, where that made it worse as well. */
function withCompanion(
  { rules: { settings } }: Model,
  one: TriedEffect,
  worse: readonly TriedEffect[],
): TriedEffect {
  if (one.loose === true) return one;
  const wanted = one.changes.flatMap(
    ({ setting }) => settings.find(({ id }) => id === setting)?.putBackWith ?? [],
  );
  const companion = worse.find(
    (other) =>
      other.loose !== true &&
      other.changes.some(({ setting }) => wanted.includes(setting)) &&
      !isSameDeed(one.change, other.change),
  );
  if (companion === undefined) return one;
  const both: Placed = asOneChange(one.tried, [one, companion]);
  return { ...both, decibans: one.decibans };
}
