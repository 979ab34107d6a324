/** Vibration at the hands, weighted as ISO 5349-1 weighs it (W_h). */
import { machine, type Machine } from '../machine/machine.ts';

/**
 * Parameters of W_h as in ISO 8041 (an instrument manual's copy of its table): exact band-centre corners, Q1 = 1/√2,
 * Q2 = 0.64. ISO 5349-1 itself prints rounded ones, which miss its own table at 6.3 Hz.
 */
const LOW = 2 * Math.PI * 10 ** 0.8; // rad/s
const HIGH = 2 * Math.PI * 10 ** 3.1;
const Q1 = Math.SQRT1_2;
const KNEE = 100; // rad/s: 2π · 15.915 Hz
const Q2 = 0.64;

/** |W_h| at a frequency in Hz: band limits times the acceleration–velocity step. */
export function handWeight(frequency: number): number {
  const w = 2 * Math.PI * frequency;
  const band = (w * w * HIGH * HIGH) / (second(w, LOW, Q1) * second(w, HIGH, Q1));
  const step = (Math.sqrt(w * w + KNEE * KNEE) * KNEE) / second(w, KNEE, Q2);
  return band * step;
}

function second(w: number, corner: number, q: number): number {
  const real = corner * corner - w * w;
  const imaginary = (w * corner) / q;
  return Math.sqrt(real * real + imaginary * imaginary);
}

/**
 * Root mean square in m/s² of an acceleration weighted by W_h, over the whole record: Parseval's sum of its spectrum
 * with the weight squared.
 * @param step seconds between values
 */
export function weightedVibration(acceleration: Float64Array, step: number): number {
  const n = acceleration.length;
  let size = 1;
  while (size < n) size *= 2;
  const by = machine();
  const power =
    by === undefined ? powerOf(acceleration, size, step) : powerAtOnce(by, acceleration, size, step);
  return Math.sqrt(power / size / n);
}

/** @param size values with noughts after the record's own: a power of two */
function powerOf(acceleration: Float64Array, size: number, step: number): number {
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  re.set(acceleration);
  transform(re, im);
  return weightedPower(weightsOf(size, step), re, im);
}

/** The same in machine code, which works out the circle and the weights anew rather than keep them. */
function powerAtOnce(
  { place, at, code }: Machine,
  acceleration: Float64Array,
  size: number,
  step: number,
): number {
  const half = size / 2;
  const [re, im, cos, sin, weights] = place([], size, size, half, half, half + 1) as [
    number,
    number,
    number,
    number,
    number,
  ];
  at(re, size).fill(0).set(acceleration);
  at(im, size).fill(0);
  code.circle(cos, sin, size);
  code.transform(re, im, size, cos, sin);
  code.handWeights(weights, size, step, LOW, HIGH);
  return code.weightedPower(weights, re, im, half + 1);
}

/** A loop by itself, so that no more is compiled where it is found worth it. */
function weightedPower(weights: Float64Array, re: Float64Array, im: Float64Array): number {
  let sum = 0;
  for (let i = 1; i < weights.length; i++) sum += weights[i]! * (re[i]! * re[i]! + im[i]! * im[i]!);
  return sum;
}

const known = new Map<string, Float64Array>();

/** What the power at each frequency counts for; bikes are run at few steps and lengths. */
function weightsOf(size: number, step: number): Float64Array {
  const key = `${size}/${step}`;
  let weights = known.get(key);
  if (weights === undefined) {
    weights = new Float64Array(size / 2 + 1);
    for (let i = 1; i <= size / 2; i++)
      weights[i] = (i === size / 2 ? 1 : 2) * squared(handWeight(i / (size * step)));
    known.set(key, weights);
  }
  return weights;
}

/** Discrete Fourier transform in place, radix 2 (Cooley & Tukey, Math. Comp. 19, 1965, 297-301); unscaled. */
export function transform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; (j & bit) !== 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      swap(re, i, j);
      swap(im, i, j);
    }
  }
  const { cos, sin } = circle(n);
  for (let length = 2; length <= n; length *= 2) {
    const half = length / 2;
    const stride = n / length;
    for (let start = 0; start < n; start += length) {
      for (let k = 0; k < half; k++) {
        const c = cos[k * stride]!;
        const s = sin[k * stride]!;
        const i = start + k;
        const j = i + half;
        const x = re[j]! * c + im[j]! * s;
        const y = im[j]! * c - re[j]! * s;
        re[j] = re[i]! - x;
        im[j] = im[i]! - y;
        re[i]! += x;
        im[i]! += y;
      }
    }
  }
}

const squared = (x: number): number => x * x;

const circles = new Map<number, { readonly cos: Float64Array; readonly sin: Float64Array }>();

function circle(n: number): { readonly cos: Float64Array; readonly sin: Float64Array } {
  let made = circles.get(n);
  if (made === undefined) {
    const angles = Float64Array.from({ length: n / 2 }, (_, i) => (2 * Math.PI * i) / n);
    made = { cos: angles.map(Math.cos), sin: angles.map(Math.sin) };
    circles.set(n, made);
  }
  return made;
}

function swap(values: Float64Array, i: number, j: number): void {
  const kept = values[i]!;
  values[i] = values[j]!;
  values[j] = kept;
}
