/** What was tried → which change it was on this bike and what that does, or one line why it cannot be used. */
import { printable } from '../../form/text.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { aspect, parseChange, type Change, type ChangeUnit } from '../../bike/change.ts';
import { printDeed, type Deed } from '../../bike/deed.ts';
import { changeable } from '../../bike/settings.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { ChangeEffect } from '../../diagnosis/results.ts';
import type { Tried } from '../case.ts';
import { backInWords } from './back-in-words.ts';
import { couldBeTurned, denied, otherSpring } from './could-be-turned.ts';
import { showsIn } from './shows-in.ts';
import { riddenEffect } from '../trial-effect.ts';
import { meantBy, type Turned } from './tried-meaning.ts';

export interface Placed {
  readonly tried: Tried;
  /** empty where the words leave open at which end it was */
  readonly changes: readonly Change[];
  /** at each end that it can have been at, where the words leave that open: what taking it back may have to open */
  readonly couldBe?: readonly Change[];
  /** what was turned, or the adjustment, or what the rider called it */
  readonly change: Deed;
  /** how to take it back, in words; absent: the bike has no room for that */
  readonly back?: string | undefined;
  /** what it did, for each end that it can have been at */
  readonly effects: readonly ChangeEffect[];
  /** set where the words leave the circuit or the end open: then it has no notation of its own */
  readonly loose?: true;
  /** how far each cause shows in what the result speaks of, 0..1; absent where it speaks of all */
  readonly shows?: Float64Array;
}

/** @returns the change, or why it was left out, in a sentence */
export function placeTried(model: Model, bench: PreparedBike, tried: Tried): Placed | string {
  if (tried.for === undefined) return placeWhole(model, bench, tried);
  const shows = showsIn(model, tried.for);
  if (typeof shows === 'string') return shows;
  const placed = placeWhole(model, bench, tried);
  return typeof placed === 'string' ? placed : { ...placed, shows };
}

function placeWhole(model: Model, bench: PreparedBike, tried: Tried): Placed | string {
  if (tried.change !== undefined) return placeChange(model, bench, tried, tried.change);
  const meant = meantBy(model, tried);
  if (typeof meant === 'string') return meant;
  const placed: Placed[] = [];
  let why = '';
  for (const together of meant) {
    const one = placeTogether(model, bench, tried, together);
    if (typeof one === 'string') why ||= one;
    else placed.push(one);
  }
  if (placed.length === 0) return why;
  if (placed.length === 1) return placed[0]!;
  return {
    tried,
    changes: [],
    couldBe: placed.flatMap(({ changes }) => changes),
    change: { name: looseName(tried) },
    back: backOf(placed, ' or '),
    effects: placed.flatMap(({ effects }) => effects),
    loose: true,
  };
}

/** What has no notation of its own, by all that tells it from another: `front rebound open 2 clicks`. */
function looseName({ setting = '', end, direction = [], by, unit }: Tried): string {
  const known = end === undefined || end === 'either' || end === 'unknown' || setting.startsWith(`${end}.`);
  const ways = typeof direction === 'string' ? [direction] : direction;
  return [...(known ? [] : [end]), setting, ...ways, ...(by === undefined ? [] : [by]), unit ?? []]
    .flat()
    .map((word) => printable(String(word)))
    .join(' ');
}

/** Everything that one name says was turned, of what this bike has. */
function placeTogether(
  model: Model,
  bench: PreparedBike,
  tried: Tried,
  together: readonly Turned[],
): Placed | string {
  let changes: Change[] = [];
  const placed: Placed[] = [];
  let why = '';
  for (const turned of together) {
    const change = changeOf(model, bench, tried, turned);
    if (typeof change === 'string') {
      why ||= change;
      continue;
    }
    if ('fixed' in change) {
      const one = placeChange(model, bench, tried, { name: change.fixed });
      if (typeof one === 'string') why ||= one;
      else placed.push(one);
      continue;
    }
    const no = denied(bench, change);
    if (no === undefined) changes.push(change);
    else why ||= no;
  }
  changes = couldBeTurned(bench, tried, changes);
  if (changes.length > 0) {
    const counted = onBike(model, bench, tried, changes);
    if (typeof counted === 'string') return counted;
    placed.push(counted);
  }
  if (placed.length === 0) return why;
  if (placed.length === 1 && changes.length < 2) return placed[0]!;
  return asOneChange(tried, placed);
}

/** Several changes as one, under the name of the first. */
export function asOneChange(tried: Tried, placed: readonly Placed[]): Placed {
  return {
    tried,
    changes: placed.flatMap((one) => one.changes),
    change: { name: looseName(tried) },
    back: backOf(placed, '; '),
    effects: [asOne(placed.flatMap(({ effects }) => effects))],
    loose: true,
  };
}

/** The ways back of several, those that there is room for. */
function backOf(placed: readonly Placed[], between: string): string | undefined {
  return [...new Set(placed.flatMap(({ back }) => back ?? []))].join(between) || undefined;
}

