/** What is warned of while a cause is likely, whatever comes first: a bike that may throw its rider does so on every step. */
import type { Belief } from '../diagnosis/belief.ts';
import type { Model } from '../diagnosis/model.ts';

/**
 * Ids of the cautions of what is likely now. The causes of one caution count together: either circuit of a rebound that is too
 * fast throws the rider.
 * @param none chance of something that the rules do not know, 0..1
 */
export function whileLikely(
  { rules, space }: Pick<Model, 'rules' | 'space'>,
  { causes, weights }: Pick<Belief, 'causes' | 'weights'>,
  none: number,
): string[] {
  const least = rules.numbers.advice['warn-likely'];
  const byCaution = new Map<string, number[]>();
  for (const [index, { whileLikely: caution }] of rules.causes.entries())
    if (caution !== undefined) byCaution.set(caution, [...(byCaution.get(caution) ?? []), index]);
  const isLikely = (of: readonly number[]): boolean => {
    const [most, sum] = [Math.max(...of.map((c) => causes[c]!)), of.reduce((all, c) => all + causes[c]!, 0)];
    if ((1 - none) * most >= least) return true;
    // Together they are at most as likely as their sum: mostly no set need be looked at.
    return (1 - none) * sum >= least && (1 - none) * anyOf(space, weights, of) >= least;
  };
  return [...byCaution].filter(([, of]) => isLikely(of)).map(([caution]) => caution);
}

/** Probability that any of these is off. */
function anyOf(
  { size, parent, last }: Model['space'],
  weights: Float64Array,
  causes: readonly number[],
): number {
  const isOne = new Set(causes);
  // A set extends another by its last cause, so whether that one has any is known by then.
  const has = new Uint8Array(size);
  let sum = 0;
  for (let set = 1; set < size; set++) {
    has[set] = isOne.has(last[set]!) || has[parent[set]!] === 1 ? 1 : 0;
    if (has[set] === 1) sum += weights[set]!;
  }
  return sum;
}
