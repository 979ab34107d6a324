/** One adjuster over its whole range: every metric at every click, and where packing and kicking begin. */
import { circuitWords } from '../bike/setting-words.ts';
import type { Circuit, End } from '../bike/sheet.ts';
import type { Bike } from './bike.ts';
import { makeGround, measure, metricKey, metricsOf, type Ground } from './measure.ts';
import { SCENARIO_IDS, type ScenarioId } from './scenarios.ts';
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

export interface Sweep {
  readonly end: End;
  readonly circuit: Circuit;
  /** clicks from fully closed, 0 … range */
  readonly clicks: readonly number[];
  /** where it stands now */
  readonly now: number;
  /** true when nobody counted and the middle of the range was taken */
  readonly assumed: boolean;
  /** the most open click at which the end packs; undefined = nowhere in the range */
  readonly packingBegins?: number;
  /** the most closed click at which the end kicks; undefined = nowhere in the range */
  readonly kickingBegins?: number;
  readonly metrics: readonly SweptMetric[];
}

export type Swept =
  { readonly ok: true; readonly sweep: Sweep } | { readonly ok: false; readonly why: string };

/**
 * An end packs when it meets the later bumps of the row deeper than its sag by more than this share of its travel.
 * Judgement: 3 mm of 150 mm is what a sag ring shows.
 */
export const PACKING = 0.02;
/** An end kicks when a lone hit throws the frame up faster than this, m/s: what would lift it 15 mm. Judgement. */
export const KICKING = 0.55;

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
  const ids = [...new Set<ScenarioId>(['row', 'lone-hit', ...scenarios])];
  const readings = clicks.map((click) =>
    measure(withEnd(bike, end, clicked(bike.ends[end], circuit, click - now)), ground, ids),
  );
  const column = (scenario: ScenarioId, metric: string): number[] =>
    readings.map((r) => r.get(metricKey(scenario, metric))!);
  const part = bike.ends[end];
  const travel = part.linkage.travel * part.shownPerWheel * 1000;
  const packs = column('row', `travel-not-recovered.${end}`).map((mm) => mm > PACKING * travel);
  const kicks = column('lone-hit', `kick-velocity.${end}`).map((v) => v > KICKING);
  const packing = packs.lastIndexOf(true);
  const kicking = kicks.indexOf(true);
  return {
    ok: true,
    sweep: {
      end,
      circuit,
      clicks,
      now,
      assumed,
      ...(packing < 0 ? {} : { packingBegins: packing }),
      ...(kicking < 0 ? {} : { kickingBegins: kicking }),
      metrics: ids.flatMap((scenario) =>
        metricsOf(scenario).map((metric) => ({
          scenario,
          metric: metric.id,
          ...(metric.end === undefined ? {} : { end: metric.end }),
          unit: metric.unit,
          name: metric.name,
          values: column(scenario, metric.id),
        })),
      ),
    },
  };
}
