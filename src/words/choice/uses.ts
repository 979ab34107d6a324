/** What the phrases of the rules use a word or a concept for: a word of one question says more than one of many. */
import { thingOf, type CompiledWords } from '../compiled-words.ts';

export interface Use {
  /** ways of saying a phrase that hold it */
  readonly sayings: number;
  /** question without its end → how many of these are about it */
  readonly questions: ReadonlyMap<string, number>;
}

export interface Uses {
  /** questions that any phrase is about */
  readonly questions: number;
  /** @param key a stem or `<concept>` */
  of(key: string): Use;
}

/** Each word is looked up once, when it is first said. */
export function buildUses({ phrases, says, fills }: Pick<CompiledWords, 'phrases' | 'says' | 'fills'>): Uses {
  const known = new Map<string, Use>();
  const count = (key: string): Use => {
    const pairs = fills(key);
    // A saying that holds it twice stands there twice, one after the other.
    const ids = pairs.filter((id, i) => i % 2 === 0 && id !== pairs[i - 2]);
    const questions = new Map<string, number>();
    for (const question of ids.flatMap((id) => phrases.asks(thingOf(says, id))))
      questions.set(question, (questions.get(question) ?? 0) + 1);
    return { sayings: ids.length, questions };
  };
  return {
    questions: phrases.questions,
    of(key) {
      let use = known.get(key);
      if (use === undefined) known.set(key, (use = count(key)));
      return use;
    },
  };
}
