/** Where a spring comes to rest under a load: a rising force, halved in on. */
import { readNodes } from './curve.ts';
import { restPush, stopPush } from './elastic.ts';
import type { f64, i32, Numbers } from './numbers.ts';
import { ratioOf, shaftOf } from './ratio.ts';

/** m; what is left of the span that the rest lies in */
const NEAR: f64 = 1e-12;
const MOST: i32 = 60;

/** Wheel travel in m at which a curve over it, as `table.ts` makes it, reaches a load in N. */
export function depthUnder(nodes: Numbers, first: f64, perUnit: f64, pieces: f64, load: f64): f64 {
  let low = first;
  let high = first + pieces / perUnit;
  for (let i: i32 = 0; i < MOST && high - low > NEAR; i++) {
    const middle = (low + high) / 2;
    if (readNodes(nodes, first, perUnit, pieces, middle) < load) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The same between two wheel travels, the gas at its temperature again; linkage, stops and spring as `elasticTable` takes them. */
export function restUnder(
  from: f64,
  to: f64,
  linkage: Numbers,
  stops: Numbers,
  spring: Numbers,
  load: f64,
): f64 {
  const c0 = linkage[0]!;
  const c1 = linkage[1]!;
  const c2 = linkage[2]!;
  let low = from;
  let high = to;
  for (let i: i32 = 0; i < MOST && high - low > NEAR; i++) {
    const middle = (low + high) / 2;
    const shaft = shaftOf(c0, c1, c2, middle);
    const force = restPush(spring, shaft) + stopPush(stops, shaft);
    if (force / ratioOf(c0, c1, c2, middle) < load) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
