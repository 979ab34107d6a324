/** The glossary, whole or one word of it. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { didYouMean } from '../rulebase/suggest.ts';
import { toAscii, type Style } from './style.ts';
import { paragraph } from './wrap.ts';

/** @param word empty for the whole list */
export function glossaryText(glossary: CompiledRules['glossary'], word: string, style: Style): string {
  const wanted = word.toLowerCase();
  const found = glossary.filter((g) => g.term.toLowerCase().includes(wanted));
  if (found.length === 0) {
    const hint = didYouMean(
      wanted,
      glossary.map((g) => g.term),
    );
    return `${word} is not in the glossary. ${hint}\n`;
  }
  const lines = found.map(
    ({ term, means, see }) =>
      `${style.strong(term)}\n${paragraph(`${means}${see === undefined ? '' : ` See: ${see.join(', ')}.`}`, style.width, '  ')}`,
  );
  const text = `${lines.join('\n')}\n`;
  return style.unicode ? text : toAscii(text);
}
