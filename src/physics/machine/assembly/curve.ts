/** A curve of cubic pieces, as `readNodes` of `table.ts` reads it. */
export function readNodes(nodes: usize, first: f64, perUnit: f64, pieces: f64, x: f64): f64 {
  const at = (x - first) * perUnit;
  if (at <= 0) return load<f64>(nodes) + load<f64>(nodes, 8) * at;
  if (at >= pieces) {
    const last = nodes + ((<usize>pieces) << 4);
    return load<f64>(last) + load<f64>(last, 8) * (at - pieces);
  }
  const i = <i32>at;
  const t = at - <f64>i;
  const j = nodes + ((<usize>i) << 4);
  const f = load<f64>(j);
  const s = load<f64>(j, 8);
  const s1 = load<f64>(j, 24);
  const rise = load<f64>(j, 16) - f;
  return f + t * (s + t * (3 * rise - 2 * s - s1 + t * (s + s1 - 2 * rise)));
}
