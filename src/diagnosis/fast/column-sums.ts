/** Weights summed with columns of numbers, several columns a turn: each number of a posterior is read once for all of them. */

let gathering = new Float64Array(1024);

/** Σ_c weights[places[c]]·column[c] for each column; without places, weights[c]. */
export function sums(
  weights: Float64Array,
  places: Int32Array | null,
  columns: Float64Array,
  count: number,
): number[] {
  if (places === null) return denseSums(weights, weights.length, columns, count);
  // Gathered once for all columns: the places lie far apart.
  const size = places.length;
  if (gathering.length < size) gathering = new Float64Array(2 * size);
  gather(gathering, weights, places);
  return denseSums(gathering, size, columns, count);
}

function gather(near: Float64Array, weights: Float64Array, places: Int32Array): void {
  let c = 0;
  for (const end = places.length & ~3; c < end; c += 4) {
    near[c] = weights[places[c]!]!;
    near[c + 1] = weights[places[c + 1]!]!;
    near[c + 2] = weights[places[c + 2]!]!;
    near[c + 3] = weights[places[c + 3]!]!;
  }
  for (; c < places.length; c++) near[c] = weights[places[c]!]!;
}

function denseSums(weights: Float64Array, size: number, columns: Float64Array, count: number): number[] {
  const out: number[] = [];
  let k = 0;
  for (; k + 4 <= count; k += 4) fourSums(out, weights, size, columns, k * size);
  if (k + 2 <= count) {
    twoSums(out, weights, size, columns, k * size);
    k += 2;
  }
  if (k < count) oneSum(out, weights, size, columns, k * size);
  return out;
}

/* Loops by themselves, so that no more is compiled where one of them is found worth it. */

function fourSums(
  out: number[],
  weights: Float64Array,
  size: number,
  columns: Float64Array,
  at: number,
): void {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  for (let c = 0; c < size; c++) {
    const w = weights[c]!;
    s0 += w * columns[at + c]!;
    s1 += w * columns[at + size + c]!;
    s2 += w * columns[at + 2 * size + c]!;
    s3 += w * columns[at + 3 * size + c]!;
  }
  out.push(s0, s1, s2, s3);
}

function twoSums(
  out: number[],
  weights: Float64Array,
  size: number,
  columns: Float64Array,
  at: number,
): void {
  let s0 = 0;
  let s1 = 0;
  for (let c = 0; c < size; c++) {
    const w = weights[c]!;
    s0 += w * columns[at + c]!;
    s1 += w * columns[at + size + c]!;
  }
  out.push(s0, s1);
}

function oneSum(out: number[], weights: Float64Array, size: number, columns: Float64Array, at: number): void {
  let sum = 0;
  for (let c = 0; c < size; c++) sum += weights[c]! * columns[at + c]!;
  out.push(sum);
}
