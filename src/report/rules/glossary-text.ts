/** The glossary: whole, one word of it, or the words that stand on a screen. */
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { didYouMean } from '../../form/suggest.ts';
import { fit, page, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

type Glossary = CompiledRules['glossary'];

/** @param word empty for the whole list */
export function glossaryText(glossary: Glossary, word: string, style: Style): string {
  const wanted = word.toLowerCase();
  const found = glossary.filter((g) => g.term.toLowerCase().includes(wanted));
  if (found.length > 0) return termsText(found, style);
  const hint = didYouMean(
    wanted,
    glossary.map((g) => g.term),
  );
  const text = paragraph(`${word} is not in the glossary. ${hint}`.trimEnd(), style.width);
  return `${fit(text, style)}\n`;
}

export function termsText(terms: Glossary, style: Style): string {
  const lines = terms.map(
    ({ term, means, see }) =>
      `${style.strong(term)}\n${paragraph(`${means}${see === undefined ? '' : ` See: ${see.join(', ')}.`}`, style.width, '  ')}`,
  );
  return page(lines, style);
}

/** Only the names, in one paragraph. */
export function termNames(glossary: Glossary, style: Style): string {
  const text = paragraph(glossary.map((g) => g.term).join(', '), style.width, '  ');
  return `${fit(text, style)}\n`;
}

/** The terms that stand in these texts as whole words, longer terms before the shorter ones inside them. */
export function termsIn(glossary: Glossary, texts: readonly string[]): Glossary {
  let rest = texts.join(' \n ').toLowerCase();
  const byLength = [...glossary].sort((a, b) => b.term.length - a.term.length);
  const found = new Set<string>();
  for (const { term, notIn = [] } of byLength) {
    const meant = notIn.reduce((text, phrase) => text.replaceAll(phrase.toLowerCase(), ' '), rest);
    const literal = term.toLowerCase().replace(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
    const there = new RegExp(String.raw`(?<![\p{L}\p{N}-])${literal}(?:e?s)?(?![\p{L}\p{N}-])`, 'gu');
    if (!there.test(meant)) continue;
    found.add(term);
    rest = rest.replace(there, ' ');
  }
  return glossary.filter((g) => found.has(g.term));
}
