/** Where in a statement a way of saying a phrase stands, and which of several overlapping finds are kept. */
import type { Phrase } from '../rulebase/compiled.ts';
import { GROUND } from './language.ts';
import type { PhraseIndex, Saying } from './phrase-index.ts';
import { NOT, type Token } from './tokens.ts';

/** One find: the tokens used, in the order of the statement. */
export interface Find {
  readonly saying: Saying;
  readonly places: readonly number[];
  /** 0..1: 1 when every word is there as written and close together */
  readonly score: number;
}

/** Every place where all words of the saying stand close together, whatever their order. */
export function alignments(index: PhraseIndex, saying: Saying, tokens: readonly Token[]): Find[] {
  const { slots } = saying;
  const fits = slots.map((slot) => tokens.map((token) => index.fits(token, slot)));
  const reach = 2 * slots.length + 3;
  // The rarest word is the anchor: fewest places to try.
  const anchor = fits.reduce((best, row, s) => (count(row) < count(fits[best]!) ? s : best), 0);
  const finds: Find[] = [];
  fits[anchor]!.forEach((quality, at) => {
    if (quality === 0 || (slots.length === 1 && saying.phrase.ambiguous && meansGround(tokens, at))) return;
    const places = place(fits, anchor, at, slots.length === 1 ? 0 : reach);
    if (places === undefined) return;
    const sorted = [...places].sort((a, b) => a - b);
    const span = sorted.at(-1)! - sorted[0]! + 1;
    if (span > reach || speaksOfTheOther(tokens, sorted)) return;
    const mean = places.reduce((sum, p, s) => sum + fits[s]![p]!, 0) / slots.length;
    const spread = 1 - 0.02 * (span - slots.length);
    finds.push({ saying, places: sorted, score: Math.round(1000 * mean * spread) / 1000 });
  });
  return finds;
}

const count = (row: readonly number[]): number => row.filter((q) => q > 0).length;

/** For every slot the best free place near the anchor; undefined when one has none. */
function place(fits: readonly number[][], anchor: number, at: number, reach: number): number[] | undefined {
  const used = new Set([at]);
  const places: number[] = [];
  for (const [s, row] of fits.entries()) {
    if (s === anchor) {
      places.push(at);
      continue;
    }
    let best = -1;
    for (let i = Math.max(0, at - reach); i <= Math.min(row.length - 1, at + reach); i++) {
      if (row[i]! <= 0 || used.has(i)) continue;
      const better =
        best === -1 ||
        row[i]! > row[best]! ||
        (row[i] === row[best] && Math.abs(i - at) < Math.abs(best - at));
      if (better) best = i;
    }
    if (best === -1) return undefined;
    used.add(best);
    places.push(best);
  }
  return places;
}

/** `On fast corners` says nothing about the suspension. */
const meansGround = (tokens: readonly Token[], at: number): boolean => GROUND.has(tokens[at + 1]?.stem ?? '');

/** `The front dives and the rear is high` does not say that the front is high. */
function speaksOfTheOther(tokens: readonly Token[], places: readonly number[]): boolean {
  const named = places.map((p) => tokens[p]!.end).find((end) => end !== undefined);
  if (named === undefined) return false;
  return tokens
    .slice(places[0], places.at(-1)! + 1)
    .some(({ end }, i) => end !== undefined && end !== named && !places.includes(places[0]! + i));
}

const isEnd = (stem: string): boolean => stem === 'front' || stem === 'rear';

/**
 * Keeps the finds that say most: one with more words first, and after it only those that add a word of their own,
 * not just an end or a `not`, and an answer of their own. So `kicks on a lone root` silences the bare `kicks` in it,
 * and `skips on braking bumps` silences the ambiguous `braking bumps`, but nothing that stands beside them.
 */
export function keepBest(finds: readonly Find[], tokens: readonly Token[]): Find[] {
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
  const owners = new Map<number, Find[]>();
  const kept = new Set<Find>();
  for (const { find } of ranked) {
    const words = own(find);
    if (words.every((p) => owners.has(p))) continue;
    const rivals = new Set(words.flatMap((p) => owners.get(p) ?? []));
    if ([...rivals].some((rival) => addsNothing(find.saying.phrase, rival.saying.phrase))) continue;
    for (const rival of rivals) if (addsNothing(rival.saying.phrase, find.saying.phrase)) kept.delete(rival);
    for (const p of words) owners.set(p, [...(owners.get(p) ?? []), find]);
    kept.add(find);
  }
  return [...kept].sort((a, b) => a.places[0]! - b.places[0]! || a.places.at(-1)! - b.places.at(-1)!);
}

/** Beside a phrase that shares a word with it and says more: one that decides nothing, or nothing else. */
function addsNothing(less: Phrase, more: Phrase): boolean {
  if (less.ambiguous) return true;
  const known = new Set(more.couldBe.map((c) => `${c.question}=${c.answer}`));
  return less.couldBe.every((c) => known.has(`${c.question}=${c.answer}`));
}
