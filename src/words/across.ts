/** What a sentence tells over its commas, one thing after the other: "first lap fine, by the fifth it beats me up". */
import type { Find } from './align.ts';
import { denied } from './denial/negation.ts';
import type { PhraseIndex, Saying } from './phrase-index.ts';
import type { Hit, Scene } from './scene.ts';
import type { Statement, Token } from './tokens.ts';

export interface Told extends Scene {
  readonly finds: readonly Find[];
}

/** More than any statement has. */
const PARTS = 100;

/**
 * @param isDanger what is found where it is told in one sentence and the next too: "felt a pop. It's super bouncy now"
 * @returns for each sentence of the statements its words and the phrases that may stand anywhere in it
 */
export function acrossSentences(
  statements: readonly Statement[],
  scenes: readonly Scene[],
  index: PhraseIndex,
  isDanger: (saying: Saying) => boolean,
): Told[] {
  const sentences = new Map<number, Token[]>();
  for (const [i, { tokens, sentence }] of statements.entries()) {
    const all = sentences.get(sentence) ?? [];
    // A denial ends with its statement.
    all.push(...tokens.map((token) => ({ ...token, part: token.part + PARTS * i })));
    sentences.set(sentence, all);
  }
  const read = (tokens: readonly Token[], sentence: number): Scene =>
    index.lexicon.read({ tokens, sentence, contrast: false, asked: false }, index.vocabulary);
  const toldIn = (scene: Scene, tokens: readonly Token[], counts: (saying: Saying) => boolean): Told => {
    const sayings = index.find(scene).filter((saying) => saying.phrase.across === true && counts(saying));
    return { ...scene, tokens, finds: sayings.flatMap((saying) => inOrder(saying, scene) ?? []) };
  };
  const alone = [...sentences].map(([sentence, tokens]) => {
    // What a sentence without commas says has been read.
    const only = statements.findIndex((s) => s.sentence === sentence && s.tokens.length === tokens.length);
    return toldIn(only >= 0 ? scenes[only]! : read(tokens, sentence), tokens, () => true);
  });
  const inTwo = alone.slice(1).map(({ tokens: second }, i) => {
    const tokens = [...alone[i]!.tokens, ...second];
    return toldIn(read(tokens, i), tokens, isDanger);
  });
  return [...alone, ...inTwo];
}

/** The slots of a saying one after the other; nothing where one of them is denied. */
function inOrder(saying: Saying, { tokens, hits }: Scene): Find | undefined {
  const chosen: Hit[] = [];
  let from = -1;
  for (const slot of saying.slots) {
    const next = [...slot]
      .flatMap((key) => hits.get(key) ?? [])
      .filter(({ places }) => places.length > 0 && places[0]! > from && !denied(tokens, [places])[0]!)
      .sort((a, b) => a.places[0]! - b.places[0]! || b.places.length - a.places.length)[0];
    if (next === undefined) return undefined;
    chosen.push(next);
    from = next.places.at(-1)!;
  }
  const places = chosen.flatMap((hit) => hit.places);
  const score = chosen.reduce((sum, hit) => sum + hit.quality, 0) / chosen.length;
  return { saying, places, score: Math.round(1000 * score) / 1000, elsewhere: false, loose: false };
}

/**
 * "HSR, the blue one, is nearly shut" is one thing told in three pieces.
 * @returns the statements of each sentence as one, up to a word such as `but`; a denial still ends with its own piece
 */
export function wholeSentences(statements: readonly Statement[]): Statement[] {
  const out: Statement[] = [];
  let pieces = 0;
  for (const one of statements) {
    const before = out.at(-1);
    if (before === undefined || before.sentence !== one.sentence || one.contrast) {
      out.push(one);
      pieces = 0;
      continue;
    }
    const shift = PARTS * ++pieces;
    const tokens = [...before.tokens, ...one.tokens.map((t) => ({ ...t, part: t.part + shift }))];
    out[out.length - 1] = { ...before, tokens, asked: before.asked || one.asked };
  }
  return out;
}
