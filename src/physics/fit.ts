/** A damper circuit fitted to points of a measured force–speed curve at known clicks, by Levenberg–Marquardt. */
import {
  ENDS,
  type BikeSheet,
  type Circuit,
  type CurvePoint,
  type End,
  type EndSheet,
} from '../bike/sheet.ts';
import { damperForce, turned, type DamperCircuit } from './bike/damper.ts';
import { clickRatio } from './defaults.ts';
import { rangeOf } from './usual-bikes.ts';

interface FitResidual {
  readonly point: CurvePoint;
  /** N, what the fitted circuit makes there, and its share above the measured force */
  readonly force: number;
  readonly relative: number;
}

export interface CircuitFit {
  /** with both adjusters fully closed (0 clicks) */
  readonly circuit: DamperCircuit;
  /** what one click multiplies the coefficient by: fitted when the points cover two or more clicks, else as given */
  readonly low: { readonly ratio: number; readonly fitted: boolean };
  readonly high: { readonly ratio: number; readonly fitted: boolean };
  readonly residuals: readonly FitResidual[];
  /** root mean square of the relative residuals */
  readonly rms: number;
}

export interface FittedDamper {
  readonly compression?: DamperCircuit;
  readonly rebound?: DamperCircuit;
  /** ratios per click to use with these circuits */
  readonly ratios: Readonly<Partial<Record<Circuit, number>>>;
  readonly fits: Readonly<Partial<Record<'compression' | 'rebound', CircuitFit>>>;
}

/** Fewer points than unknowns fit anything. */
const UNKNOWNS = 2;

/** Fits every measured curve of a sheet. An end without a curve has no entry. */
export async function fitDampers(sheet: BikeSheet): Promise<Partial<Record<End, FittedDamper>>> {
  const out: Partial<Record<End, FittedDamper>> = {};
  for (const end of ENDS) {
    const part = sheet.ends[end];
    if (part.curve === undefined || part.curve.length === 0) continue;
    out[end] = await fitEnd(part, part.curve);
  }
  return out;
}

async function fitEnd(part: EndSheet, curve: readonly CurvePoint[]): Promise<FittedDamper> {
  const fits: Partial<Record<'compression' | 'rebound', CircuitFit>> = {};
  const ratios: Partial<Record<Circuit, number>> = {};
  for (const side of ['compression', 'rebound'] as const) {
    const points = curve.filter((p) => p.circuit === side);
    const fit = await fitCircuit(points, ratioOf(part, `${side}.low`), ratioOf(part, `${side}.high`));
    if (fit === undefined) continue;
    fits[side] = fit;
    ratios[`${side}.low`] = fit.low.ratio;
    ratios[`${side}.high`] = fit.high.ratio;
  }
  return {
    ...(fits.compression === undefined ? {} : { compression: fits.compression.circuit }),
    ...(fits.rebound === undefined ? {} : { rebound: fits.rebound.circuit }),
    ratios,
    fits,
  };
}

interface GivenRatio {
  readonly ratio: number;
  /** true when the sheet names it, so that it is not fitted */
  readonly fixed: boolean;
}

function ratioOf(part: EndSheet, circuit: Circuit): GivenRatio {
  const adjuster = part.adjusters[circuit];
  if (adjuster === undefined) return { ratio: 1, fixed: true };
  return adjuster.ratio === undefined
    ? { ratio: clickRatio(circuit, rangeOf(circuit, adjuster)), fixed: false }
    : { ratio: adjuster.ratio, fixed: true };
}

/**
 * @returns undefined with fewer than two points. Relative force errors are made small, so that slow points count as
 *   much as fast ones; unknowns are logarithms, so that no coefficient can turn negative.
 */
