/** "did you mean": the candidate that a typing slip turns into the word, if one is close enough. */

/** Rows of the table, used again and again: a file of mistakes asks thousands of times. */
let [before, last, row] = [new Uint16Array(256), new Uint16Array(256), new Uint16Array(256)];

/**
 * Damerau–Levenshtein distance, restricted form (adjacent swaps count one).
 * @param most once it must be more than this, something larger is good enough an answer
 */
export function editDistance(a: string, b: string, most = Number.POSITIVE_INFINITY): number {
  const width = b.length + 1;
  if (width > row.length)
    [before, last, row] = [0, 0, 0].map(() => new Uint16Array(2 * width)) as [
      typeof before,
      typeof before,
      typeof before,
    ];
  for (let j = 0; j < width; j++) last[j] = j;
  let least = 0;
  for (let i = 1; i <= a.length; i++) {
    const letter = a.charCodeAt(i - 1);
    const leastBefore = least;
    row[0] = least = i;
    for (let j = 1; j < width; j++) {
      const other = b.charCodeAt(j - 1);
      let best = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (letter === other ? 0 : 1));
      if (i > 1 && j > 1 && letter === b.charCodeAt(j - 2) && a.charCodeAt(i - 2) === other)
        best = Math.min(best, before[j - 2]! + 1);
      row[j] = best;
      if (best < least) least = best;
    }
    // Every way from here goes through one of the last two rows, and none gets shorter.
    if (least > most && leastBefore > most) return most + 1;
    [before, last, row] = [last, row, before];
  }
  return last[b.length]!;
}

/** The nearest candidate within a third of the word's length (at least 2 slips), first in order on a tie. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  // A word longer than any id is a paste, not a slip; the table would only cost time.
  if (word.length > 120) return undefined;
  const most = Math.max(2, Math.floor(word.length / 3));
  let best: string | undefined;
  let bestDistance = most + 1;
  const small = word.toLowerCase();
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= bestDistance) continue;
    const distance = editDistance(small, candidate.toLowerCase(), bestDistance - 1);
    if (distance < bestDistance) {
      bestDistance = distance;
      best = candidate;
    }
  }
  return best;
}

/** ` Did you mean x?` or nothing. */
export function didYouMean(word: string, candidates: Iterable<string>): string {
  const found = nearest(word, candidates);
  return found === undefined ? '' : `Did you mean ${found}?`;
}
