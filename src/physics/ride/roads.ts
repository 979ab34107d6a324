/** Roads under the wheels: heights in m over distance in m. */
import { readPeriod } from '../machine/loops/pave.ts';
import { machine } from '../machine/machine.ts';
import { FORM, pieced, type Piece, type PiecedRoad, type TabledRoad } from './pieces.ts';

/** `count` smooth bumps, height·(1 − cos)/2 over their length, whose starts are `spacing` apart. */
export function bumps(
  at: number,
  count: number,
  spacing: number,
  height: number,
  length: number,
): PiecedRoad {
  return pieced(
    Array.from({ length: count }, (_, i) => {
      const from = at + i * spacing;
      return [from, from + length, FORM.hump, height / 2, (2 * Math.PI) / length, from];
    }),
  );
}

/** A wheel's axle on the circle about an edge of a height, from beside the edge to where the wheel stands on the ground. */
const footOf = (height: number, wheelRadius: number): number =>
  Math.sqrt(wheelRadius ** 2 - (wheelRadius - height) ** 2);

/** A wheel of a radius rolling off an edge of a height: its axle follows the circle about the edge. */
export function kerbDown(at: number, height: number, wheelRadius: number): PiecedRoad {
  return pieced([
    [-Infinity, at, FORM.line, height, 0, 0],
    [at, at + footOf(height, wheelRadius), FORM.arc, height - wheelRadius, wheelRadius ** 2, at],
  ]);
}

/** A wheel of a radius rolling over a square stone that begins at a place: up one edge's circle, along, and down. */
export function stone(at: number, height: number, length: number, wheelRadius: number): PiecedRoad {
  return stones(at, 1, Infinity, height, length, wheelRadius);
}

/** `count` square stones whose starts are `spacing` apart, under a wheel of a radius. */
export function stones(
  at: number,
  count: number,
  spacing: number,
  height: number,
  length: number,
  wheelRadius: number,
): PiecedRoad {
  const foot = footOf(height, wheelRadius);
  const arc = [FORM.arc, height - wheelRadius, wheelRadius ** 2] as const;
  return pieced(
    Array.from({ length: count }, (_, i): Piece[] => {
      const from = i === 0 ? at : at + i * spacing;
      const end = from + length;
      return [
        [from - foot, from, ...arc, from],
        [from, end, FORM.line, height, 0, 0],
        [end, end + foot, ...arc, end],
      ];
    }).flat(),
  );
}

/** Deep enough that no wheel reaches it during a run. */
const ABYSS = -50; // m

/** A jump: curved up over `curve` m to a slope, then straight for `straight` m, then nothing. */
export function lip(at: number, slope: number, curve: number, straight: number): PiecedRoad {
  const bent = at + curve;
  const end = bent + straight;
  return pieced([
    [at, bent, FORM.bend, slope / curve / 2, 0, at],
    [bent, end, FORM.line, (slope * curve) / 2, slope, bent],
    [end, Infinity, FORM.line, ABYSS, 0, 0],
  ]);
}

/**
 * Wheels in the air over flat ground: the road lies `depth` lower from `at` on, after the edge.
 * What lands is the whole bike from that height.
 */
export function drop(at: number, depth: number): PiecedRoad {
  return pieced([[-Infinity, at, FORM.line, depth, 0, 0]]);
}

/** ISO 8608 displacement spectral density Gd(n) = Gd(n0)·(n/n0)^−2 with n0 = 0.1 cycle/m; geometric means at n0, m³. */
export const ROUGHNESS = {
  A: 16e-6,
  B: 64e-6,
  C: 256e-6,
  D: 1024e-6,
  E: 4096e-6,
  F: 16_384e-6,
  G: 65_536e-6,
  H: 262_144e-6,
} as const;
const REFERENCE_FREQUENCY = 0.1; // cycle/m

/** Amplitude in m of one harmonic: √(2·Gd(n)·Δn). */
function harmonicAmplitude(roughness: number, frequency: number, spacing: number): number {
  return (REFERENCE_FREQUENCY / frequency) * Math.sqrt(2 * roughness * spacing);
}

export interface RoughRoad {
  /** Gd(n0), m³ */
  readonly roughness: number;
  /** cycle/m: harmonics n = spacing·i from the lowest to the highest */
  readonly spacing: number;
  readonly from: number;
  readonly to: number;
  readonly seed: number;
}

/**
 * A rough road as a sum of cosines with seeded phases (form of Agostinacchio, Ciampa & Olita, Eur. Transp. Res. Rev. 6,
 * 2014, from memory), tabulated over one period and read by straight lines, which the wheel cannot tell from the curve.
 * @param fine m between table points
 */
export function roughRoad(parts: RoughRoad, fine = 0.005): TabledRoad {
  const period = 1 / parts.spacing;
  const points = Math.round(period / fine);
  const random = seeded(parts.seed);
  const first = Math.max(1, Math.round(parts.from / parts.spacing));
  const last = Math.round(parts.to / parts.spacing);
  const waves: Wave[] = [];
  for (let i = first; i <= last; i++) {
    const frequency = i * parts.spacing;
    waves.push({
      amplitude: harmonicAmplitude(parts.roughness, frequency, parts.spacing),
      w: 2 * Math.PI * frequency,
      turn: (2 * Math.PI * i) / points,
      phase: 2 * Math.PI * random(),
    });
  }
  const { code, place, read } = machine();
  const [heights, slopes] = place([], points + 1, points + 1);
  read(heights, points + 1).fill(0);
  read(slopes, points + 1).fill(0);
  for (const { amplitude, w, turn, phase } of waves)
    code.wave(
      heights,
      slopes,
      points,
      amplitude,
      amplitude * w,
      Math.cos(turn),
      Math.sin(turn),
      Math.cos(phase),
      Math.sin(phase),
    );
  const height = read(heights, points + 1).slice();
  const slope = read(slopes, points + 1).slice();
  return {
    heights: height,
    slopes: slope,
    period,
    height: (x) => readPeriod(height, points, period, x),
    slope: (x) => readPeriod(slope, points, period, x),
  };
}

/** A cosine along the road: rad/m, and rad from one point to the next and at the first. */
interface Wave {
  readonly amplitude: number;
  readonly w: number;
  readonly turn: number;
  readonly phase: number;
}

/** Linear congruential generator of Numerical Recipes (Press et al., ch. 7: 1664525, 1013904223; from memory); [0, 1). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
}
