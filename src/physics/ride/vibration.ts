/** Vibration at the hands, weighted as ISO 5349-1 weighs it (W_h). */
import { handWeightAt } from '../machine/loops/spectrum.ts';
import { machine } from '../machine/machine.ts';

/**
 * Parameters of W_h as in ISO 8041 (an instrument manual's copy of its table): exact band-centre corners, Q1 = 1/√2,
 * Q2 = 0.64. ISO 5349-1 itself prints rounded ones, which miss its own table at 6.3 Hz.
 */
const LOW = 2 * Math.PI * 10 ** 0.8; // rad/s
const HIGH = 2 * Math.PI * 10 ** 3.1;

/** |W_h| at a frequency in Hz. */
export function handWeight(frequency: number): number {
  return handWeightAt(2 * Math.PI * frequency, LOW, HIGH);
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
  const half = size >> 1;
  const { code, place, read } = machine();
  const [record, re, im, cos, sin, weights] = place([acceleration], size, size, half, half, half + 1);
  // Noughts after the record's own values, up to a power of two.
  read(re, size).fill(0).set(read(record, n));
  read(im, size).fill(0);
  code.circle(cos, sin, size);
  code.transform(re, im, size, cos, sin);
  code.handWeights(weights, size, step, LOW, HIGH);
  return Math.sqrt(code.weightedPower(weights, re, im, half + 1) / size / n);
}
