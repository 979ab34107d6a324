/** One statement, with every word and concept of the rules that stands in it. */
import { withoutEnd } from '../rulebase/compiled.ts';
import type { Phrase } from '../rulebase/compiled-phrases.ts';
import { madeOfEach, slotsIn, type CompiledWords, type Meaning } from './compiled-words.ts';
import { GOES_ON } from './language.ts';
import { NUMBER } from './slots.ts';
import { NOT, type Statement, type Token } from './tokens.ts';
import { KIN, type Vocabulary } from './vocabulary.ts';

/** Where a word or concept stands; no places: it was said elsewhere in the sentence. */
export interface Hit {
  readonly places: readonly number[];
  /** 0..1 */
  readonly quality: number;
}

export interface Scene {
  readonly tokens: readonly Token[];
  /** stem or `<concept>` → where it stands */
  readonly hits: ReadonlyMap<string, readonly Hit[]>;
}

/** One way of saying a concept. */
interface Way {
  readonly key: string;
  readonly slots: readonly ReadonlySet<string>[];
}

export interface Lexicon {
  /** every word and concept of one statement by itself */
  read(statement: Statement, vocabulary: Vocabulary): Scene;
  /**
   * @param scene of a statement that says no place itself
   * @param from a scene of the same sentence
   * @returns the scene with the places said there
   */
  withPlaces(scene: Scene, from: Scene | undefined): Scene;
}

/** Words of a concept may stand this far apart: "comes [slowly] back". */
const GAP = 2;

export function buildLexicon({
  concepts,
  meanings,
  begins,
}: Pick<CompiledWords, 'concepts' | 'meanings' | 'begins'>): Lexicon {
  const wayOf = madeOfEach(concepts, (cut, of): Way => ({
    key: `<${meanings[of]!.id}>`,
    slots: slotsIn(cut),
  }));
  const where = new Set(meanings.filter((c) => c.where).map((c) => `<${c.id}>`));
  const masks = new Set(meanings.filter((c) => c.masks).map((c) => `<${c.id}>`));
  const saysPlace = ({ hits }: Scene): boolean => [...hits.keys()].some((key) => where.has(key));
  return {
    read(statement, vocabulary) {
      const { tokens } = statement;
      const meant = tokens.map((t) => vocabulary.meant(t));
      const hits = new Map<string, Hit[]>();
      const add = (key: string, hit: Hit): void => {
        const list = hits.get(key);
        if (list === undefined) hits.set(key, [hit]);
        else list.push(hit);
      };
      meant.forEach((stems, place) => {
        for (const [stem, quality] of stems) add(stem, { places: [place], quality });
        if (/^\d+(\.\d+)?$/.test(tokens[place]!.word)) add(NUMBER, { places: [place], quality: 1 });
      });
      meant.forEach((stems, at) => {
        for (const [stem, quality] of stems) {
          for (const id of begins(stem)) {
            const { key, slots } = wayOf(id);
            // A way of one word means that word: "dives" is no "squatted".
            if (slots.length === 1 && quality === KIN) continue;
            const hit = follow(slots, tokens, meant, at, quality);
            if (hit !== undefined) add(key, hit);
          }
        }
      });
      const hidden = new Set([...masks].flatMap((key) => (hits.get(key) ?? []).flatMap((h) => h.places)));
      if (hidden.size > 0) {
        for (const key of where) {
          const left = (hits.get(key) ?? []).filter((h) => !h.places.some((p) => hidden.has(p)));
          if (left.length > 0) hits.set(key, left);
          else hits.delete(key);
        }
      }
      return { tokens, hits };
    },
    withPlaces(scene, from) {
      if (from === undefined || saysPlace(scene)) return scene;
      const said = [...where].filter((key) => from.hits.has(key));
      if (said.length === 0) return scene;
      return {
        ...scene,
        hits: new Map([...scene.hits, ...said.map((key) => [key, [SAID_ELSEWHERE]] as const)]),
      };
    },
  };
}

const SAID_ELSEWHERE: Hit = { places: [], quality: 0.9 };

/** The words of a concept in their order, from the place of the first. */
function follow(
  slots: readonly ReadonlySet<string>[],
  tokens: readonly Token[],
  meant: readonly ReadonlyMap<string, number>[],
  first: number,
  quality: number,
): Hit | undefined {
  const places = [first];
  let sum = quality;
  for (let i = 1; i < slots.length; i++) {
    const slot = slots[i]!;
    let gap = 0;
    let found = false;
    for (let at = places.at(-1)! + 1; at < tokens.length && gap <= GAP; at++) {
      const fit = best(slot, meant[at]!);
      if (fit > 0) {
        places.push(at);
        sum += fit;
        found = true;
        break;
      }
      // A denial in between is no word to step over: "comes not back". Nor is what a denial takes: "doesn't stop diving".
      if (tokens[at]!.stem === NOT) return undefined;
      if (tokens[places.at(-1)!]!.stem === NOT && GOES_ON.has(tokens[at]!.word)) return undefined;
      if (!tokens[at]!.filler) gap++;
    }
    if (!found) return undefined;
  }
  return { places, quality: sum / slots.length };
}

function best(slot: ReadonlySet<string>, meant: ReadonlyMap<string, number>): number {
  let quality = 0;
  // Not taken apart by a pattern: thousands of words are looked at, and each would be an iterator's.
  meant.forEach((q, stem) => {
    if (q > quality && slot.has(stem)) quality = q;
  });
  return quality;
}

/** What a statement speaks of beside the suspension: a brake lever that is slow to come back tells no rebound. */
type Said = Phrase['couldBe'][number];

/**
 * @returns for a statement and those before it that it goes on from, whether an answer may be meant by its words: "the brake
 * lever is long, pump it and it is hard"
 */
export function subjects(
  concepts: readonly Meaning[],
): (scenes: readonly Scene[]) => (said: Said) => boolean {
  const others = concepts.filter((c) => c.notAbout.length > 0).map((c) => [`<${c.id}>`, c.notAbout] as const);
  return (scenes) => {
    const out = new Set(
      others.flatMap(([key, topics]) => (scenes.some(({ hits }) => hits.has(key)) ? topics : [])),
    );
    return ({ question }) => !out.has(withoutEnd(question));
  };
}

/** The phrase as it may be meant there; undefined where nothing is left of it. */
export function meantBy(phrase: Phrase, may: (said: Said) => boolean): Phrase | undefined {
  const couldBe = phrase.couldBe.filter(may);
  if (couldBe.length === phrase.couldBe.length) return phrase;
  return couldBe.length === 0 ? undefined : { ...phrase, couldBe };
}
