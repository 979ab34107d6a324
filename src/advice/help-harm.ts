/** How likely a change is to help and to harm: how far it reaches in every set of causes, weighed by belief. */
import type { Belief } from '../diagnosis/belief.ts';
import { classesOf, mapClasses, type Classes } from '../diagnosis/fast/classes.ts';
import { membersOf } from '../diagnosis/hypotheses.ts';
import { once } from '../diagnosis/fast/once.ts';
import { keepNothing, type Keep } from '../diagnosis/fast/precomputed.ts';
import type { Model } from '../diagnosis/model.ts';
import type { PreparedBike } from './prepared-bike.ts';
import { reach, type ChangeEffect } from '../diagnosis/results.ts';

/** For one adjustment: how far it really cures, and how far it spoils, in every set. */
export interface Prospect {
  readonly helps: Shares;
  readonly harms: Shares;
  /** how likely a rider reports better, and worse, after one step of it, in every set */
  readonly better: Shares;
  readonly worse: Shares;
}

/** A share for every set: one for the empty set, what each cause adds to it alone, and what is left where causes meet. */
interface Shares {
  /** one number */
  readonly none: Float64Array;
  readonly causes: Int32Array;
  readonly adds: Float64Array;
  /** the sets that hold two or more of these causes */
  readonly sets: Int32Array;
  /** share of each, less what the causes alone make of it */
  readonly rest: Float64Array;
}

/**
 * How far the adjustment cures and spoils under every set.
 * @param keep numbers kept of this very adjustment on this bike
 */
export function prospectOf(model: Model, effect: ChangeEffect, keep: Keep = keepNothing): Prospect {
  const { causes } = keep('causes', () => ({ causes: causesOf(model, effect) }));
  const made = once(() => {
    const reached = reachOf(model, effect, causes);
    return { ...reached, several: severalOf(model, causes, reached) };
  });
  const shares = (name: string, of: (reached: Reach) => number): Shares => ({
    causes,
    ...keep(name, () => sharesOf(made(), of)),
  });
  return {
    helps: shares('helps', ({ cure }) => cure),
    harms: shares('harms', ({ spoil }) => spoil),
    better: shares('better', reportOf(model, 'better')),
    worse: shares('worse', reportOf(model, 'worse')),
  };
}

/** How far the change reaches in each class of its causes. */
interface Reached {
  readonly classes: Classes;
  readonly reached: readonly Reach[];
}

function reachOf(model: Model, effect: ChangeEffect, causes: Int32Array): Reached {
  const { space } = model;
  const classes = classesOf(space, [...causes]);
  return { classes, reached: Array.from(classes.sets, (set) => reach(model, effect, membersOf(space, set))) };
}

/** The sets that hold more than one of these causes, rising, and the class of each: the same for all changes of these causes. */
interface Several {
  readonly sets: Int32Array;
  readonly classes: Int32Array;
}

function severalOf({ space, keep }: Model, causes: Int32Array, { classes }: Reached): Several {
  return keep(`several/${causes.join()}`, () => {
    const classOf = mapClasses(space, classes);
    const sets = deepIn(classOf, classes.depth);
    return { sets, classes: sets.map((set) => classOf[set]!) };
  });
}

/** Causes that the change cures, or whose setting it moves. */
function causesOf({ rules }: Model, effect: ChangeEffect): Int32Array {
  const moved = new Set(rules.causes.flatMap((c, i) => (effect.brings[i]! > 0 ? [c.setting] : [])));
  return Int32Array.from(
    rules.causes.flatMap((c, i) => (effect.cures[i]! > 0 || moved.has(c.setting) ? [i] : [])),
  );
}

type Reach = ReturnType<typeof reach>;

/** P(this report | how far the change reaches), by the pack's own rows of what riders report after a trial. */
function reportOf({ rules }: Model, outcome: 'better' | 'worse'): (reached: Reach) => number {
  const { helped, nothing, harmed } = rules.numbers.results;
  return ({ cure, spoil }) => {
    const help = cure * (1 - spoil);
    const harm = spoil * (1 - cure);
    return help * helped[outcome] + harm * harmed[outcome] + (1 - help - harm) * nothing[outcome];
  };
}

