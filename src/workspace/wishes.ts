/** What the free text of a case asks about doing; read only where it asks at all, for reading it takes longer than a case. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { CompiledWords } from '../words/compiled-words.ts';
import type { TriedReader, Wished } from '../words/tried/tried.ts';

/** @param words of these very rules, cut */
export function wishReader(
  rules: CompiledRules,
  words: () => Promise<CompiledWords>,
): (text: string) => Promise<readonly Wished[]> {
  let reading: Promise<TriedReader> | undefined;
  return async (text) => {
    const { asksOfDoing } = await import('../words/tried/wished.ts');
    if (!asksOfDoing(text, rules.onlyThought)) return [];
    reading ??= import('../words/tried/tried.ts').then(async ({ buildTriedReader }) =>
      buildTriedReader(rules, await words()),
    );
    return (await reading).wishes(text);
  };
}
