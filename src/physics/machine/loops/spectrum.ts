/** The weighted power of a record, as `ride/vibration.ts` asks for it. */
import type { f64, i32, Numbers } from './numbers.ts';
import { cosine, sine } from './numbers.ts';

const TURN: f64 = 6.283185307179586;

/** Cosines and sines of half a circle in n/2 steps. */
export function circle(cos: Numbers, sin: Numbers, n: i32): void {
  for (let i = 0; i < n / 2; i++) {
    const angle = (TURN * i) / n;
    cos[i] = cosine(angle);
    sin[i] = sine(angle);
  }
}

function swap(values: Numbers, i: i32, j: i32): void {
  const kept = values[i]!;
  values[i] = values[j]!;
  values[j] = kept;
}

/** Discrete Fourier transform in place, radix 2 (Cooley & Tukey, Math. Comp. 19, 1965, 297-301); unscaled. */
export function transform(re: Numbers, im: Numbers, n: i32, cos: Numbers, sin: Numbers): void {
  let j: i32 = 0;
  for (let i = 1; i < n; i++) {
    let bit = n >> 1;
    for (; (j & bit) !== 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      swap(re, i, j);
      swap(im, i, j);
    }
  }
  for (let length = 2; length <= n; length *= 2) {
    const half: i32 = length / 2;
    const stride: i32 = n / length;
    for (let start = 0; start < n; start += length) {
      for (let k = 0; k < half; k++) {
        const c = cos[k * stride]!;
        const s = sin[k * stride]!;
        const here = start + k;
        const there = here + half;
        const x = re[there]! * c + im[there]! * s;
        const y = im[there]! * c - re[there]! * s;
        re[there] = re[here]! - x;
        im[there] = im[here]! - y;
        re[here] = re[here]! + x;
        im[here] = im[here]! + y;
      }
    }
  }
}

/** @param count how many weights there are, the first, of nought hertz, left out */
export function weightedPower(weights: Numbers, re: Numbers, im: Numbers, count: i32): f64 {
  let sum: f64 = 0;
  for (let i = 1; i < count; i++) sum += weights[i]! * (re[i]! * re[i]! + im[i]! * im[i]!);
  return sum;
}

const KNEE: f64 = 100; // rad/s: 2π · 15.915 Hz
const Q1: f64 = Math.SQRT1_2;
const Q2: f64 = 0.64;

function second(w: f64, corner: f64, q: f64): f64 {
  const real = corner * corner - w * w;
  const imaginary = (w * corner) / q;
  return Math.sqrt(real * real + imaginary * imaginary);
}

/** |W_h| at a frequency in rad/s: limits of the band times the acceleration–velocity step. */
export function handWeightAt(w: f64, low: f64, high: f64): f64 {
  const band = (w * w * high * high) / (second(w, low, Q1) * second(w, high, Q1));
  return band * ((Math.sqrt(w * w + KNEE * KNEE) * KNEE) / second(w, KNEE, Q2));
}

/** What the power at each frequency counts for; `low` and `high` are the corners of the band, rad/s. */
export function handWeights(weights: Numbers, size: i32, step: f64, low: f64, high: f64): void {
  const half: i32 = size / 2;
  for (let i = 1; i <= half; i++) {
    const weight = handWeightAt(TURN * (i / (size * step)), low, high);
    const twice: f64 = i === half ? 1 : 2;
    weights[i] = twice * (weight * weight);
  }
}
