/**
 * The loops over all sets, as `fast/weigh.ts`, `hypotheses.ts` and `fast/further.ts` write them. All lists of a space stand
 * in the memory for good; `begin` says where.
 */

/** How many numbers of a stretch lie end to end, as in `fast/weigh.ts`. */
const STRETCH: i32 = 8;

let size: i32 = 0;
let n: i32 = 0;
let innerCount: i32 = 0;
let topCount: i32 = 0;
let stretchCount: i32 = 0;
let work: usize = 0;
let each: usize = 0;
let both: usize = 0;
let rows: usize = 0;
let product: usize = 0;
let sum: usize = 0;
let base: usize = 0;
let sums: usize = 0;
let factor: usize = 0;
let passed: usize = 0;
let places: usize = 0;
let parent: usize = 0;
let last: usize = 0;
let inner: usize = 0;
let innerOf: usize = 0;
let tops: usize = 0;
let topLast: usize = 0;
let topsFrom: usize = 0;
let stretches: usize = 0;

export function begin(counts: usize, numbers: usize): void {
  size = load<i32>(counts);
  n = load<i32>(counts, 4);
  innerCount = load<i32>(counts, 8);
  topCount = load<i32>(counts, 12);
  stretchCount = load<i32>(counts, 16);
  work = load<u32>(numbers);
  each = load<u32>(numbers, 4);
  both = load<u32>(numbers, 8);
  rows = load<u32>(numbers, 12);
  product = load<u32>(numbers, 16);
  sum = load<u32>(numbers, 20);
  base = load<u32>(numbers, 24);
  sums = load<u32>(numbers, 28);
  factor = load<u32>(numbers, 32);
  passed = load<u32>(numbers, 36);
  places = load<u32>(numbers, 40);
  parent = load<u32>(numbers, 44);
  last = load<u32>(numbers, 48);
  inner = load<u32>(numbers, 52);
  innerOf = load<u32>(numbers, 56);
  tops = load<u32>(numbers, 60);
  topLast = load<u32>(numbers, 64);
  topsFrom = load<u32>(numbers, 68);
  stretches = load<u32>(numbers, 72);
}

function f(list: usize, i: i32): f64 {
  return load<f64>(list + ((<usize>i) << 3));
}

function put(list: usize, i: i32, value: f64): void {
  store<f64>(list + ((<usize>i) << 3), value);
}

function g(list: usize, i: i32): i32 {
  return load<i32>(list + ((<usize>i) << 2));
}

function short(list: usize, i: i32): i32 {
  return <i32>load<i16>(list + ((<usize>i) << 1));
}

/** work[h] *= factor[places[h]] */
export function timesFactor(): void {
  const end = work + ((<usize>size) << 3);
  let place = places;
  for (let at = work; at < end; at += 8, place += 4)
    store<f64>(at, load<f64>(at) * f(factor, load<i32>(place)));
}

/** work[places[i]] *= factor[i] */
export function timesRest(count: i32): void {
  for (let i = 0; i < count; i++) {
    const h = g(places, i);
    put(work, h, f(work, h) * f(factor, i));
  }
}

export function scale(by: f64): void {
  const end = work + ((<usize>size) << 3);
  for (let at = work; at < end; at += 8) store<f64>(at, load<f64>(at) * by);
}