export async function fitCircuit(
  points: readonly CurvePoint[],
  low: GivenRatio,
  high: GivenRatio,
): Promise<CircuitFit | undefined> {
  if (points.length < UNKNOWNS) return undefined;
  const { levenbergMarquardt } = await import('ml-levenberg-marquardt');
  const unknowns: Unknowns = {
    low: !low.fixed && several(points.map((p) => p.low)),
    high: !high.fixed && several(points.map((p) => p.high)),
    preload: false,
  };
  const slowest = Math.min(...points.map((p) => p.force));
  let best: CircuitFit | undefined;
  for (const preload of [0, ...PRELOAD_STARTS.map((share) => share * slowest)]) {
    // A preload is one more unknown: with fewer points than that to spare, the stack is taken to open from the start.
    if (preload > 0 && (points.length < UNKNOWNS_WITH_PRELOAD || best!.rms < GOOD)) continue;
    const shape = shapeOf({ ...unknowns, preload: preload > 0 }, low, high);
    const { parameterValues } = levenbergMarquardt(
      { x: points.map((_, i) => i), y: points.map((p) => Math.log(p.force)) },
      (logs: number[]) => (at: number) =>
        Math.log(damperForce(shape.at(logs, points[at]!), points[at]!.speed)),
      {
        initialValues: shape.start(startOf(points, low, high), preload),
        damping: 1e-2,
        gradientDifference: 1e-5,
        centralDifference: true,
        maxIterations: 300,
        errorTolerance: 1e-16,
        improvementThreshold: 1e-12,
      },
    );
    const fit = shape.read(parameterValues, points);
    if (best === undefined || fit.rms < WORTH_A_PRELOAD * best.rms) best = fit;
  }
  return best;
}

/** Where the search for a preload begins, as shares of the least force that was measured. */
const PRELOAD_STARTS = [0.3, 1, 3] as const;
/** Orifice, stack, preload, and one to tell them by. */
const UNKNOWNS_WITH_PRELOAD = 4;
/** Nearer than this, as a share of the force, no stand measures. */
const GOOD = 0.002;
/** A better one must be better by this much, so that rounding never decides. */
const WORTH_A_PRELOAD = 0.98;

interface Unknowns {
  readonly low: boolean;
  readonly high: boolean;
  readonly preload: boolean;
}

/** The logarithms that are fitted, there and back: orifice, stack, then what else is unknown. */
function shapeOf(fitted: Unknowns, low: GivenRatio, high: GivenRatio) {
  const ratiosIn = (logs: readonly number[]): [number, number] => [
    fitted.low ? Math.exp(logs[2]!) : low.ratio,
    fitted.high ? Math.exp(logs[fitted.low ? 3 : 2]!) : high.ratio,
  ];
  const closed = (logs: readonly number[]): DamperCircuit => ({
    orifice: Math.exp(logs[0]!),
    stack: Math.exp(logs[1]!),
    preload: fitted.preload ? Math.exp(logs.at(-1)!) : 0,
  });
  const at = (logs: readonly number[], point: CurvePoint): DamperCircuit => {
    const [lowRatio, highRatio] = ratiosIn(logs);
    return turned(closed(logs), lowRatio ** point.low, highRatio ** point.high);
  };
  return {
    at,
    start: (circuit: DamperCircuit, preload: number): number[] => [
      Math.log(circuit.orifice),
      Math.log(circuit.stack),
      ...(fitted.low ? [Math.log(low.ratio)] : []),
      ...(fitted.high ? [Math.log(high.ratio)] : []),
      ...(fitted.preload ? [Math.log(preload)] : []),
    ],
    read(logs: readonly number[], points: readonly CurvePoint[]): CircuitFit {
      const [lowRatio, highRatio] = ratiosIn(logs);
      const residuals = points.map((point) => {
        const force = damperForce(at(logs, point), point.speed);
        return { point, force, relative: force / point.force - 1 };
      });
      return {
        circuit: closed(logs),
        low: { ratio: lowRatio, fitted: fitted.low },
        high: { ratio: highRatio, fitted: fitted.high },
        residuals,
        rms: Math.sqrt(residuals.reduce((sum, r) => sum + r.relative ** 2, 0) / residuals.length),
      };
    },
  };
}

function several(clicks: readonly number[]): boolean {
  return new Set(clicks).size > 1;
}

/** The slowest point as if all went through the orifice, the fastest as if all went through the stack, doubled. */
function startOf(points: readonly CurvePoint[], low: GivenRatio, high: GivenRatio): DamperCircuit {
  const sorted = [...points].sort((a, b) => a.speed - b.speed);
  const slow = sorted[0]!;
  const fast = sorted.at(-1)!;
  return {
    orifice: (1.5 * slow.speed) / Math.sqrt(slow.force) / low.ratio ** slow.low,
    stack: (0.7 * fast.speed) / fast.force ** 1.5 / high.ratio ** fast.high,
    preload: 0,
  };
}
