/** Weights summed with columns of numbers, several columns a turn: each number of a posterior is read once for all of them. */
import { setsMachine } from './sets-machine.ts';

/** Σ_c weights[c]·column[c] for each column */
export function sums(weights: Float64Array, columns: Float64Array, count: number): number[] {
  const { code, place, read } = setsMachine();
  const [near, all, out] = place([weights, columns], count);
  code.sums(out, near, weights.length, all, count);
  return listed(read(out, count));
}

/** Σ_c weights[places[c]]·column[c] for each column; gathered once for all of them, because the places lie far apart. */
export function sumsAt(
  weights: Float64Array,
  places: Int32Array,
  columns: Float64Array,
  count: number,
): number[] {
  const { code, place, read } = setsMachine();
  const size = places.length;
  const [all, near, out] = place([columns], size, count);
  gather(read(near, size), weights, places);
  code.sums(out, near, size, all, count);
  return listed(read(out, count));
}

function gather(near: Float64Array, weights: Float64Array, places: Int32Array): void {
  for (let c = 0; c < places.length; c++) near[c] = weights[places[c]!]!;
}

/** By place: to go through it by its iterator would cost as much as the sums. */
function listed(numbers: Float64Array): number[] {
  const out: number[] = [];
  for (let i = 0; i < numbers.length; i++) out.push(numbers[i]!);
  return out;
}
