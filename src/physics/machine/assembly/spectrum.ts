/** The weighted power of a record, as `vibration.ts` works it out. */
import { cosine, sine } from './engine';

const TURN: f64 = 6.283185307179586;

/** Cosines and sines of half a circle in n/2 steps. */
export function circle(cos: usize, sin: usize, n: i32): void {
  for (let i = 0; i < n / 2; i++) {
    const angle = (TURN * <f64>i) / <f64>n;
    store<f64>(cos + ((<usize>i) << 3), cosine(angle));
    store<f64>(sin + ((<usize>i) << 3), sine(angle));
  }
}

function swap(values: usize, i: i32, j: i32): void {
  const at = values + ((<usize>i) << 3);
  const to = values + ((<usize>j) << 3);
  const kept = load<f64>(at);
  store<f64>(at, load<f64>(to));
  store<f64>(to, kept);
}

export function transform(re: usize, im: usize, n: i32, cos: usize, sin: usize): void {
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; (j & bit) != 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      swap(re, i, j);
      swap(im, i, j);
    }
  }
  for (let length = 2; length <= n; length *= 2) {
    const half = length / 2;
    const stride = n / length;
    for (let start = 0; start < n; start += length) {
      for (let k = 0; k < half; k++) {
        const turn = (<usize>(k * stride)) << 3;
        const c = load<f64>(cos + turn);
        const s = load<f64>(sin + turn);
        const i = (<usize>(start + k)) << 3;
        const j = i + ((<usize>half) << 3);
        const rj = load<f64>(re + j);
        const ij = load<f64>(im + j);
        const x = rj * c + ij * s;
        const y = ij * c - rj * s;
        store<f64>(re + j, load<f64>(re + i) - x);
        store<f64>(im + j, load<f64>(im + i) - y);
        store<f64>(re + i, load<f64>(re + i) + x);
        store<f64>(im + i, load<f64>(im + i) + y);
      }
    }
  }
}

/** @param count how many weights there are, the first, of nought hertz, left out */
export function weightedPower(weights: usize, re: usize, im: usize, count: i32): f64 {
  let sum: f64 = 0;
  for (let i = 1; i < count; i++) {
    const at = (<usize>i) << 3;
    const r = load<f64>(re + at);
    const m = load<f64>(im + at);
    sum += load<f64>(weights + at) * (r * r + m * m);
  }
  return sum;
}

const KNEE: f64 = 100; // rad/s
const Q1: f64 = Math.SQRT1_2;
const Q2: f64 = 0.64;

function second(w: f64, corner: f64, q: f64): f64 {
  const real = corner * corner - w * w;
  const imaginary = (w * corner) / q;
  return Math.sqrt(real * real + imaginary * imaginary);
}

/** What the power at each frequency counts for; `low` and `high` are the corners of the band, rad/s. */
export function handWeights(weights: usize, size: i32, step: f64, low: f64, high: f64): void {
  const half = size / 2;
  for (let i = 1; i <= half; i++) {
    const w = TURN * (<f64>i / (<f64>size * step));
    const band = (w * w * high * high) / (second(w, low, Q1) * second(w, high, Q1));
    const weight = band * ((Math.sqrt(w * w + KNEE * KNEE) * KNEE) / second(w, KNEE, Q2));
    store<f64>(weights + ((<usize>i) << 3), (i == half ? 1 : 2) * (weight * weight));
  }
}
