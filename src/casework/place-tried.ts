/** What was tried → which change it was on this bike and what that does, or one line why it cannot be used. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { aspect, parseChange, printChange, wayBack, type Change, type ChangeUnit } from '../bike/change.ts';
import { dialOf } from '../bike/setting-access.ts';
import { settingWords } from '../bike/setting-words.ts';
import { changeable, isRigid } from '../bike/settings.ts';
import { ENDS, type End } from '../bike/sheet.ts';
import type { Model } from '../diagnosis/model.ts';
import type { ChangeEffect } from '../diagnosis/results.ts';
import { nearest } from '../form/suggest.ts';
import type { Tried } from './case.ts';
import { shorten } from './value-label.ts';
import { riddenEffect } from './trial-effect.ts';

export interface Placed {
  readonly tried: Tried;
  readonly changes: readonly Change[];
  /** in notation, or the adjustment's id */
  readonly change: string;
  /** how to take it back, in words */
  readonly back: string;
  readonly effect: ChangeEffect;
}

const WAYS: Readonly<Record<string, 1 | -1>> = { open: 1, more: 1, up: 1, close: -1, less: -1, down: -1 };

/** @returns the change, or why it was left out, in a sentence */
export function placeTried(model: Model, bench: PreparedBike, tried: Tried): Placed | string {
  if (tried.change !== undefined) return placeChange(model, bench, tried, tried.change);
  const setting = settingOf(model, tried);
  if (typeof setting !== 'string') return setting.why;
  const ways =
    typeof tried.direction === 'string'
      ? tried.direction.split(/\s*(?:,|\band\b)\s*/)
      : (tried.direction ?? []);
  const signs = new Set(ways.map((way) => WAYS[way.toLowerCase()]));
  if (signs.has(undefined))
    return `${setting}: ${shorten(ways.join(', '))} is no direction; use open or close, more or less.`;
  if (signs.size > 1) return `${setting} was tried both ways; list each way with its own result.`;
  const sign = [...signs][0];
  if (sign === undefined) return `${setting}: which way it was turned is not said.`;
  const units = changeable(model.rules.adjusters).get(setting)!;
  const rule = model.rules.adjustments.find(
    (a) => a.change?.setting === setting && Math.sign(a.change.by) === sign,
  )?.change;
  if (rule === undefined) return `${setting}: no rule says what turning it that way does.`;
  const unit =
    (tried.unit as ChangeUnit | undefined) ??
    (tried.by === undefined ? rule.unit : units.length === 1 ? units[0]! : rule.unit);
  if (!units.includes(unit)) return `${setting} is not changed in ${shorten(unit)}; use ${units.join(', ')}.`;
  if (aspect(unit) !== aspect(rule.unit)) return `${setting}: no rule says what a change in ${unit} does.`;
  return onBike(model, bench, tried, [{ setting, by: sign * (tried.by ?? Math.abs(rule.by)), unit }]);
}

function settingOf(model: Model, { setting = '', end }: Tried): string | { readonly why: string } {
  const known = changeable(model.rules.adjusters);
  const full = end === undefined || known.has(setting) ? setting : `${end}.${setting}`;
  if (known.has(full)) return full;
  const sided = ENDS.map((e) => `${e}.${setting}`).filter((s) => known.has(s));
  if (sided.length > 0 && end === undefined) return { why: `${shorten(setting)}: at which end is not said.` };
  if (sided.length > 0) return { why: `${shorten(setting)}: ${shorten(end!)} is no end; use front or rear.` };
  const near = nearest(full, known.keys());
  return {
    why: `There is no setting ${shorten(full)}.${near === undefined ? '' : ` Did you mean ${near}?`}`,
  };
}

function placeChange(model: Model, bench: PreparedBike, tried: Tried, change: string): Placed | string {
  const named = model.rules.adjustments.find((a) => a.id === change);
  if (named !== undefined) {
    const own = named.change === undefined ? [] : [named.change];
    const effect = riddenEffect(model, bench, change)!;
    return {
      tried,
      changes: own,
      change,
      back: own.length === 0 ? named.wayBack : inWords(tried, own),
      effect,
    };
  }
  const { changes, problems } = parseChange(change, model.rules.adjusters);
  if (problems.length > 0) return `${problems[0]!.message} ${problems[0]!.remedy}`;
  return onBike(model, bench, { ...tried, by: 1 }, changes);
}

/** Whether this bike has it, and so far. */
function onBike(
  model: Model,
  bench: PreparedBike,
  tried: Tried,
  changes: readonly Change[],
): Placed | string {
  for (const change of changes) {
    const why = bench.sheet === undefined ? undefined : denied(bench.sheet, change);
    if (why !== undefined) return why;
  }
  const change = printChange(changes);
  const effect = riddenEffect(model, bench, change);
  if (effect === undefined) return `${change}: no rule says what that change does.`;
  return { tried, changes, change, back: inWords(tried, changes), effect };
}

function denied(sheet: NonNullable<PreparedBike['sheet']>, change: Change): string | undefined {
  const { setting, by, unit } = change;
  const end = setting.split('.')[0] as End;
  const dial = dialOf(sheet, { setting, unit });
  if ('message' in dial) {
    if (dial.unsaid === true) return undefined;
    if (ENDS.includes(end) && isRigid(sheet, end) && !setting.endsWith('.tyre'))
      return `${setting}: the ${end} of this bike has no suspension.`;
    // A number that is not written down denies nothing; a part that is not there does.
    return dial.unfit === true || unit === 'clicks' || unit === 'positions'
      ? `${setting}: ${dial.message}`
      : undefined;
  }
  const room = dial.max - dial.min;
  return Math.abs(by) > room + 1e-9
    ? `${setting}: ${Math.abs(by)} ${unit} is more than there are; its whole range is ${Number(room.toFixed(3))}.`
    : undefined;
}

function inWords({ by }: Tried, changes: readonly Change[]): string {
  return wayBack(changes)
    .map(({ setting, by: amount, unit }) => {
      const way = unit === 'clicks' ? (amount > 0 ? 'open' : 'closed') : amount > 0 ? 'more' : 'less';
      const far = by === undefined ? 'as far as it was turned' : `${Math.abs(amount)} ${unit}`;
      return `${settingWords(setting)}, ${far} ${by === undefined ? `(${way})` : way}`;
    })
    .join('; ');
}
