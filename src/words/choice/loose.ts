/** Finds on words that hardly stand together: a guess, or words of two things that were said. */
import type { Find } from '../align.ts';
import { COUNTS_IN_CONCEPT, DEGREES, SENSE } from '../language.ts';
import type { Saying } from '../phrase-index.ts';
import type { Hit } from '../scene.ts';
import { NOT, type Token } from '../tokens.ts';

/** A guess, believed only where other words say the same: two words at most with others between them, or without the small word that joins them. */
export type Looseness = 'apart' | 'unjoined';

/** @param chosen the words and concepts of the saying, where they stand */
export function looseness(
  saying: Saying,
  chosen: readonly Hit[],
  tokens: readonly Token[],
): Looseness | false {
  const places = chosen.flatMap((hit) => hit.places).sort((a, b) => a - b);
  const says = (t: Token): boolean => !t.filler && t.end === undefined;
  if (places.filter((p) => says(tokens[p]!) && tokens[p]!.stem !== NOT).length > MOST_WORDS) return false;
  const [first, last] = [places[0]!, places.at(-1)!];
  // A word inside of a concept, "goes [slowly] down", is none between two.
  const inside = (p: number): boolean =>
    chosen.some((h) => h.places.length > 0 && p >= h.places[0]! && p <= h.places.at(-1)!);
  const between = tokens
    .slice(first, last)
    .filter((t, i) => says(t) && !inside(first + i) && !SAYS_LITTLE.test(t.word));
  if (between.length >= (saying.wide ? 1 : 2)) return 'apart';
  // "Pumps in time" is no "pump it two times".
  const around = new Set(
    tokens.slice(Math.max(0, first - 3), last + 6).map(({ word }) => COUNTS_IN_CONCEPT.get(word)),
  );
  return saying.joins.some((small) => !around.has(small)) && 'unjoined';
}

/** How, how many, when and which way: no thing of its own. */
const SAYS_LITTLE = new RegExp(
  `^(${[...DEGREES, ...SENSE].join('|')}|whenever|once|whole|up|over|out|down|off|away|back|[0-9.]+|[a-z]+ly)$`,
);
const MOST_WORDS = 2;

/** Whether other words say the same: the other find stands on a word that this one does not, so it is no second spelling. */
export const agreedOn = ({ saying, places }: Find, all: readonly Find[]): boolean =>
  all.some(
    (other) =>
      other.places.some((place) => !places.includes(place)) &&
      other.saying.phrase.couldBe.some((c) =>
        saying.phrase.couldBe.some((d) => c.question === d.question && c.answer === d.answer),
      ),
  );

/** Behind an `and` these begin another thing. */
const BEGINS = new Set(['it', "it's", 'then']);
/** So many words of one of the two say something by themselves. */
const BY_ITSELF = 2;

/**
 * Whether a find takes words from both sides of such an `and`, one of which is said otherwise by itself. "I checked the headset
 * and it has play" is one thing told in two.
 * "It kicks me off the jumps and it bangs on landings" tells of no kick on landings. Or behind a "more than": "more in slow
 * corners than fast ones" tells of no fast ones.
 */
export function mixesTwo(find: Find, all: readonly Find[], tokens: readonly Token[]): boolean {
  if (reachesOverThan(find, tokens)) return true;
  return (
    reachesOver(find, tokens) &&
    all.some(
      (other) =>
        !reachesOver(other, tokens) &&
        other.places.filter((p) => !tokens[p]!.filler && tokens[p]!.end === undefined).length >= BY_ITSELF &&
        other.places.some((p) => find.places.includes(p)),
    )
  );
}

function reachesOver({ places }: Find, tokens: readonly Token[]): boolean {
  const [first, last] = [places[0]!, places.at(-1)!];
  for (let i = first + 1; i < last; i++)
    if (tokens[i]!.word === 'and' && !places.includes(i) && BEGINS.has(tokens[i + 1]!.word)) return true;
  return false;
}

function reachesOverThan({ saying: { joins }, places }: Find, tokens: readonly Token[]): boolean {
  if (joins.includes(THAN)) return false;
  const at = tokens.findIndex(({ word }) => word === 'than');
  const next = tokens.findIndex(({ filler }, i) => i > at && !filler);
  const more = tokens.findIndex(({ word }) => RATHER.has(word));
  return more >= 0 && more < at && places.includes(next) && !places.includes(more);
}

const RATHER = new Set(['more', 'rather', 'less']);
const THAN = COUNTS_IN_CONCEPT.get('than')!;
