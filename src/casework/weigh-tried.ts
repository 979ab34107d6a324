/** What was tried before a round → the weights before its answers, and what each of it did to every cause. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { marginals } from '../diagnosis/hypotheses.ts';
import { logOdds } from '../diagnosis/log-odds.ts';
import type { Model } from '../diagnosis/model.ts';
import { afterTrial, eitherTable, type TrialTable } from '../diagnosis/results.ts';
import { tabulateTried } from '../diagnosis/tried.ts';
import type { Round, Tried } from './case.ts';
import { placeTried, type Placed } from './place-tried.ts';

export interface TriedEffect extends Placed {
  /** decibans a cause, in the order of the rule base */
  readonly decibans: Float64Array;
}

export interface TriedBefore {
  /** weights after what was tried; those given when nothing was */
  readonly weights: Float64Array;
  readonly effects: readonly TriedEffect[];
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
  const left: string[] = [];
  let causes = tried.length === 0 ? undefined : causesOf(model, prior);
  for (const one of tried) {
    const placed = placeTried(model, bench, one);
    if (typeof placed === 'string') {
      left.push(placed);
      continue;
    }
    weights = afterTrial(weights, tableOf(model, bench, placed));
    const after = causesOf(model, weights);
    const before = causes!;
    effects.push({ ...placed, decibans: after.map((p, c) => logOdds(p) - logOdds(before[c]!)) });
    causes = after;
  }
  return { weights, effects, left };
}

/** The last thing that made it worse and is still on the bike: it is put back before anything else. */
export function toPutBack(effects: readonly TriedEffect[]): TriedEffect | undefined {
  return effects.findLast(({ tried }) => tried.result === 'worse' && tried.putBack === 'no');
}

const MOST_TABLES = 64;
const tables = new WeakMap<PreparedBike, Map<string, TrialTable>>();

/** A look at every set, so it is kept for the next case on the same bike. */
function tableOf(model: Model, bench: PreparedBike, { tried, change, effects }: Placed): TrialTable {
  let own = tables.get(bench);
  if (own === undefined) tables.set(bench, (own = new Map<string, TrialTable>()));
  const key = `${change} ${tried.end ?? ''} ${String(tried.by ?? '')} ${tried.result} ${tried.putBack}`;
  let table = own.get(key);
  if (table === undefined) {
    const outcome = tried.result === 'not-sure' ? undefined : tried.result;
    table = eitherTable(
      effects.map((effect) => tabulateTried(model, effect, outcome, stillOn(model, tried))),
    );
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
