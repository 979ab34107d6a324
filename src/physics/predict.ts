/** What a change does on this bike: every metric before and after, at both ends, and how wide that is. */
import type { Change } from '../bike/change.ts';
import type { End } from '../bike/sheet.ts';
import type { Bike } from './bike/bike.ts';
import type { Metric, Sides } from './metrics/metric.ts';
import { METRICS } from './metrics/metrics.ts';
import { WEBER } from './cross-talk.ts';
import { drawsOf } from './draws.ts';
import { makeGround, measure, metricKey, metricsOf, readings } from './metrics/measure.ts';
import { compileBike, type CompiledBike } from './ride/compile.ts';
import { SCENARIOS } from './ride/scenarios.ts';
import { SCENARIO_IDS, type ScenarioId } from './ride/scenario.ts';
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

/**
 * `same`: less than a rider can feel, or the bikes that the sheet could mean do not agree which way. `either`: moved,
 * where more is not always worse.
 */
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
  /** what a change upward and one downward is called */
  readonly words: { readonly up: string; readonly down: string };
  /** on the bike as it is taken */
  readonly before: number;
  readonly after: number;
  /** the change over the bikes that the sheet could mean; where nothing of a scenario can be felt, the change itself */
  readonly least: number;
  readonly most: number;
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

/** How many bikes that the sheet could mean are run: of their like, two in three lie between the least and the most. */
const DRAWN = 5;

/**
 * @param scenarios default: all
 * @param drawn how many bikes are run, the bike as it is taken among them; 1: no width, `least` and `most` are its own
 */
export function predict(
  bike: Bike,
  changes: readonly Change[],
  scenarios: readonly ScenarioId[] = SCENARIO_IDS,
  drawn = DRAWN,
): Prediction {
  const after = changed(bike, changes);
  if (!after.ok) return after;
  const own = pairOf(bike, changes, 1, scenarios);
  // Only what could be told is worth its width.
  const worth = scenarios.filter((id) =>
    metricsOf(id).some((m) => felt(own[0].get(metricKey(id, m.id))!, own[1].get(metricKey(id, m.id))!, m)),
  );
  const others = worth.length === 0 ? [] : drawsOf(bike, drawn).slice(1);
  const pairs = [own, ...others.map((draw) => pairOf(draw.bike, changes, draw.pace, worth))];
  return { ok: true, before: bike, after: after.bike, metrics: compare(pairs, scenarios) };
}

/** How much of what it is, or of a usual one where that is small, a metric changes: what is felt most comes first. */
export function sizeOf(m: Pick<PredictedMetric, 'before' | 'after' | 'metric'>): number {
  return Math.abs(m.after - m.before) / Math.max(Math.abs(m.before), USUAL.get(m.metric)!);
}

const USUAL = new Map(METRICS.map((m) => [m.id, m.usual]));

/**
 * What can be felt most, each metric named once: what `predict` gives, cut to so many, without the runs that the rest would
 * need. None where the model does not reach the change.
 */
export function mostFelt(bike: Bike, changes: readonly Change[], most: number): PredictedMetric[] {
  if (most === 0 || !changed(bike, changes).ok) return [];
  const own = pairOf(bike, changes, 1, SCENARIO_IDS);
  const candidates = compare([own], SCENARIO_IDS)
    .filter((m) => m.effect !== 'same')
    .sort((a, b) => sizeOf(b) - sizeOf(a));
  if (candidates.length === 0) return [];
  const drawn = drawsOf(bike, DRAWN)
    .slice(1)
    .map(({ bike: one, pace }) => ({ ground: makeGround(one, pace), bikes: compiledPair(one, changes) }));
  const ridden = new Map<ScenarioId, ReturnType<typeof others>>();
  /** before and after on every bike drawn, of the metrics of a scenario that may be told */
  const others = (id: ScenarioId) => {
    const told = METRICS.filter((m) => candidates.some((c) => c.scenario === id && c.metric === m.id));
    return drawn.map(({ ground, bikes: [before, after] }) => [
      readings(before, ground, id, told),
      readings(after, ground, id, told),
    ]);
  };
  const out: PredictedMetric[] = [];
  for (const { scenario, metric: id, before, after } of candidates) {
    if (out.length === most) break;
    if (out.some((m) => m.metric === id)) continue;
    const metric = METRICS.find((m) => m.id === id)!;
    if (!ridden.has(scenario)) ridden.set(scenario, others(scenario));
    const pairs = ridden
      .get(scenario)!
      .map((pair) => pair.map((read) => read.get(metric)!) as [number, number]);
    const found = lineOf(scenario, metric, [[before, after], ...pairs]);
    if (found.effect !== 'same') out.push(found);
  }
  return out;
}

