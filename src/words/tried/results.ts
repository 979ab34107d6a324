/** What came of a change: better, the same or worse, of all of the ride or of one thing: "better in roots, worse on jumps". */
import type { Meaning } from '../compiled-words.ts';
import type { Hit, Scene } from '../scene.ts';
import type { Token } from '../tokens.ts';

type Result = NonNullable<Meaning['tells']['result']>;

export interface Came {
  readonly result: Result;
  /** questions, without their end, that it is said of; none: of the ride as a whole */
  readonly of: readonly string[];
  /** tokens from the first to the last of what was said */
  readonly from: number;
  readonly to: number;
  /** the words of the result alone; none where it is told by a sign, which is read as well */
  readonly places: readonly number[];
}

/**
 * @returns for a statement, what is told there in order, one a part of it. Behind a "but" a sign that is named is worse now
 * where it was better before: "but now it kicks off lips".
 */
export function resultTeller(
  concepts: readonly Meaning[],
): (scene: Scene, butAfter: Result | undefined) => Came[] {
  const results = concepts.flatMap(({ id, tells: { result } }) =>
    result === undefined ? [] : [[`<${id}>`, result] as const],
  );
  const topics = concepts.flatMap(({ id, where, tells }) =>
    tells.for === undefined ? [] : [{ key: `<${id}>`, of: tells.for, sign: !where }],
  );
  return ({ tokens, hits }, butAfter) => {
    const told = results.flatMap(([key, result]) =>
      (hits.get(key) ?? []).flatMap((hit) => (hit.places.length === 0 ? [] : [{ result, hit }])),
    );
    const out: Came[] = [];
    for (const part of new Set(tokens.map((t) => t.part))) {
      const here = ({ places }: Hit): boolean =>
        places.length > 0 && places.every((p) => tokens[p]!.part === part);
      const named = topics.filter(({ key }) => hits.get(key)?.some(here));
      const of = [...new Set(named.flatMap((topic) => topic.of))];
      const from = tokens.findIndex((t) => t.part === part);
      const to = tokens.findLastIndex((t) => t.part === part);
      const best = told
        .filter(({ hit }) => here(hit))
        .reduce<(typeof told)[number] | undefined>(longerOrLater, undefined);
      if (best !== undefined) out.push({ result: best.result, of, from, to, places: best.hit.places });
      else if (butAfter === 'better' && of.length > 0 && isNew(tokens.slice(from, to + 1), named))
        out.push({ result: 'worse', of, from, to, places: [] });
    }
    return out;
  };
}

function longerOrLater<T extends { readonly hit: Hit }>(best: T | undefined, one: T): T {
  if (best === undefined || one.hit.places.length > best.hit.places.length) return one;
  const later = one.hit.places.length === best.hit.places.length && one.hit.places[0]! > best.hit.places[0]!;
  return later ? one : best;
}

/** "Now it kicks", "it dives more", or a sign that needs no such word. */
const isNew = (tokens: readonly Token[], named: readonly { readonly sign: boolean }[]): boolean =>
  tokens.some(({ word }) => word === 'now' || word === 'more') || named.some(({ sign }) => sign);
