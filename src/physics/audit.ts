/**
 * Does the physics agree with a rule? The rule says that a cause makes a metric of a scenario go up or down; the model
 * runs the scenario with the cause out and in, over many plausible bikes and riders, each at a pace of its own: a sign
 * that holds for one bike only is no sign.
 */
import type { End } from '../bike/sheet.ts';
import type { Bike } from './bike/bike.ts';
import { compileBike, type CompiledBike } from './ride/compile.ts';
import type { Draw } from './draws.ts';
import { makeGround, metricsOf, runScenario, type Ground } from './metrics/measure.ts';
import { SCENARIO_IDS, type ScenarioId } from './ride/scenario.ts';
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

/**
 * `agree`: the claimed way in at least nine of ten bikes; `disagree`: the other way in at least nine of ten; `weak`: the
 * bikes do not agree with each other; `too-small`: the change at the median bike is below what the metric can tell.
 */
export type Verdict = 'agree' | 'disagree' | 'weak' | 'too-small';

export type Finding =
  | {
      readonly verdict: Verdict;
      /** share of the bikes in which the metric went the claimed way */
      readonly share: number;
      /** how many bikes there were: those that have the setting at all */
      readonly bikes: number;
      /** the metric at the median bike with the cause out, and its median change, in its unit */
      readonly out: number;
      readonly change: number;
      readonly unit: string;
      /** the least change that is called a change */
      readonly floor: number;
    }
  | { readonly verdict: 'unreachable'; readonly why: string };

/** Judgement: what fewer bikes show is not a rule. */
export const AGREED = 0.9;

export interface Asked {
  readonly claim: RuleClaim;
  readonly cause: CauseInModel;
}

/** The metric of a claim with its cause out and in, on one bike. */
type Pair = readonly [out: number, into: number];

/**
 * Every claim on every bike; what one bike is asked is run together, and each scenario once.
 * @param progress is told how many bikes are done: many claims take seconds
 */
export function audit(
  draws: readonly Draw[],
  asked: readonly Asked[],
  progress: (bikes: number) => void = () => undefined,
): readonly Finding[] {
  const beyond = asked.map(beyondModel);
  const pairs: Pair[][] = asked.map(() => []);
  draws.forEach((draw, done) => {
    const read = readerOf(draw);
    asked.forEach(({ claim, cause }, i) => {
      if (beyond[i] !== undefined) return;
      const scene = claim.scenario as ScenarioId;
      const into = read(scene, cause);
      if (into !== undefined) pairs[i]!.push([read(scene)!.get(claim.metric)!, into.get(claim.metric)!]);
    });
    progress(done + 1);
  });
  return asked.map(({ claim, cause }, i) => {
    const why = beyond[i];
    if (why !== undefined) return { verdict: 'unreachable', why };
    return pairs[i]!.length === 0
      ? { verdict: 'unreachable', why: `the ${cause.end} of no bike has ${cause.setting} to be off` }
      : found(claim, pairs[i]!);
  });
}

/** Why the model has nothing to say on a claim; undefined when it has. */
function beyondModel({ claim, cause }: Asked): string | undefined {
  const scene = SCENARIO_IDS.find((s) => s === claim.scenario);
  if (scene === undefined) return `the model has no scenario ${claim.scenario}`;
  if (!metricsOf(scene).some((m) => m.id === claim.metric))
    return `the model reads no ${claim.metric} in ${claim.scenario}`;
  return SETTINGS[cause.setting]?.off[cause.direction] === undefined
    ? `the model has no ${cause.setting} that is ${cause.direction}`
    : undefined;
}

type Readings = ReadonlyMap<string, number>;

/** Readings of one draw, as it is or with a cause in it; undefined where it has no such setting. */
function readerOf({ bike, pace }: Draw): (id: ScenarioId, cause?: CauseInModel) => Readings | undefined {
  const ground = makeGround(bike, pace);
  const known = new Map<string, Readings | undefined>();
  return (id, cause) => {
    const key = `${id}|${cause === undefined ? '' : `${cause.end}.${cause.setting}.${cause.direction}`}`;
    if (!known.has(key)) {
      const other = cause === undefined ? bike : bikeWith(bike, cause);
      known.set(key, other === undefined ? undefined : readAll(compileBike(other), ground, id));
    }
    return known.get(key);
  };
}

function bikeWith(bike: Bike, { end, setting, direction }: CauseInModel): Bike | undefined {
  const off = SETTINGS[setting]!.off[direction]!(bike.ends[end]);
  return off === undefined ? undefined : withEnd(bike, end, off);
}

function found({ scenario, metric: id, sign }: RuleClaim, pairs: readonly Pair[]): Finding {
  const metric = metricsOf(scenario as ScenarioId).find((m) => m.id === id)!;
  const way = sign === 'up' ? 1 : -1;
  const changes = pairs.map(([out, into]) => into - out);
  const share = changes.filter((c) => c * way > 0).length / pairs.length;
  const against = changes.filter((c) => c * way < 0).length / pairs.length;
  const change = median(changes);
  const verdict: Verdict =
    Math.abs(change) < metric.floor
      ? 'too-small'
      : share >= AGREED
        ? 'agree'
        : against >= AGREED
          ? 'disagree'
          : 'weak';
  return {
    verdict,
    share,
    bikes: pairs.length,
    out: median(pairs.map(([out]) => out)),
    change,
    unit: metric.unit,
    floor: metric.floor,
  };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

function readAll(bike: CompiledBike, ground: Ground, id: ScenarioId): Readings {
  const run = runScenario(bike, ground, id);
  return new Map(metricsOf(id).map((m) => [m.id, m.read(run)]));
}