/** What was done together: the most that any of it does to a cause. */
function asOne(effects: readonly ChangeEffect[]): ChangeEffect {
  if (effects.length === 1) return effects[0]!;
  const most = (key: 'cures' | 'brings'): Float64Array =>
    effects[0]![key].map((_, cause) => Math.max(...effects.map((one) => one[key][cause]!)));
  // Only what is whole throughout is cured for good.
  const lasts = Math.min(...effects.map((one) => one.lasts ?? 1));
  return { cures: most('cures'), brings: most('brings'), ...(lasts === 1 ? {} : { lasts }) };
}

/** One setting as a change in its unit, or the adjustment that stands for it where nothing is counted. */
function changeOf(
  model: Model,
  bench: PreparedBike,
  tried: Tried,
  { setting: { id }, cures, sign: said }: Turned,
): Change | { readonly fixed: string } | string {
  const { adjustments } = model.rules;
  const does = (a: number): number => (cures === undefined ? 0 : bench.effect(a).cures[cures]!);
  const sameWay = ({ change }: Adjustment, a: number): boolean =>
    change?.setting === id && (cures === undefined ? Math.sign(change.by) === said : does(a) > 0);
  const units = changeable(model.rules.adjusters).get(id);
  const found = units === undefined ? undefined : ruleFor(bench, adjustments, sameWay, tried);
  const rule = found?.change;
  if (rule === undefined) {
    const fixed = adjustments
      .map((a, i) => ({ id: a.id, cured: does(i) }))
      .reduce((best, one) => (one.cured > best.cured ? one : best), { id: '', cured: 0 });
    return fixed.cured > 0 ? { fixed: fixed.id } : `${id}: no rule says what turning it that way does.`;
  }
  const sign = Math.sign(rule.by);
  const unit =
    (tried.unit as ChangeUnit | undefined) ??
    (tried.by === undefined ? rule.unit : units!.length === 1 ? units![0]! : rule.unit);
  if (!units!.includes(unit)) return `${id} is not changed in ${printable(unit)}; use ${units!.join(', ')}.`;
  if (aspect(unit) !== aspect(rule.unit)) {
    const part = otherPart(bench, adjustments, found!);
    return part === undefined ? `${id}: no rule says what a change in ${unit} does.` : { fixed: part.id };
  }
  return { setting: id, by: sign * (tried.by ?? Math.abs(rule.by)), unit };
}

/** What is fitted instead of turned, such as another coil: it moves the setting the same way and counts nothing. */
function otherPart(
  { possible }: PreparedBike,
  adjustments: readonly Adjustment[],
  turned: Adjustment,
): Adjustment | undefined {
  return adjustments.find(
    ({ change, moves }, i) =>
      change === undefined &&
      possible[i]!.can &&
      moves.some((move) =>
        turned.moves.some((own) => own.setting === move.setting && own.toward === move.toward),
      ),
  );
}

/** Of a setting that is turned in several ways, by pump or by collar, the one of the unit, else the one of this bike. */
function ruleFor(
  { possible }: PreparedBike,
  adjustments: readonly Adjustment[],
  sameWay: (one: Adjustment, index: number) => boolean,
  { unit }: Tried,
): Adjustment | undefined {
  const same = adjustments.flatMap((one, i) => (sameWay(one, i) ? [i] : []));
  const found =
    (unit === undefined
      ? undefined
      : same.find((i) => aspect(adjustments[i]!.change!.unit) === aspect(unit as ChangeUnit))) ??
    same.find((i) => {
      const can = possible[i]!;
      return can.can || !can.unfit;
    }) ??
    same[0];
  return found === undefined ? undefined : adjustments[found];
}

function placeChange(model: Model, bench: PreparedBike, tried: Tried, change: Deed): Placed | string {
  const index = 'name' in change ? model.rules.adjustments.findIndex((a) => a.id === change.name) : -1;
  const named = model.rules.adjustments[index];
  if (named !== undefined) {
    const own = named.change === undefined ? [] : [named.change];
    const can = bench.possible[index]!;
    if (own.length === 0 && !can.can && can.unfit) return `${named.id}: ${can.why}.`;
    const why = own.map((one) => otherSpring(bench, one)).find((one) => one !== undefined);
    if (why !== undefined) return why;
    const effect = riddenEffect(model, bench, change)!;
    return {
      tried,
      changes: own,
      change,
      back: own.length === 0 ? named.wayBack : backInWords(bench, tried, own),
      effects: [effect],
    };
  }
  if ('name' in change) {
    const { problems } = parseChange(change.name, model.rules.adjusters);
    return `${problems[0]!.message} ${problems[0]!.remedy}`;
  }
  return onBike(model, bench, { ...tried, by: 1 }, change.changes);
}

/** Whether this bike has it, and so far. */
function onBike(
  model: Model,
  bench: PreparedBike,
  tried: Tried,
  changes: readonly Change[],
): Placed | string {
  for (const change of changes) {
    const why = denied(bench, change);
    if (why !== undefined) return why;
  }
  const change = { changes };
  const effect = riddenEffect(model, bench, change);
  if (effect === undefined) return `${printDeed(change)}: no rule says what that change does.`;
  return { tried, changes, change, back: backInWords(bench, tried, changes), effects: [effect] };
}
