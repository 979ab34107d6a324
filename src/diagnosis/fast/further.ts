/**
 * The posterior after other answers of one group, out of the posterior before them: what a look ahead asks dozens of times.
 * The factors of all other groups are in it already, so it takes one factor, class by class, and a walk over the sets.
 */
import { byGroup, factorOf, type Belief, type Evidence } from '../belief.ts';
import { marginals } from '../hypotheses.ts';
import type { Model } from '../model.ts';

/** Arrays as long as the space, and as the causes, that are written over. */
export interface Further {
  readonly weights: Float64Array;
  readonly causes: Float64Array;
}

/**
 * @param before what was believed with `was`
 * @returns what is believed with `now`; undefined where they differ by more than one group, or this way does not lead there
 */
export function further(
  model: Model,
  before: Belief,
  { was, now }: { readonly was: readonly Evidence[]; readonly now: readonly Evidence[] },
  { weights, causes }: Further,
): Belief | undefined {
  const group = otherGroup(byGroup(model, was), byGroup(model, now));
  if (group === undefined) return undefined;
  const asked = byGroup(model, now).get(group)!;
  const known = byGroup(model, was).get(group);
  const { factor } = factorOf(model, group, asked);
  const times = known === undefined ? factor : overOld(factor, factorOf(model, group, known).factor);
  if (times === undefined) return undefined;
  weights.set(before.weights);
  timesClasses(weights, model.groups[group]!.classOf(), times);
  marginals(model.space, weights, model.scratch, causes);
  const total = model.scratch[0]!;
  if (!(total > 0)) return undefined;
  scale(weights, 1 / total);
  scale(causes, 1 / total);
  return { weights, causes, nothing: weights[0]!, logEvidence: before.logEvidence + Math.log(total) };
}

type Grouped = ReadonlyMap<number, readonly Evidence[]>;

/** The one group of which something else, or more, was answered. */
function otherGroup(was: Grouped, now: Grouped): number | undefined {
  const other = [...now].flatMap(([g, answers]) => (isSame(was.get(g), answers) ? [] : [g]));
  const gone = [...was.keys()].some((g) => !now.has(g));
  return other.length === 1 && !gone ? other[0] : undefined;
}

function isSame(a: readonly Evidence[] | undefined, b: readonly Evidence[]): boolean {
  return (
    a?.length === b.length &&
    a.every((one, i) => {
      const other = b[i]!;
      return (
        one.question === other.question &&
        one.answer === other.answer &&
        one.sure === other.sure &&
        one.share === other.share &&
        one.floor === other.floor
      );
    })
  );
}

/** Undefined where a class was ruled out: nothing brings it back. */
function overOld(factor: Float64Array, old: Float64Array): Float64Array | undefined {
  const out = new Float64Array(factor.length);
  for (let c = 0; c < out.length; c++) {
    if (old[c] === 0) return undefined;
    out[c] = factor[c]! / old[c]!;
  }
  return out;
}

function timesClasses(weights: Float64Array, classOf: Int32Array, times: Float64Array): void {
  for (let h = 0; h < weights.length; h++) weights[h]! *= times[classOf[h]!]!;
}

function scale(values: Float64Array, by: number): void {
  for (let i = 0; i < values.length; i++) values[i]! *= by;
}
