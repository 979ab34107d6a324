/**
 * What other strengths of one group's questions do to every cause, from its classes alone: no walk over all sets.
 */
import type { Model } from '../../diagnosis/model.ts';

/** What the sets of each class of a group weigh together, and those of them that hold each cause. */
export interface Masses {
  readonly all: Float64Array;
  /** [class × causes]; undefined where it would be longer than a walk over all sets */
  readonly holding: Float64Array | undefined;
  readonly classOf: Int32Array;
  readonly weights: Float64Array;
}

/** What other strengths add to the weight of all sets, of those that hold each cause, and of the empty one. */
export interface Shift {
  readonly total: number;
  readonly causes: Float64Array;
  readonly nothing: number;
}

export function massesOf({ space, groups }: Model, group: number, weights: Float64Array): Masses {
  const { parent, last, causes, size } = space;
  const classOf = groups[group]!.classOf();
  const all = new Float64Array(groups[group]!.classes.sets.length);
  const holding = all.length * causes > WALK * size ? undefined : new Float64Array(all.length * causes);
  for (let h = 0; h < size; h++) {
    const w = weights[h]!;
    const c = classOf[h]!;
    all[c]! += w;
    if (holding === undefined) continue;
    for (let at = h; at > 0; at = parent[at]!) holding[c * causes + last[at]!]! += w;
  }
  return { all, holding, classOf, weights };
}

/** Lost among weights that add up to 1. */
const TOO_LITTLE = 1e-15;

/** What a walk over all sets costs a set, in steps over a class's causes. */
const WALK = 4;

/** @param ratio how many times each class counts; most count once, as before */
export function classShift({ space }: Model, mass: Masses, ratio: Float64Array): Shift {
  const { all, holding, classOf, weights } = mass;
  const { parent, last, causes: n, size } = space;
  const causes = new Float64Array(n);
  let total = 0;
  if (holding === undefined) {
    for (let h = 0; h < size; h++) {
      const more = (ratio[classOf[h]!]! - 1) * weights[h]!;
      if (more < TOO_LITTLE && more > -TOO_LITTLE) continue;
      total += more;
      for (let at = h; at > 0; at = parent[at]!) causes[last[at]!]! += more;
    }
  } else {
    for (let c = 0; c < all.length; c++) {
      const more = ratio[c]! - 1;
      if (Math.abs(more * all[c]!) < TOO_LITTLE) continue;
      total += more * all[c]!;
      for (let i = 0, at = c * n; i < n; i++) causes[i]! += more * holding[at + i]!;
    }
  }
  return { total, causes, nothing: (ratio[0]! - 1) * weights[0]! };
}
