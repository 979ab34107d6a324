/** "did you mean": the candidate that a typing slip turns into the word, if one is close enough. */

/** Damerau–Levenshtein distance, restricted form (adjacent swaps count one). */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, before[j - 2]! + 1);
      row.push(best);
    }
    before = last;
    last = row;
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
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= bestDistance) continue;
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
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
