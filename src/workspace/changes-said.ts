/** What the free text of a case tells of changes, asked about or tried; read only where it may, for reading it takes longer than a case. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { CompiledWords } from '../words/compiled-words.ts';
import type { TriedReader, TriedReading, Wished } from '../words/tried/tried.ts';

export interface ChangesSaid {
  /** what is only asked about */
  wishes(text: string): Promise<readonly Wished[]>;
  /** what was done */
  tried(text: string): Promise<readonly TriedReading[]>;
}

/** @param words of these very rules, cut */
export function changesSaid(rules: CompiledRules, words: () => Promise<CompiledWords>): ChangesSaid {
  let reading: Promise<TriedReader> | undefined;
  const reader = (): Promise<TriedReader> =>
    (reading ??= import('../words/tried/tried.ts').then(async ({ buildTriedReader }) =>
      buildTriedReader(rules, await words()),
    ));
  return {
    async wishes(text) {
      const { asksOfDoing } = await import('../words/tried/wished.ts');
      return asksOfDoing(text, rules.onlyThought) ? (await reader()).wishes(text) : [];
    },
    tried: async (text) => (await reader()).read(text),
  };
}