/** @throws Error for a change that the bike does not take */
function pairOf(one: Bike, changes: readonly Change[], pace: number, ids: readonly ScenarioId[]): Pair {
  const ground = makeGround(one, pace);
  return [measure(one, ground, ids), measure(withChanges(one, changes), ground, ids)];
}

type Pair = readonly [before: ReadonlyMap<string, number>, after: ReadonlyMap<string, number>];

function compiledPair(one: Bike, changes: readonly Change[]): readonly [CompiledBike, CompiledBike] {
  return [compileBike(one), compileBike(withChanges(one, changes))];
}

/** @throws Error as above */
function withChanges(one: Bike, changes: readonly Change[]): Bike {
  const then = changed(one, changes);
  // What is drawn moves no knob and no pressure, so a change that fits the bike fits every draw of it.
  if (!then.ok) throw new Error('a draw refused a change that its bike takes');
  return then.bike;
}

/** Sets of readings side by side; the first pair is of the bike as it is taken. */
function compare(pairs: readonly Pair[], scenarios: readonly ScenarioId[]): PredictedMetric[] {
  return scenarios.flatMap((scenario) =>
    metricsOf(scenario).map((metric) => {
      const key = metricKey(scenario, metric.id);
      const read = pairs.flatMap(([before, after]): (readonly [number, number])[] =>
        before.has(key) ? [[before.get(key)!, after.get(key)!]] : [],
      );
      return lineOf(scenario, metric, read);
    }),
  );
}

/** @param pairs before and after, of every bike that was run; the first is the bike as it is taken */
function lineOf(
  scenario: ScenarioId,
  metric: Metric,
  pairs: readonly (readonly [before: number, after: number])[],
): PredictedMetric {
  const [from, to] = pairs[0]!;
  const changes = pairs.map(([before, after]) => after - before);
  const [least, most] = [Math.min(...changes), Math.max(...changes)];
  return {
    scenario,
    scenarioName: SCENARIOS.find((s) => s.id === scenario)!.name,
    metric: metric.id,
    ...(metric.end === undefined ? {} : { end: metric.end }),
    unit: metric.unit,
    name: metric.name,
    about: metric.about,
    ...(metric.sides === undefined ? {} : { sides: metric.sides }),
    words: metric.words,
    before: from,
    after: to,
    least,
    most,
    effect: effectOf(from, to, least, most, metric),
  };
}

/**
 * A rider feels a change by what it is a share of (`WEBER`): of the number before, or of a usual one where that is small,
 * or a change from next to nothing would always be felt.
 */
export function felt(from: number, to: number, { floor, usual }: Pick<Metric, 'floor' | 'usual'>): boolean {
  const by = Math.abs(to - from);
  return by >= floor && by >= WEBER * Math.max(Math.abs(from), usual);
}

function effectOf(from: number, to: number, least: number, most: number, metric: Metric): Effect {
  if (!felt(from, to, metric) || least * most <= 0) return 'same';
  const { worse, fineBelowNought } = metric;
  const counted = (x: number): number => (fineBelowNought === true ? Math.max(0, x) : x);
  if (worse === 'either' || !felt(counted(from), counted(to), metric)) return 'either';
  return to > from === (worse === 'up') ? 'worse' : 'better';
}
