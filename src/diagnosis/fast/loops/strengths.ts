/** The loops of one strength tried at other values: what hangs on it in each class, and what that does to every cause. */
import type { Counts, f64, i32, Numbers } from '../../../physics/machine/loops/numbers.ts';

/** What some sets add to the weight of each cause they hold, each as much as its class's share of its weight; returns of all. */
export function addShares(
  causes: Numbers,
  parents: Counts,
  lasts: Counts,
  weights: Numbers,
  share: Numbers,
  classOf: Counts,
  sets: Counts,
  from: i32,
  to: i32,
): f64 {
  let total: f64 = 0;
  for (let i = from; i < to; i++) {
    const set = sets[i]!;
    const more = share[classOf[set]!]! * weights[set]!;
    total += more;
    for (let at = set; at > 0; at = parents[at]!) {
      const cause = lasts[at]!;
      causes[cause] = causes[cause]! + more;
    }
  }
  return total;
}

/** [class × signs] chance of missing each sign, from that of no cause: a class comes after the class without its last cause. */
export function missEach(
  miss: Numbers,
  factor: Numbers,
  ups: Counts,
  lasts: Counts,
  size: i32,
  m: i32,
): void {
  for (let c: i32 = 1; c < size; c++) {
    const to = c * m;
    const from = ups[c]! * m;
    const by = lasts[c]! * m;
    for (let a: i32 = 0; a < m; a++) miss[to + a] = miss[from + a]! * factor[by + a]!;
  }
}

/**
 * [sign × class] what hangs on missing each sign, see `fast/hanging.ts`.
 * @param rest the answer where several signs are noticed; -1: the one that is said of them is drawn
 */
export function hangByCount(
  out: Numbers,
  miss: Numbers,
  only: Numbers,
  size: i32,
  m: i32,
  answer: i32,
  none: i32,
  rest: i32,
): void {
  for (let c: i32 = 0; c < size; c++) {
    const from = c * m;
    let nothing: f64 = 1;
    let all: f64 = 0;
    for (let a: i32 = 0; a < m; a++) nothing *= miss[from + a]!;
    // What is said of several signs hangs on each of them, any other answer on its own sign.
    for (let a: i32 = 0; a < m; a++) {
      if (a !== answer && answer !== rest) continue;
      let p: f64 = 1 - miss[from + a]!;
      for (let b: i32 = 0; b < m; b++) if (b !== a) p *= miss[from + b]!;
      only[a] = p;
      all += p;
    }
    for (let sign: i32 = 0; sign < m; sign++) {
      const own = answer === none ? nothing : sign === answer ? -nothing : only[answer]!;
      out[sign * size + c] = answer === rest ? own - (all - only[sign]!) : own;
    }
  }
}

/** The same of an answer that any of the signs noticed may be. */
export function hangAmongSeveral(
  out: Numbers,
  miss: Numbers,
  nodes: Numbers,
  weights: Numbers,
  count: i32,
  size: i32,
  m: i32,
  answer: i32,
): void {
  for (let c: i32 = 0; c < size; c++) {
    const from = c * m;
    const noticed: f64 = 1 - miss[from + answer]!;
    for (let g: i32 = 0; g < count; g++) {
      const t = nodes[g]!;
      let product = weights[g]!;
      for (let a: i32 = 0; a < m; a++)
        if (a !== answer) product *= miss[from + a]! + (1 - miss[from + a]!) * t;
      for (let a: i32 = 0; a < m; a++) {
        const x = miss[from + a]!;
        const at = a * size + c;
        out[at] =
          out[at]! + (a === answer ? -x * product : (noticed * product * x * (1 - t)) / (x + (1 - x) * t));
      }
    }
  }
}
