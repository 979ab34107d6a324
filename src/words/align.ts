/** Where in a statement a way of saying a phrase stands. */
import type { NumberSaid } from '../rulebase/compiled-phrases.ts';
import { DENIED_OVER, GROUND } from './language.ts';
import { looseness, type Looseness } from './choice/loose.ts';
import type { Saying } from './phrase-index.ts';
import type { Hit, Scene } from './scene.ts';
import { NUMBER } from './slots.ts';
import { NOT, type Token } from './tokens.ts';
import { KIN } from './vocabulary.ts';

/** One find: the tokens used, in the order of the statement. */
export interface Find {
  readonly saying: Saying;
  readonly places: readonly number[];
  /** 0..1: 1 when every word is there as written and close together */
  readonly score: number;
  /** a place of it was said elsewhere in the sentence */
  readonly elsewhere: boolean;
  /** a guess, where nothing else says the same, and why */
  readonly loose: Looseness | false;
}

/** Every place where all words of the saying stand close together, whatever their order. */
export function alignments(saying: Saying, { tokens, hits }: Scene): Find[] {
  const { slots, phrase } = saying;
  if (phrase.across === true) return [];
  const options = slots.map((slot) => hitsOf(slot, hits));
  const near = 2 * slots.length + 3;
  // The rarest word is the anchor: fewest places to try.
  const anchor = options.reduce(
    (best, row, s) => (here(row).length > 0 && rank(row) < rank(options[best]!) ? s : best),
    0,
  );
  const finds: Find[] = [];
  for (const start of here(options[anchor]!)) {
    // A word that stands alone is meant as it is, where it is not asked about.
    if (!phrase.ambiguous && slots.length === 1 && start.quality === KIN && !saying.wide) continue;
    if (slots.length === 1 && phrase.ambiguous && meansGround(tokens, start.places.at(-1)!)) continue;
    const chosen = choose(options, anchor, start, saying.wide ? tokens.length : near);
    if (chosen === undefined) continue;
    const places = chosen.flatMap((h) => h.places).sort((a, b) => a - b);
    const span = places.at(-1)! - places[0]! + 1;
    if (
      span > (saying.wide ? places.length + 3 : near) &&
      (!saying.wide || tokens[places[0]!]!.part !== tokens[places.at(-1)!]!.part)
    )
      continue;
    if (tooFarApart(saying, chosen, places, tokens)) continue;
    if (speaksOfTheOther(tokens, places) || !deniesItsOwn(slots, chosen, tokens)) continue;
    if (phrase.unless?.some((id) => saidBeside(hits.get(`<${id}>`), places))) continue;
    if (phrase.number !== undefined && !holds(phrase.number, slots, chosen, tokens)) continue;
    const mean = chosen.reduce((sum, h) => sum + h.quality, 0) / slots.length;
    const spread = Math.max(0.4, 1 - 0.02 * (span - places.length));
    finds.push({
      saying,
      places,
      score: Math.round(1000 * mean * spread) / 1000,
      elsewhere: chosen.some((h) => h.places.length === 0),
      loose: looseness(saying, chosen, tokens),
    });
  }
  return finds;
}

/**
 * Words with much said between them are words of two things. So are two that stand the other way round than in the rules
 * with anything between them: "the bars jump up at me after" is no "after it jumps".
 */
function tooFarApart(
  { slots, wide }: Saying,
  chosen: readonly Hit[],
  places: readonly number[],
  tokens: readonly Token[],
): boolean {
  const used = new Set(places);
  const between = tokens
    .slice(places[0], places.at(-1))
    .filter(({ filler }, i) => !filler && !used.has(places[0]! + i)).length;
  if (wide) return between > MOST_BETWEEN_CONCEPTS;
  const turned = slots.length === 2 && chosen[1]!.places[0]! < chosen[0]!.places[0]!;
  return between > (turned ? 0 : Math.max(slots.length - 1, MOST_BETWEEN));
}

/** Words that carry meaning and may stand between those of a saying; a concept is said in more words. */
const MOST_BETWEEN = 2;
const MOST_BETWEEN_CONCEPTS = 3;

/**
 * A `not` of the saying stands before the word that it stands before there, and near it: with a word of another meaning
 * between them it is that word which is denied, "doesn't explain the hiss".
 */
function deniesItsOwn(
  slots: readonly ReadonlySet<string>[],
  chosen: readonly Hit[],
  tokens: readonly Token[],
): boolean {
  return slots.every((slot, s) => {
    const next = chosen[s + 1]?.places[0];
    if (!slot.has(NOT) || next === undefined) return true;
    const from = chosen[s]!.places[0]!;
    if (next <= from || next - from > DENIES_WITHIN) return false;
    return tokens
      .slice(from + 1, next)
      .every((t) => t.filler || t.end !== undefined || t.stem === NOT || DENIED_OVER.has(t.word));
  });
}

const DENIES_WITHIN = 5;

const saidBeside = (found: readonly Hit[] | undefined, places: readonly number[]): boolean =>
  found?.some((hit) => hit.places.some((p) => !places.includes(p))) ?? false;

const here = (row: readonly Hit[]): Hit[] => row.filter((h) => h.places.length > 0);
/** A slot that was only said before cannot be an anchor. */
const rank = (row: readonly Hit[]): number => here(row).length || Infinity;

function hitsOf(slot: ReadonlySet<string>, hits: Scene['hits']): Hit[] {
  const out: Hit[] = [];
  for (const key of slot) {
    const found = hits.get(key);
    if (found !== undefined) out.push(...found);
  }
  return out;
}

/** For every slot the best free hit near the anchor; undefined when one has none. */
function choose(
  options: readonly (readonly Hit[])[],
  anchor: number,
  start: Hit,
  reach: number,
): Hit[] | undefined {
  const used = new Set(start.places);
  const chosen: Hit[] = [];
  for (const [s, row] of options.entries()) {
    if (s === anchor) {
      chosen.push(start);
      continue;
    }
    let best: Hit | undefined;
    for (const hit of row) {
      if (hit.places.some((p) => used.has(p)) || away(hit, start) > reach) continue;
      if (
        best === undefined ||
        hit.quality > best.quality ||
        (hit.quality === best.quality && away(hit, start) < away(best, start))
      )
        best = hit;
    }
    if (best === undefined) return undefined;
    for (const p of best.places) used.add(p);
    chosen.push(best);
  }
  return chosen;
}

const away = (hit: Hit, from: Hit): number =>
  hit.places.length === 0 ? 0 : Math.min(...hit.places.map((p) => Math.abs(p - from.places[0]!)));

/** The figures said lie where the phrase wants them. */
function holds(
  { of = false, from = -Infinity, to = Infinity }: NumberSaid,
  slots: readonly ReadonlySet<string>[],
  chosen: readonly Hit[],
  tokens: readonly Token[],
): boolean {
  const said = chosen
    .filter((_, s) => slots[s]!.has(NUMBER))
    .flatMap((h) => h.places)
    .sort((a, b) => a - b)
    .map((p) => Number(tokens[p]!.word));
  const value = of ? (100 * (said[0] ?? NaN)) / (said[1] ?? NaN) : said[0];
  return value !== undefined && value >= from && value <= to;
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
