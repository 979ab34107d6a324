/** Roads under the wheels: heights in m over distance in m. */
import type { Road } from './drive.ts';

/** One smooth bump, height·(1 − cos)/2 over its length. */
function bump(at: number, height: number, length: number): Road {
  const w = (2 * Math.PI) / length;
  const inside = (x: number): boolean => x > at && x < at + length;
  return {
    height: (x) => (inside(x) ? (height * (1 - Math.cos(w * (x - at)))) / 2 : 0),
    slope: (x) => (inside(x) ? (height * w * Math.sin(w * (x - at))) / 2 : 0),
  };
}

/** `count` equal bumps whose starts are `spacing` apart. */
export function bumps(at: number, count: number, spacing: number, height: number, length: number): Road {
  return repeated(bump(0, height, length), at, count, spacing);
}

/** `count` square stones whose starts are `spacing` apart, under a wheel of a radius. */
export function stones(
  at: number,
  count: number,
  spacing: number,
  height: number,
  length: number,
  wheelRadius: number,
): Road {
  // A wheel meets a stone before its edge stands above it: each is read from halfway to the one before.
  const half = spacing / 2;
  return repeated(stone(half, height, length, wheelRadius), at - half, count, spacing);
}

/** A thing that lies between 0 and `spacing`, `count` times. */
function repeated(one: Road, at: number, count: number, spacing: number): Road {
  const local = (x: number): number => {
    const n = Math.min(count - 1, Math.max(0, Math.floor((x - at) / spacing)));
    return x - at - n * spacing;
  };
  return { height: (x) => one.height(local(x)), slope: (x) => one.slope(local(x)) };
}

/** A wheel of a radius rolling off an edge of a height: its axle follows the circle about the edge. */
export function kerbDown(at: number, height: number, wheelRadius: number): Road {
  const foot = Math.sqrt(wheelRadius ** 2 - (wheelRadius - height) ** 2);
  return {
    height(x) {
      const d = x - at;
      if (d <= 0) return height;
      if (d >= foot) return 0;
      return height - wheelRadius + Math.sqrt(wheelRadius ** 2 - d ** 2);
    },
    slope(x) {
      const d = x - at;
      return d <= 0 || d >= foot ? 0 : -d / Math.sqrt(wheelRadius ** 2 - d ** 2);
    },
  };
}

/** A wheel of a radius rolling over a square stone that begins at a place: up one edge's circle, along, and down. */
export function stone(at: number, height: number, length: number, wheelRadius: number): Road {
  const down = kerbDown(0, height, wheelRadius);
  return {
    height: (x) => down.height(x < at ? at - x : x - at - length),
    slope: (x) => (x < at ? -down.slope(at - x) : down.slope(x - at - length)),
  };
}

/** Deep enough that no wheel reaches it during a run. */
const ABYSS = -50; // m

/** A jump: curved up over `curve` m to a slope, then straight for `straight` m, then nothing. */
export function lip(at: number, slope: number, curve: number, straight: number): Road {
  const end = at + curve + straight;
  const bend = slope / curve;
  return {
    height(x) {
      const d = x - at;
      if (d <= 0) return 0;
      if (x > end) return ABYSS;
      return d < curve ? (bend * d * d) / 2 : (slope * curve) / 2 + slope * (d - curve);
    },
    slope(x) {
      const d = x - at;
      if (d <= 0 || x > end) return 0;
      return d < curve ? bend * d : slope;
    },
  };
}

/**
 * Wheels in the air over flat ground: the road lies `depth` lower from `at` on, after the edge.
 * What lands is the whole bike from that height.
 */
export function drop(at: number, depth: number): Road {
  return { height: (x) => (x > at ? 0 : depth), slope: () => 0 };
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
export function roughRoad(parts: RoughRoad, fine = 0.005): Road {
  const period = 1 / parts.spacing;
  const points = Math.round(period / fine);
  const height = new Float64Array(points + 1);
  const slope = new Float64Array(points + 1);
  const random = seeded(parts.seed);
  const first = Math.max(1, Math.round(parts.from / parts.spacing));
  const last = Math.round(parts.to / parts.spacing);
  for (let i = first; i <= last; i++) {
    const frequency = i * parts.spacing;
    const amplitude = harmonicAmplitude(parts.roughness, frequency, parts.spacing);
    const w = 2 * Math.PI * frequency;
    // A turning vector instead of a cosine a point; the period is short enough that rounding does not add up.
    const turn = (2 * Math.PI * i) / points;
    const turnCos = Math.cos(turn);
    const turnSin = Math.sin(turn);
    const phase = 2 * Math.PI * random();
    let c = Math.cos(phase);
    let s = Math.sin(phase);
    for (let p = 0; p <= points; p++) {
      height[p]! += amplitude * c;
      slope[p]! -= amplitude * w * s;
      const next = c * turnCos - s * turnSin;
      s = s * turnCos + c * turnSin;
      c = next;
    }
  }
  const read = (table: Float64Array, x: number): number => {
    const at = (((x / period) % 1) + 1) % 1;
    const place = at * points;
    const i = Math.min(points - 1, Math.floor(place));
    return table[i]! + (place - i) * (table[i + 1]! - table[i]!);
  };
  return { height: (x) => read(height, x), slope: (x) => read(slope, x) };
}

/** Linear congruential generator of Numerical Recipes (Press et al., ch. 7: 1664525, 1013904223; from memory); [0, 1). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
}