/** The sets of a class of more than one cause; a loop by itself, over all sets. */
function deepIn(classOf: Int32Array, depth: Uint8Array): Int32Array {
  const sets = new Int32Array(classOf.length);
  let count = 0;
  for (let h = 0; h < classOf.length; h++) if (depth[classOf[h]!]! > 1) sets[count++] = h;
  return sets.slice(0, count);
}

function sharesOf(
  { classes, several, reached }: Reached & { readonly several: Several },
  of: (reached: Reach) => number,
) {
  const values = reached.map(of);
  const none = values[0]!;
  const adds = Float64Array.from(classes.singles, (c) => values[c]! - none);
  /** for each class, its share less what its causes alone make of it */
  const rest = new Float64Array(reached.length);
  const alone = new Float64Array(reached.length).fill(none);
  for (let c = 1; c < reached.length; c++) {
    alone[c] = alone[classes.up[c]!]! + adds[classes.last[c]!]!;
    if (classes.depth[c]! > 1) rest[c] = values[c]! - alone[c]!;
  }
  return { none: Float64Array.of(none), adds, ...leftOver(several, rest) };
}

/** Of these sets those of which something is left, and what; a loop by itself. */
function leftOver(
  { sets: several, classes }: Several,
  rest: Float64Array,
): { readonly sets: Int32Array; readonly rest: Float64Array } {
  let count = 0;
  const sets = new Int32Array(several.length);
  const left = new Float64Array(several.length);
  for (let i = 0; i < several.length; i++) {
    const much = rest[classes[i]!]!;
    if (much === 0) continue;
    sets[count] = several[i]!;
    left[count++] = much;
  }
  return { sets: sets.slice(0, count), rest: left.slice(0, count) };
}

/** Σ P(h)·share(h). */
export function chance(belief: Belief, { none, causes, adds, sets, rest }: Shares): number {
  let p = none[0]!;
  for (let i = 0; i < causes.length; i++) p += belief.causes[causes[i]!]! * adds[i]!;
  for (let i = 0; i < sets.length; i++) p += belief.weights[sets[i]!]! * rest[i]!;
  return Math.min(1, Math.max(0, p));
}

/**
 * Chance that the rider reports this after one step; with none of the causes off, a change does nothing.
 * @param none chance that the causes are not behind the answers
 */
export function chanceFelt(
  { rules }: Model,
  belief: Belief,
  none: number,
  { prospect, report }: { readonly prospect: Prospect; readonly report: 'better' | 'worse' },
): number {
  return (1 - none) * chance(belief, prospect[report]) + none * rules.numbers.results.nothing[report];
}

/** Chance that a change of its own, not one of the rules', helps and harms: a look at every set. */
export function chancesOf(
  model: Model,
  belief: Belief,
  effect: ChangeEffect,
): { readonly helps: number; readonly harms: number } {
  // By class of its causes: to name the causes of every set costs twenty times as much (4.4 ms against 0.2).
  const { classes, reached } = reachOf(model, effect, causesOf(model, effect));
  const classOf = mapClasses(model.space, classes);
  const { weights } = belief;
  const held = new Float64Array(reached.length);
  for (let h = 0; h < classOf.length; h++) held[classOf[h]!]! += weights[h]!;
  let helps = 0;
  let harms = 0;
  reached.forEach(({ cure, spoil }, c) => {
    helps += held[c]! * cure;
    harms += held[c]! * spoil;
  });
  return { helps: Math.min(1, helps), harms: Math.min(1, harms) };
}

/** The likeliest cause that an adjustment is for, by how far it cures it; undefined where it cures none. */
export function likeliestCured(
  bench: Pick<PreparedBike, 'effect' | 'rules'>,
  { causes }: Pick<Belief, 'causes'>,
  adjustment: number,
): number | undefined {
  const { cures } = bench.effect(adjustment);
  const most = cures.reduce((much, cure) => Math.max(much, cure), -Infinity);
  const least = bench.rules.numbers.advice['chief-cure'] * most;
  let best: number | undefined;
  let much = -1;
  for (let i = 0; i < cures.length; i++) {
    if (!(cures[i]! > 0 && cures[i]! >= least) || cures[i]! * causes[i]! <= much) continue;
    best = i;
    much = cures[i]! * causes[i]!;
  }
  return best;
}
