/** One adjuster over its whole range: every metric at every click, and where the end packs and where it kicks. */
import { circuitWords } from '../bike/setting-words.ts';
import type { Circuit, End } from '../bike/sheet.ts';
import type { Bike } from './bike/bike.ts';
import { restTravel } from './bike/equilibrium.ts';
import { makeGround, measure, metricKey, metricsOf, type Ground } from './metrics/measure.ts';
import { SCENARIO_IDS, type ScenarioId } from './ride/scenario.ts';
import { clicked, withEnd } from './settings.ts';

interface SweptMetric {
  readonly scenario: ScenarioId;
  readonly metric: string;
  readonly end?: End;
  readonly unit: string;
  readonly name: string;
  /** one value a click, from fully closed to fully open */
  readonly values: readonly number[];
}

/** Of a slow, a usual and a fast rider: at every pace, at one or two of them, or at none. */
export type Often = 'always' | 'sometimes' | 'never';

export interface Sweep {
  readonly end: End;
  readonly circuit: Circuit;
  /** clicks from fully closed, 0 … range */
  readonly clicks: readonly number[];
  /** where it stands now */
  readonly now: number;
  /** true when nobody counted and the middle of the range was taken */
  readonly assumed: boolean;
  /** each click by itself: some knobs pack when closed, others when open */
  readonly packs: readonly Often[];
  readonly kicks: readonly Often[];
  /** at the usual pace */
  readonly metrics: readonly SweptMetric[];
}

export type Swept =
  { readonly ok: true; readonly sweep: Sweep } | { readonly ok: false; readonly why: string };

/**
 * An end packs when it meets the later bumps of the row deeper than its sag by more than this share of its travel.
 * Judgement: 7 mm of 150 mm is what can be felt of a usual sag.
 */
export const PACKING = 0.05;
/** An end kicks when it springs back past its sag, after a lone hit, by more than this share of that sag. Judgement. */
export const KICKING = 0.5;
/** Slow, usual and fast, as the scenarios' speeds. */
export const PACES = [0.85, 1, 1.15] as const;

/** @param scenarios more than the row and the lone hit only add metrics; default: all */
export function sweep(
  bike: Bike,
  end: End,
  circuit: Circuit,
  ground: Ground = makeGround(bike),
  scenarios: readonly ScenarioId[] = SCENARIO_IDS,
): Swept {
  const knob = bike.ends[end].knobs[circuit];
  if (knob === undefined)
    return { ok: false, why: `this bike has no knob for the ${circuitWords(circuit, end)}` };
  const assumed = knob.now === undefined;
  const now = knob.now ?? Math.round(knob.range / 2);
  const clicks = Array.from({ length: knob.range + 1 }, (_, i) => i);
  const bikes = clicks.map((click) => withEnd(bike, end, clicked(bike.ends[end], circuit, click - now)));
  const told: readonly ScenarioId[] = ['row', 'lone-hit'];
  const ids = [...new Set<ScenarioId>([...told, ...scenarios])];
  const grounds = PACES.map((pace) => (pace === 1 ? ground : makeGround(bike, pace)));
  const readings = grounds.map((g) => bikes.map((b) => measure(b, g, g === ground ? ids : told)));
  const usual = readings[PACES.indexOf(1)]!;
  const part = bike.ends[end];
  const millimetres = part.shownPerWheel * 1000;
  const often = (metric: string, limit: number): Often[] =>
    clicks.map((click) => {
      const times = readings.filter((at) => at[click]!.get(metric)! > limit).length;
      return times === 0 ? 'never' : times === readings.length ? 'always' : 'sometimes';
    });
  return {
    ok: true,
    sweep: {
      end,
      circuit,
      clicks,
      now,
      assumed,
      packs: often(
        metricKey('row', `travel-not-recovered.${end}`),
        PACKING * part.linkage.travel * millimetres,
      ),
      kicks: often(metricKey('lone-hit', `overshoot.${end}`), KICKING * restTravel(bike, end) * millimetres),
      metrics: ids.flatMap((scenario) =>
        metricsOf(scenario).map((metric) => ({
          scenario,
          metric: metric.id,
          ...(metric.end === undefined ? {} : { end: metric.end }),
          unit: metric.unit,
          name: metric.name,
          values: usual.map((r) => r.get(metricKey(scenario, metric.id))!),
        })),
      ),
    },
  };
}
