/** A choice picked by typing its words. Pure. */

/** What turns a word into its opposite: it is never left out of account. */
const DENIES: ReadonlySet<string> = new Set([
  'no',
  'not',
  'none',
  'never',
  'neither',
  'nor',
  'dont',
  'without',
]);

/** Words before the one that a name is known by. */
const LEADS: ReadonlySet<string> = new Set(['the', 'at', 'a', 'an', 'it', 'is', 'in', 'on']);

/** In small letters, doubled ones as one: a keyboard guard takes the second of two equal keys for a held one. */
function wordsOf(text: string): string[] {
  const plain = text.toLowerCase().replaceAll(/['’]/g, '');
  return (plain.match(/[\p{L}\p{N}]+/gu) ?? []).map((word) => word.replaceAll(/(.)\1+/gu, '$1'));
}

/** Whether a letter may be the first of the words that a choice is known by. */
export function mayBegin(letter: string, names: readonly string[]): boolean {
  const first = letter.toLowerCase();
  return names.some((name) => {
    const words = wordsOf(name);
    return (words.find((word) => !LEADS.has(word)) ?? words[0])?.startsWith(first) === true;
  });
}

/** Whether any word of a choice begins with a letter. */
export function isInAny(letter: string, names: readonly string[]): boolean {
  return names.some((name) => wordsOf(name).some((word) => word.startsWith(letter.toLowerCase())));
}

/**
 * The one choice that the words typed so far speak of; undefined where none or several do. The last word may be cut
 * short. Where several have as many of the words, the one that begins with them goes before the others.
 */
export function byWords(typed: string, names: readonly string[]): number | undefined {
  const said = wordsOf(typed);
  const all = names.map(wordsOf);
  const counts = all.map(
    (words) =>
      said.filter((word, i) =>
        words.some((one) => one === word || (i === said.length - 1 && one.startsWith(word))),
      ).length,
  );
  const most = Math.max(0, ...counts);
  if (most === 0) return undefined;
  const best = [...counts.keys()].filter((i) => counts[i] === most);
  const starts = best.filter((i) => said.every((word, at) => bare(all[i]!)[at]?.startsWith(word) === true));
  const whole = starts.filter((i) => bare(all[i]!).join(' ') === said.join(' '));
  const [found] = best.length === 1 ? best : starts.length === 1 ? starts : whole.length === 1 ? whole : [];
  if (found === undefined) return undefined;
  const denied = said.some((word) => DENIES.has(word) && !all[found]!.includes(word));
  return denied ? undefined : found;
}

/** Without the words before the one it is known by. */
function bare(words: readonly string[]): readonly string[] {
  const from = words.findIndex((word) => !LEADS.has(word));
  return from < 0 ? words : words.slice(from);
}
