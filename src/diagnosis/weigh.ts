/**
 * Multiplies the factors of all answered groups into the weights of all sets.
 *
 * A group's factor is, for most sets, a product over the single causes they hold: it is more than that only where two
 * of the group's own causes meet. So every factor is split into one number a cause, which all go in along the walk from
 * each set to its extensions, and a correction for the sets where causes meet. The result is exact. A group so wide that
 * its causes meet nearly everywhere is looked up set by set instead, and so is one with a factor of zero.
 */
import type { Model } from './model.ts';

export interface GroupFactor {
  readonly group: number;
  /** likelihood of the group's answers for each of its classes */
  readonly factor: Float64Array;
  /** the factor over the product of its single causes, for each class; filled in when first needed */
  correction?: Float64Array;
}

/** A group that would need a correction in more than this share of all sets is looked up instead. */
const WIDE = 0.4;

/**
 * @param out becomes prior × Π factors, up to a common scale
 * @returns the natural logarithm of that scale
 */
export function weigh(
  model: Model,
  prior: Float64Array,
  factors: readonly GroupFactor[],
  out: Float64Array,
): number {
  const { space, groups, scratch } = model;
  const { size } = space;
  const each = new Float64Array(space.causes).fill(1);
  const narrow: GroupFactor[] = [];
  const wide: GroupFactor[] = [];
  let shift = 0;
  for (const f of factors) {
    const group = groups[f.group]!;
    const none = f.factor[0]!;
    const { own, singles } = group;
    const zero = none === 0 || singles.some((c) => f.factor[c] === 0);
    if (zero || group.crossed().sets.length > WIDE * size) {
      wide.push(f);
      continue;
    }
    shift += Math.log(none);
    for (let i = 0; i < own.length; i++) each[own[i]!]! *= f.factor[singles[i]!]! / none;
    narrow.push(f);
  }
  walk(space, prior, each, scratch, out);
  for (const f of narrow) {
    const { sets, classes } = groups[f.group]!.crossed();
    const correction = (f.correction ??= correctionOf(model, f));
    for (let i = 0; i < sets.length; i++) out[sets[i]!]! *= correction[classes[i]!]!;
  }
  for (let i = 0; i < wide.length; i += 2) {
    const a = wide[i]!;
    const b = wide[i + 1];
    if (b === undefined) lookUp(out, groups[a.group]!.classOf(), a.factor);
    else lookUpTwo(out, groups[a.group]!.classOf(), a.factor, groups[b.group]!.classOf(), b.factor);
  }
  return shift;
}

/** factor(class) / Π factor of its single causes, each taken against the factor of none. */
function correctionOf(model: Model, { group, factor }: GroupFactor): Float64Array {
  const { space } = model;
  const { classes, own, singles } = model.groups[group]!;
  const none = factor[0]!;
  const single = new Float64Array(space.causes);
  for (let i = 0; i < own.length; i++) single[own[i]!] = factor[singles[i]!]! / none;
  return Float64Array.from(classes, (set, c) => {
    let product = none;
    for (let h = set; h > 0; h = space.parent[h]!) product *= single[space.last[h]!]!;
    return factor[c]! / product;
  });
}

/** out[h] = prior[h] × Π each[cause of h], from each set to its extensions. */
function walk(
  space: Model['space'],
  prior: Float64Array,
  each: Float64Array,
  scratch: Float64Array,
  out: Float64Array,
): void {
  const { parent, last, runs, runEnd, inner } = space;
  for (let i = 0; i < inner.length; i++) {
    const h = inner[i]!;
    const product = h === 0 ? 1 : scratch[parent[h]!]! * each[last[h]!]!;
    scratch[h] = product;
    out[h] = prior[h]! * product;
  }
  for (let r = 0; r < runs.length; r++) {
    const top = runs[r]!;
    const end = runEnd[r]!;
    const product = top === 0 ? 1 : scratch[parent[top]!]! * each[last[top]!]!;
    out[top] = prior[top]! * product;
    for (let h = top + 1; h < end; h++) out[h] = prior[h]! * product * each[last[h]!]!;
  }
}

function lookUp(out: Float64Array, classOf: Uint16Array, factor: Float64Array): void {
  for (let h = 0; h < out.length; h++) out[h]! *= factor[classOf[h]!]!;
}

/** Two groups a pass: the weights are read and written once for both. */
function lookUpTwo(
  out: Float64Array,
  classA: Uint16Array,
  a: Float64Array,
  classB: Uint16Array,
  b: Float64Array,
): void {
  for (let h = 0; h < out.length; h++) out[h]! *= a[classA[h]!]! * b[classB[h]!]!;
}
