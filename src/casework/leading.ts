/** The likeliest causes: in which order, and which of them a result lists. */

const MOST_UNLIKELY = 3;
const LEAST_LISTED = 0.01;

/** Whether a result lists a cause: the first few, and whatever else is likely at all. @param rank by falling probability */
export function isListed(probability: number, rank: number): boolean {
  return rank < MOST_UNLIKELY || probability >= LEAST_LISTED;
}

/**
 * The first of the causes by falling probability, rounded so that equal ones keep the order of the rules whatever the last
 * bits say.
 */
export function leading(causes: Float64Array, count = causes.length): number[] {
  const order: number[] = [];
  const keys: number[] = [];
  // Insertion: quicker than a general sort for so few.
  for (let c = 0; c < causes.length; c++) {
    const key = Math.round(causes[c]! * 1e10);
    let at = order.length;
    if (at === count && (at === 0 || keys[at - 1]! >= key)) continue;
    if (at < count) {
      order.push(c);
      keys.push(key);
    } else at--;
    for (; at > 0 && keys[at - 1]! < key; at--) {
      order[at] = order[at - 1]!;
      keys[at] = keys[at - 1]!;
    }
    order[at] = c;
    keys[at] = key;
  }
  return order;
}
