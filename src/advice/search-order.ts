/**
 * The order in which to try several things when one of them is the answer: falling chance per minute. It makes the
 * expected time to the fix least (Kadane & Simon 1977; Heckerman, Breese & Rommelse, CACM 38(3) 1995, expected cost of
 * repair). Ties keep their order.
 * @param chance that each is the answer
 * @param cost of trying each, > 0
 * @returns positions, best first
 */
export function searchOrder(chance: readonly number[], cost: readonly number[]): number[] {
  // Rounded, so that what is equal but for the last bits of a sum keeps its order.
  const keys = chance.map((p, i) => Math.round((p / cost[i]!) * 1e10));
  return [...keys.keys()].sort((a, b) => keys[b]! - keys[a]! || a - b);
}
