/** What a statement speaks of beside the suspension: a brake lever that is slow to come back tells no rebound. */
import { withoutEnd, type Concept, type Phrase } from '../rulebase/compiled.ts';
import type { Scene } from './scene.ts';

type Said = Phrase['couldBe'][number];

/**
 * @returns for a statement and those before it that it goes on from, whether an answer may be meant by its words: "the brake
 * lever is long, pump it and it is hard"
 */
export function subjects(
  concepts: readonly Concept[],
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
