/** Gauss–Legendre rules on [0, 1]: n nodes integrate any polynomial of degree 2n − 1 exactly. */

export interface Rule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

const rules = new Map<number, Rule>();

/** Nodes by Newton's method on the Legendre polynomial; Press et al., Numerical Recipes, "gauleg", from memory. */
export function gaussLegendre(n: number): Rule {
  const known = rules.get(n);
  if (known !== undefined) return known;
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 100; step++) {
      let p0 = 1;
      let p1 = x;
      for (let k = 2; k <= n; k++) [p0, p1] = [p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k];
      slope = (n * (x * p1 - p0)) / (x * x - 1);
      const change = p1 / slope;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    nodes[i] = (1 - x) / 2;
    weights[i] = 1 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  rules.set(n, rule);
  return rule;
}
