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
  const pair = wide.splice(0, 2).map((f) => ({ classOf: groups[f.group]!.classOf(), factor: f.factor }));
  walk(space, prior, each, scratch, out, pair[0] ?? NO_FACTOR, pair[1] ?? NO_FACTOR);
  for (const f of narrow) {
    const { sets, classes } = groups[f.group]!.crossed();
    const correction = (f.correction ??= correctionOf(model, f));
    for (let i = 0; i < sets.length; i++) out[sets[i]!]! *= correction[classes[i]!]!;
  }
  for (const f of wide) {
    const classOf = groups[f.group]!.classOf();
    for (let h = 0; h < size; h++) out[h]! *= f.factor[classOf[h]!]!;
  }
  return shift;
}

interface WideFactor {
  readonly classOf: Uint16Array;
  readonly factor: Float64Array;
}

/** Stands for "no wide group": an empty table, told apart by its length. */
const NO_FACTOR: WideFactor = { classOf: new Uint16Array(0), factor: new Float64Array(0) };

/**
 * out[h] = prior[h] × Π each[cause of h], from each set to its extensions, times up to two wide groups' factors on the
 * way, because reading and writing the weights once more costs more than the product.
 */
function walk(
  space: Model['space'],
  prior: Float64Array,
  each: Float64Array,
  scratch: Float64Array,
  out: Float64Array,
  a: WideFactor,
  b: WideFactor,
): void {
  const { parent, last, runs, runEnd, inner } = space;
  const two = b.factor.length > 0;
  const one = !two && a.factor.length > 0;
  const extra = (h: number): number =>
    two ? a.factor[a.classOf[h]!]! * b.factor[b.classOf[h]!]! : one ? a.factor[a.classOf[h]!]! : 1;
  for (let i = 0; i < inner.length; i++) {
    const h = inner[i]!;
    const product = h === 0 ? 1 : scratch[parent[h]!]! * each[last[h]!]!;
    scratch[h] = product;
    out[h] = prior[h]! * product * extra(h);
  }
  const { classOf: classA, factor: factorA } = a;
  const { classOf: classB, factor: factorB } = b;
  for (let r = 0; r < runs.length; r++) {
    const top = runs[r]!;
    const end = runEnd[r]!;
    const product = top === 0 ? 1 : scratch[parent[top]!]! * each[last[top]!]!;
    out[top] = prior[top]! * product * extra(top);
    if (two)
      for (let h = top + 1; h < end; h++)
        out[h] = prior[h]! * product * each[last[h]!]! * factorA[classA[h]!]! * factorB[classB[h]!]!;
    else if (one)
      for (let h = top + 1; h < end; h++)
        out[h] = prior[h]! * product * each[last[h]!]! * factorA[classA[h]!]!;
    else for (let h = top + 1; h < end; h++) out[h] = prior[h]! * product * each[last[h]!]!;
  }
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
