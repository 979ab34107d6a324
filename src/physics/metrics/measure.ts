/** Bikes through scenarios: stages are built once and shared, so that before and after meet the same ground. */
import type { Bike } from '../bike/bike.ts';
import { compileBike, type CompiledBike } from '../ride/compile.ts';
import { fullStroke, shaftTravel } from '../bike/linkage.ts';
import { METRICS, type Metric } from './metrics.ts';
import { SCENARIOS } from '../ride/scenarios.ts';
import type { Scenario, ScenarioId } from '../ride/scenario.ts';
import { simulate } from '../ride/simulate.ts';
import type { Staged } from '../bike/stages.ts';
import type { Run } from '../ride/trace-reading.ts';

/** Scenarios staged for bikes of one kind and wheelbase. */
export interface Ground {
  readonly wheelbase: number;
  /** @param step of the integrator, s */
  stage(id: ScenarioId, step: number): Staged;
}

/** @param pace multiplies every scenario's speed, or how hard it is */
export function makeGround(bike: Bike, pace = 1): Ground {
  const wheelbase = bike.body.toFront + bike.body.toRear;
  const staged = new Map<string, Staged>();
  return {
    wheelbase,
    stage(id, step) {
      const key = `${id}/${step}`;
      let stage = staged.get(key);
      if (stage === undefined) {
        const scenario = scenarioOf(id);
        stage = scenario.stage(wheelbase, scenario.speed[bike.kind] * pace, step);
        staged.set(key, stage);
      }
      return stage;
    },
  };
}

function scenarioOf(id: ScenarioId): Scenario {
  return SCENARIOS.find((s) => s.id === id)!;
}

export function metricsOf(id: ScenarioId): readonly Metric[] {
  return METRICS.filter((m) => m.scenarios.includes(id));
}

/**
 * One run of a compiled bike through a scenario, ready to be read.
 * @param held whether its trace is read before the next run, as `simulate` says
 */
export function runScenario(compiled: CompiledBike, ground: Ground, id: ScenarioId, held = false): Run {
  const { drive, marks } = ground.stage(id, compiled.step);
  const { front, rear } = compiled.bike.ends;
  return {
    trace: simulate(compiled, drive, undefined, undefined, held),
    marks,
    shown: { front: 1000 * front.shownPerWheel, rear: 1000 * rear.shownPerWheel },
    bumper: {
      front: { from: compiled.front.bumperFrom, stiffness: compiled.front.bumper },
      rear: { from: compiled.rear.bumperFrom, stiffness: compiled.rear.bumper },
    },
    used: (end, wheel) => {
      const { linkage } = compiled.bike.ends[end];
      return shaftTravel(linkage, wheel) / fullStroke(linkage);
    },
  };
}

/** Every metric of the given scenarios, keyed `scenario/metric`. */
export function measure(bike: Bike, ground: Ground, ids: readonly ScenarioId[]): ReadonlyMap<string, number> {
  const compiled = compileBike(bike);
  const values = new Map<string, number>();
  for (const id of ids)
    for (const [metric, value] of readings(compiled, ground, id, metricsOf(id)))
      values.set(metricKey(id, metric.id), value);
  return values;
}

/** Some metrics of one scenario. */
export function readings(
  compiled: CompiledBike,
  ground: Ground,
  id: ScenarioId,
  metrics: readonly Metric[],
): ReadonlyMap<Metric, number> {
  const run = runScenario(compiled, ground, id, true);
  return new Map(metrics.map((metric) => [metric, metric.read(run)]));
}

export function metricKey(scenario: ScenarioId, metric: string): string {
  return `${scenario}/${metric}`;
}
