/** Words of two things that were said: "it kicks me off the jumps and it bangs on landings" tells of no kick on landings. */
import type { Find } from '../align.ts';
import type { Token } from '../tokens.ts';

/** Behind an `and` these begin another thing. */
const BEGINS = new Set(['it', "it's", 'then']);
/** So many words of one of the two say something by themselves. */
const BY_ITSELF = 2;

/**
 * Whether a find takes words from both sides of such an `and`, one of which is said otherwise by itself. "I checked the headset
 * and it has play" is one thing told in two.
 */
export function mixesTwo(find: Find, all: readonly Find[], tokens: readonly Token[]): boolean {
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
