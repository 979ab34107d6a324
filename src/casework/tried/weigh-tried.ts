/** What was tried before a round → the weights before its answers, and what each of it did to every cause. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { isSameDeed, printDeed } from '../../bike/deed.ts';
import { marginals } from '../../diagnosis/hypotheses.ts';
import { logOdds } from '../../diagnosis/log-odds.ts';
import type { Model } from '../../diagnosis/model.ts';
import { afterTrial, eitherTable, type TrialTable } from '../../diagnosis/results.ts';
import { tabulateTried } from '../../diagnosis/tried.ts';
import type { Round, Tried } from '../case.ts';
import { placeTried, type Placed } from './place-tried.ts';

export interface TriedEffect extends Placed {
  /** decibans a cause, in the order of the rule base */
  readonly decibans: Float64Array;
}

export interface TriedBefore {
  /** weights after what was tried; those given when nothing was */
  readonly weights: Float64Array;
  readonly effects: readonly TriedEffect[];
  /** what made these weights of those given, one after the other */
  readonly tables: readonly TrialTable[];
  /** what could not be used, a sentence each */
  readonly left: readonly string[];
}

/** Chance that it is still on the bike; where nobody said, by what it did: what made it worse is mostly put back. */
function stillOn(model: Model, { putBack, result }: Tried): number {
  if (putBack === 'unknown') return model.rules.numbers.tried['still-on'][result];
  return putBack === 'no' ? 1 : 0;
}

export function weighTried(
  model: Model,
  bench: PreparedBike,
  prior: Float64Array,
  { tried = [] }: Round,
): TriedBefore {
  let weights = prior;
  const effects: TriedEffect[] = [];
  const tables: TrialTable[] = [];
  const left: string[] = [];
  let causes = tried.length === 0 ? undefined : causesOf(model, prior);
  const placed = tried.flatMap((one) => {
    const at = placeTried(model, bench, one);
    if (typeof at !== 'string') return [at];
    left.push(at);
    return [];
  });
  for (const reports of byChange(placed)) {
    // Each report by itself, so that it can be told what it did; only with the last is the bike changed.
    reports.forEach((one, i) => {
      const last = i + 1 === reports.length;
      const table = tableOf(model, bench, reports.slice(0, i + 1), last);
      const after = afterTrial(weights, table);
      const now = causesOf(model, after);
      const before = causes!;
      effects.push({ ...one, decibans: now.map((p, c) => logOdds(p) - logOdds(before[c]!)) });
      causes = now;
      if (!last) return;
      weights = after;
      tables.push(table);
    });
  }
  return { weights, effects, tables, left };
}

/** What was told of one change in parts, "hands better, but it dives", is one change with several reports. */
function byChange(placed: readonly Placed[]): Placed[][] {
  const out: Placed[][] = [];
  for (const one of placed) {
    const same = out.find((list) => list.every((other) => joins(other, one)));
    if (same === undefined) out.push([one]);
    else same.push(one);
  }
  return out;
}

/** Two reports on the bike as a whole are of two changes: the same step was made twice. */
function joins(first: Placed, one: Placed): boolean {
  return (first.shows !== undefined || one.shows !== undefined) && isOneChange(first, one);
}

/** The same setting, end, way and size; where one report does not say whether it stayed on, the other does. */
export function isOneChange(first: Placed, one: Placed): boolean {
  const [was, is] = [first.tried.putBack, one.tried.putBack];
  return isSameDeed(first.change, one.change) && (was === is || was === 'unknown' || is === 'unknown');
}

const MOST_TABLES = 64;
const keptTables = new WeakMap<PreparedBike, Map<string, TrialTable>>();

/** A look at every set, so it is kept for the next case on the same bike. */
function tableOf(model: Model, bench: PreparedBike, reports: readonly Placed[], last: boolean): TrialTable {
  const { change, effects, tried } = reports[0]!;
  let own = keptTables.get(bench);
  if (own === undefined) keptTables.set(bench, (own = new Map<string, TrialTable>()));
  const said = reports
    .map((r) => `${r.tried.result} ${r.tried.putBack} ${(r.tried.for ?? []).join('+')}`)
    .join(' / ');
  const key = `${printDeed(change)} ${tried.end ?? ''} ${String(tried.by ?? '')} ${tried.unit ?? ''} ${last} ${said}`;
  let table = own.get(key);
  if (table === undefined) {
    const told = reports.map(({ tried: { result }, shows }) => ({
      outcome: result === 'not-sure' ? undefined : result,
      ...(shows === undefined ? {} : { shows }),
    }));
    // Of a change told in parts, one part may say for all whether it stayed on.
    const known = reports.filter((r) => r.tried.putBack !== 'unknown');
    const saying = known.length > 0 ? known : reports;
    const kept = last ? saying.reduce((sum, r) => sum + stillOn(model, r.tried), 0) / saying.length : 0;
    table = eitherTable(effects.map((effect) => tabulateTried(model, effect, told, kept)));
    if (own.size >= MOST_TABLES) own.clear();
    own.set(key, table);
  }
  return table;
}

function causesOf(model: Model, weights: Float64Array): Float64Array {
  const { space } = model;
  const scratch = new Float64Array(space.size);
  const causes = marginals(space, weights, scratch, new Float64Array(space.causes));
  return causes.map((p) => p / scratch[0]!);
}
