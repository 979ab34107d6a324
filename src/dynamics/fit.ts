/** A damper circuit fitted to points of a measured force–speed curve at known clicks, by Levenberg–Marquardt. */
import {
  ENDS,
  type BikeSheet,
  type Circuit,
  type CurvePoint,
  type End,
  type EndSheet,
} from '../bike/sheet.ts';
import { damperForce, turned, type DamperCircuit } from './damper.ts';
import { clickRatio, rangeOf } from './defaults.ts';

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
  const fitLow = !low.fixed && several(points.map((p) => p.low));
  const fitHigh = !high.fixed && several(points.map((p) => p.high));
  const circuitAt = (logs: readonly number[], point: CurvePoint): DamperCircuit => {
    const [lowRatio, highRatio] = ratiosIn(logs);
    return turned(
      { orifice: Math.exp(logs[0]!), stack: Math.exp(logs[1]!) },
      lowRatio ** point.low,
      highRatio ** point.high,
    );
  };
  const ratiosIn = (logs: readonly number[]): [number, number] => [
    fitLow ? Math.exp(logs[2]!) : low.ratio,
    fitHigh ? Math.exp(logs[fitLow ? 3 : 2]!) : high.ratio,
  ];
  const logForce = (logs: readonly number[]) => (at: number) => {
    const point = points[at]!;
    return Math.log(damperForce(circuitAt(logs, point), point.speed));
  };
  const start = startOf(points, low, high);
  const initialValues = [
    Math.log(start.orifice),
    Math.log(start.stack),
    ...(fitLow ? [Math.log(low.ratio)] : []),
    ...(fitHigh ? [Math.log(high.ratio)] : []),
  ];
  const { parameterValues } = levenbergMarquardt(
    { x: points.map((_, i) => i), y: points.map((p) => Math.log(p.force)) },
    (logs: number[]) => logForce(logs),
    {
      initialValues,
      damping: 1e-2,
      gradientDifference: 1e-5,
      centralDifference: true,
      maxIterations: 300,
      errorTolerance: 1e-16,
      improvementThreshold: 1e-12,
    },
  );
  const [lowRatio, highRatio] = ratiosIn(parameterValues);
  const residuals = points.map((point, i) => {
    const force = Math.exp(logForce(parameterValues)(i));
    return { point, force, relative: force / point.force - 1 };
  });
  return {
    circuit: { orifice: Math.exp(parameterValues[0]!), stack: Math.exp(parameterValues[1]!) },
    low: { ratio: lowRatio, fitted: fitLow },
    high: { ratio: highRatio, fitted: fitHigh },
    residuals,
    rms: Math.sqrt(residuals.reduce((sum, r) => sum + r.relative ** 2, 0) / residuals.length),
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
  };
}