/** The walk of `fast/weigh.ts`; the sums are left in `sums` and `sum`. */
export function walk(): void {
  memory.fill(sums, 0, (<usize>(n + 1)) << 3);
  memory.fill(sum, 0, (<usize>max(1, innerCount)) << 3);
  put(product, 0, 1);
  memory.copy(rows, each, (<usize>n) << 3);
  for (let i = 0; i < innerCount; i++) {
    const h = g(inner, i);
    if (h > 0) {
      const up = g(innerOf, g(parent, h));
      const c = short(last, h);
      put(product, i, f(product, up) * f(rows, up * n + c));
      const to = i * n;
      const from = up * n;
      const pair = c * n;
      for (let k = c + 1; k < n; k++) put(rows, to + k, f(rows, from + k) * f(both, pair + k));
    }
    const w = f(work, h) * f(product, i);
    put(work, h, w);
    put(sum, i, w);
  }
  if (innerCount == 0) {
    put(base, 0, 1);
    put(sum, 0, f(work, 0));
  }
  for (let i = 0; i < innerCount; i++) {
    const above = f(product, i);
    const row = i * n;
    let total = f(sum, i);
    for (let t = g(topsFrom, i), end = g(topsFrom, i + 1); t < end; t++) {
      const h = g(tops, t);
      const c = short(topLast, t);
      const b = above * f(rows, row + c);
      put(base, t, b);
      const w = f(work, h) * b;
      put(work, h, w);
      put(sums, c, f(sums, c) + w);
      total += w;
    }
    put(sum, i, total);
  }
  walkFull();
  for (let i = innerCount - 1; i > 0; i--) {
    const h = g(inner, i);
    const c = short(last, h);
    const w = f(sum, i);
    put(sums, c, f(sums, c) + w);
    const up = g(innerOf, g(parent, h));
    put(sum, up, f(sum, up) + w);
  }
}

function walkFull(): void {
  for (let s = 0; s < stretchCount; s++) {
    const at = stretches + ((<usize>(s * STRETCH)) << 2);
    const b = f(base, load<i32>(at));
    const from = load<i32>(at, 4);
    const end = load<i32>(at, 8);
    const k = load<i32>(at, 12);
    let single = rows + ((<usize>(load<i32>(at, 16) + from)) << 3);
    let pair = both + ((<usize>(load<i32>(at, 20) + from)) << 3);
    let held = sums + ((<usize>(k + from)) << 3);
    let weight = work + ((<usize>from) << 3);
    const stop = work + ((<usize>end) << 3);
    let total: f64 = 0;
    for (; weight < stop; weight += 8, single += 8, pair += 8, held += 8) {
      const w = load<f64>(weight) * b * load<f64>(single) * load<f64>(pair);
      store<f64>(weight, w);
      store<f64>(held, load<f64>(held) + w);
      total += w;
    }
    const c = load<i32>(at, 24);
    put(sums, c, f(sums, c) + total);
    const up = load<i32>(at, 28);
    put(sum, up, f(sum, up) + total);
  }
}

/** `marginals` of `hypotheses.ts`, of `work` into `sums`; returns the weight of all sets. */
export function marginals(): f64 {
  memory.fill(sums, 0, (<usize>n) << 3);
  pick(inner, innerCount);
  pick(tops, topCount);
  for (let s = 0; s < stretchCount; s++) {
    const at = stretches + ((<usize>(s * STRETCH)) << 2);
    const from = load<i32>(at, 4);
    let held = sums + ((<usize>(load<i32>(at, 12) + from)) << 3);
    let weight = work + ((<usize>from) << 3);
    const stop = work + ((<usize>load<i32>(at, 8)) << 3);
    let total: f64 = 0;
    for (; weight < stop; weight += 8, held += 8) {
      const w = load<f64>(weight);
      store<f64>(held, load<f64>(held) + w);
      total += w;
    }
    const top = g(tops, load<i32>(at));
    put(passed, top, f(passed, top) + total);
  }
  passOn(tops, topCount);
  passOn(inner, innerCount);
  return f(passed, 0);
}

function pick(sets: usize, count: i32): void {
  for (let i = 0; i < count; i++) {
    const h = g(sets, i);
    put(passed, h, f(work, h));
  }
}

function passOn(sets: usize, count: i32): void {
  for (let i = count - 1; i >= 0; i--) {
    const h = g(sets, i);
    if (h == 0) break;
    const c = short(last, h);
    const w = f(passed, h);
    put(sums, c, f(sums, c) + w);
    const up = g(parent, h);
    put(passed, up, f(passed, up) + w);
  }
}
