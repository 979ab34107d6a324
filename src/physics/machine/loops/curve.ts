/** A curve of cubic pieces, as `table.ts` makes it: the value at x; beyond the ends along the last slope. */
import type { f64, i32, Numbers } from './numbers.ts';
import { whole } from './numbers.ts';

export function readNodes(nodes: Numbers, first: f64, perUnit: f64, pieces: f64, x: f64): f64 {
  const at = (x - first) * perUnit;
  if (at <= 0) return nodes[0]! + nodes[1]! * at;
  if (at >= pieces) {
    const last = 2 * whole(pieces);
    return nodes[last]! + nodes[last + 1]! * (at - pieces);
  }
  const i: i32 = whole(at);
  const t = at - i;
  const j: i32 = 2 * i;
  const f = nodes[j]!;
  const s = nodes[j + 1]!;
  const s1 = nodes[j + 3]!;
  const rise = nodes[j + 2]! - f;
  return f + t * (s + t * (3 * rise - 2 * s - s1 + t * (s + s1 - 2 * rise)));
}
