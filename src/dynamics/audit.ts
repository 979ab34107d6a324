/**
 * Does the physics agree with a rule? The rule says that a cause makes a metric of a scenario go up or down; the model
 * runs the scenario with the cause out and in.
 */
import type { End } from '../bike/sheet.ts';
import type { Bike } from './bike.ts';
import { compileBike } from './compile.ts';
import { makeGround, runScenario, type Ground } from './measure.ts';
import { METRICS } from './metrics.ts';
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
  const readings = new Map<string, ReadonlyMap<string, number>>();

  function read(
    key: string,
    variant: () => Bike,
    ground: Ground,
    pace: number,
    id: ScenarioId,
  ): ReadonlyMap<string, number> {
    const full = `${key}|${pace}|${id}`;
    let values = readings.get(full);
    if (values === undefined) {
      const run = runScenario(compileBike(variant()), ground, id);
      values = new Map(METRICS.filter((m) => m.scenarios.includes(id)).map((m) => [m.id, m.read(run)]));
      readings.set(full, values);
    }
    return values;
  }

  return {
    bike,
    audit(claim, cause) {
      const scenario = SCENARIO_IDS.find((id) => id === claim.scenario);
      if (scenario === undefined)
        return { verdict: 'unreachable', why: `the model has no scenario ${claim.scenario}` };
      const metric = METRICS.find((m) => m.id === claim.metric);
      if (metric === undefined || !metric.scenarios.includes(scenario))
        return { verdict: 'unreachable', why: `the model reads no ${claim.metric} in ${claim.scenario}` };
      const change = SETTINGS[cause.setting]?.off[cause.direction];
      if (change === undefined)
        return {
          verdict: 'unreachable',
          why: `the model has no ${cause.setting} that is ${cause.direction}`,
        };
      const end = change(bike.ends[cause.end]);
      if (end === undefined)
        return {
          verdict: 'unreachable',
          why: `the ${cause.end} of this bike has no ${cause.setting} to be off`,
        };
      const off = (): Bike => withEnd(bike, cause.end, end);
      const key = `${cause.end}.${cause.setting}.${cause.direction}`;
      const runs = PACES.map((pace, i) => ({
        pace,
        out: read('', () => bike, grounds[i]!, pace, scenario).get(metric.id)!,
        in: read(key, off, grounds[i]!, pace, scenario).get(metric.id)!,
      }));
      const change3 = runs.reduce((sum, r) => sum + r.in - r.out, 0) / runs.length;
      const verdict =
        Math.abs(change3) < metric.floor
          ? 'too-small'
          : change3 > 0 === (claim.sign === 'up')
            ? 'agree'
            : 'disagree';
      return { verdict, runs, unit: metric.unit, floor: metric.floor };
    },
  };
}

/** One rule against one bike; for many rules keep an auditor. */
export function auditRule(bike: Bike, claim: RuleClaim, cause: CauseInModel): Finding {
  return makeAuditor(bike).audit(claim, cause);
}
