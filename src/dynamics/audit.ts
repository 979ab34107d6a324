/**
 * Does the physics agree with a rule? The rule says that a cause makes a metric of a scenario go up or down; the model
 * runs the scenario with the cause out and in.
 */
import type { End } from '../bike/sheet.ts';
import type { Bike } from './bike.ts';
import { compileBike, type CompiledBike } from './compile.ts';
import { makeGround, metricsOf, runScenario } from './measure.ts';
import { SCENARIO_IDS, type ScenarioId } from './scenarios.ts';
import { SETTINGS, withEnd } from './settings.ts';

export interface CauseInModel {
  readonly end: End;
  /** `rebound.high`, `spring`, `tyre`, ... */
  readonly setting: string;
  /** `too-slow`, ... */
  readonly direction: string;
}

export interface RuleClaim {
  readonly scenario: string;
  readonly metric: string;
  readonly sign: 'up' | 'down';
}

export type Finding =
  | {
      readonly verdict: 'agree' | 'disagree' | 'too-small';
      /** the metric with the cause out, and in, in its unit; one pair for each pace */
      readonly runs: readonly { readonly pace: number; readonly out: number; readonly in: number }[];
      readonly unit: string;
      /** the least mean change that is called a change */
      readonly floor: number;
    }
  | { readonly verdict: 'unreachable'; readonly why: string };

/** The scenario at its usual speed and at a slower and a faster one: a sign that holds at one speed only is no sign. */
const PACES = [0.85, 1, 1.15] as const;

/** One bike with the ground of every pace; keep it over many rules, its reference runs are remembered. */
export interface Auditor {
  readonly bike: Bike;
  audit(claim: RuleClaim, cause: CauseInModel): Finding;
}

export function makeAuditor(bike: Bike): Auditor {
  const grounds = PACES.map((pace) => makeGround(bike, pace));
  const compiled = new Map<string, CompiledBike>();
  const readings = new Map<string, ReadonlyMap<string, number>>();

  /** Every metric of a scenario at one pace, for the bike of a key; run once. */
  function read(key: string, variant: Bike, pace: number, id: ScenarioId): ReadonlyMap<string, number> {
    const full = `${key}|${pace}|${id}`;
    let values = readings.get(full);
    if (values === undefined) {
      let ready = compiled.get(key);
      if (ready === undefined) compiled.set(key, (ready = compileBike(variant)));
      const run = runScenario(ready, grounds[pace]!, id);
      values = new Map(metricsOf(id).map((m) => [m.id, m.read(run)]));
      readings.set(full, values);
    }
    return values;
  }

  return {
    bike,
    audit({ scenario, metric: id, sign }, cause) {
      const scene = SCENARIO_IDS.find((s) => s === scenario);
      if (scene === undefined) return unreachable(`the model has no scenario ${scenario}`);
      const metric = metricsOf(scene).find((m) => m.id === id);
      if (metric === undefined) return unreachable(`the model reads no ${id} in ${scenario}`);
      const change = SETTINGS[cause.setting]?.off[cause.direction];
      if (change === undefined)
        return unreachable(`the model has no ${cause.setting} that is ${cause.direction}`);
      const end = change(bike.ends[cause.end]);
      if (end === undefined)
        return unreachable(`the ${cause.end} of this bike has no ${cause.setting} to be off`);
      const off = withEnd(bike, cause.end, end);
      const key = `${cause.end}.${cause.setting}.${cause.direction}`;
      const runs = PACES.map((pace, i) => ({
        pace,
        out: read('', bike, i, scene).get(id)!,
        in: read(key, off, i, scene).get(id)!,
      }));
      const mean = runs.reduce((sum, r) => sum + r.in - r.out, 0) / runs.length;
      const agrees = mean > 0 === (sign === 'up');
      const verdict = Math.abs(mean) < metric.floor ? 'too-small' : agrees ? 'agree' : 'disagree';
      return { verdict, runs, unit: metric.unit, floor: metric.floor };
    },
  };
}

function unreachable(why: string): Finding {
  return { verdict: 'unreachable', why };
}

/** One rule against one bike; for many rules keep an auditor. */
export function auditRule(bike: Bike, claim: RuleClaim, cause: CauseInModel): Finding {
  return makeAuditor(bike).audit(claim, cause);
}
