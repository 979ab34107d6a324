/** What a change does on this bike: every metric before and after, at both ends. */
import type { Change } from '../bike/change.ts';
import type { End } from '../bike/sheet.ts';
import type { Bike } from './bike.ts';
import type { Metric, Sides } from './metric.ts';
import { makeGround, measure, metricKey, metricsOf, type Ground } from './measure.ts';
import { SCENARIOS, SCENARIO_IDS, type ScenarioId } from './scenarios.ts';
import { SETTINGS, settingName, withEnd } from './settings.ts';

interface ChangeRefused {
  readonly change: Change;
  readonly why: string;
}

type Changed =
  | { readonly ok: true; readonly bike: Bike }
  | { readonly ok: false; readonly refused: readonly ChangeRefused[] };

/** The bike after several changes, or everything that stands against them. */
export function changed(bike: Bike, changes: readonly Change[]): Changed {
  const refused: ChangeRefused[] = [];
  let after = bike;
  for (const change of changes) {
    const name = settingName(change.setting);
    if (name === undefined) {
      refused.push({ change, why: `the model does not reach ${change.setting}` });
      continue;
    }
    const physics = SETTINGS[name.path]!;
    if (!physics.units.includes(change.unit)) {
      refused.push({
        change,
        why:
          physics.units.length === 0
            ? `${change.setting} is repaired, not turned`
            : `${change.setting} is changed in ${physics.units.join(', ')}, not in ${change.unit}`,
      });
      continue;
    }
    const moved = physics.move(after.ends[name.end], change.by, change.unit);
    if (moved.ok) after = withEnd(after, name.end, moved.end);
    else refused.push({ change, why: moved.why });
  }
  return refused.length > 0 ? { ok: false, refused } : { ok: true, bike: after };
}

/** `same`: below the metric's floor. `either`: moved, where more is not always worse. */
type Effect = 'better' | 'worse' | 'either' | 'same';

export interface PredictedMetric {
  readonly scenario: ScenarioId;
  readonly scenarioName: string;
  readonly metric: string;
  readonly end?: End;
  readonly unit: string;
  readonly name: string;
  readonly about: string;
  readonly sides?: Sides;
  readonly before: number;
  readonly after: number;
  readonly effect: Effect;
}

export type Prediction =
  | {
      readonly ok: true;
      readonly before: Bike;
      readonly after: Bike;
      readonly metrics: readonly PredictedMetric[];
    }
  | { readonly ok: false; readonly refused: readonly ChangeRefused[] };

/**
 * @param ground shared between predictions of one bike, so that roads are laid once
 * @param scenarios default: all
 */
export function predict(
  bike: Bike,
  changes: readonly Change[],
  ground: Ground = makeGround(bike),
  scenarios: readonly ScenarioId[] = SCENARIO_IDS,
): Prediction {
  const after = changed(bike, changes);
  if (!after.ok) return after;
  return {
    ok: true,
    before: bike,
    after: after.bike,
    metrics: compare(measure(bike, ground, scenarios), measure(after.bike, ground, scenarios), scenarios),
  };
}

/** Two sets of readings side by side. */
function compare(
  before: ReadonlyMap<string, number>,
  after: ReadonlyMap<string, number>,
  scenarios: readonly ScenarioId[],
): PredictedMetric[] {
  return scenarios.flatMap((scenario) => {
    const scenarioName = SCENARIOS.find((s) => s.id === scenario)!.name;
    return metricsOf(scenario).map((metric) => {
      const key = metricKey(scenario, metric.id);
      const from = before.get(key)!;
      const to = after.get(key)!;
      return {
        scenario,
        scenarioName,
        metric: metric.id,
        ...(metric.end === undefined ? {} : { end: metric.end }),
        unit: metric.unit,
        name: metric.name,
        about: metric.about,
        ...(metric.sides === undefined ? {} : { sides: metric.sides }),
        before: from,
        after: to,
        effect: effectOf(from, to, metric),
      };
    });
  });
}

function effectOf(from: number, to: number, { floor, worse, fineBelowNought }: Metric): Effect {
  const counted = (x: number): number => (fineBelowNought === true ? Math.max(0, x) : x);
  const change = counted(to) - counted(from);
  if (Math.abs(to - from) < floor) return 'same';
  if (worse === 'either' || Math.abs(change) < floor) return 'either';
  return change > 0 === (worse === 'up') ? 'worse' : 'better';
}
