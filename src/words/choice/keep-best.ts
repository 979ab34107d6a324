/** Which of several overlapping finds are kept. */
import type { Phrase } from '../../rulebase/compiled-phrases.ts';
import type { Find } from '../align.ts';
import { END_ANSWERS } from '../ends.ts';
import { NOT, type Token } from '../tokens.ts';

const isEnd = (stem: string): boolean => stem === 'front' || stem === 'rear';

/**
 * Keeps the finds that say most: one with more words first, and after it only those that are not part of one that is
 * kept, an end or a `not` aside, and have an answer of their own. Words that mean opposite things are silenced only by more,
 * or by as many with the same questions to ask. So `kicks on a lone root` silences the bare `kicks` in it,
 * and `skips on braking bumps` silences the ambiguous `braking bumps`, but nothing that stands beside them. Of a
 * danger they silence only what says the same.
 */
export function keepBest(
  finds: readonly Find[],
  tokens: readonly Token[],
  isDanger: (find: Find) => boolean,
): Find[] {
  const own = (find: Find): number[] =>
    find.places.filter((p) => !isEnd(tokens[p]!.stem) && tokens[p]!.stem !== NOT);
  const ranked = finds
    .map((find, order) => ({ find, order }))
    .sort(
      (a, b) =>
        own(b.find).length - own(a.find).length ||
        b.find.places.length - a.find.places.length ||
        Number(a.find.saying.phrase.ambiguous) - Number(b.find.saying.phrase.ambiguous) ||
        b.find.score - a.find.score ||
        a.order - b.order,
    );
  const kept = new Map<Find, ReadonlySet<number>>();
  for (const { find } of ranked) {
    const words = new Set(own(find));
    if (words.size === 0) {
      if (find.saying.phrase.weak !== undefined) kept.set(find, words);
      continue;
    }
    const rivals = [...kept].filter(([, theirs]) => [...words].some((p) => theirs.has(p)));
    if (
      !tellsEnd(find.saying.phrase) &&
      !isDanger(find) &&
      rivals.some(
        ([rival, theirs]) =>
          !tellsEnd(rival.saying.phrase) &&
          theirs.size > words.size &&
          [...words].every((p) => theirs.has(p)),
      )
    )
      continue;
    const silenced = (less: Find, lessWords: number, more: Find, moreWords: number): boolean =>
      less.saying.phrase.ambiguous
        ? moreWords > lessWords ||
          (moreWords === lessWords && asksNoMore(less.saying.phrase, more.saying.phrase))
        : addsNothing(less.saying.phrase, more.saying.phrase);
    if (rivals.some(([rival, theirs]) => silenced(find, words.size, rival, theirs.size))) continue;
    for (const [rival, theirs] of rivals)
      if (silenced(rival, theirs.size, find, words.size)) kept.delete(rival);
    kept.set(find, words);
  }
  return [...kept.keys()].sort((a, b) => a.places[0]! - b.places[0]! || a.places.at(-1)! - b.places.at(-1)!);
}

/** All that it says is which end: that is no other reading of the words, whatever they mean. */
export const tellsEnd = (phrase: Phrase): boolean =>
  !phrase.ambiguous && phrase.couldBe.every((c) => END_ANSWERS.has(c.answer));

/** Of two that mean opposite things: one that no question tells apart which does not tell apart the other too. */
function asksNoMore(less: Phrase, more: Phrase): boolean {
  return more.ambiguous && less.separates.every((id) => more.separates.includes(id));
}

/** Beside a phrase that shares a word with it: one that says nothing else. */
function addsNothing(less: Phrase, more: Phrase): boolean {
  const known = new Set(more.couldBe.map((c) => `${c.question}=${c.answer}`));
  return less.couldBe.every((c) => known.has(`${c.question}=${c.answer}`));
}
