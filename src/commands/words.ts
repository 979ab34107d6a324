/** `earshot words "..."`: what a phrase could mean; `--list [TERM]`: the glossary. */
import { glossaryText } from '../report/glossary-text.ts';
import type { Style } from '../report/style.ts';
import { wordsJson, wordsText, WORDS_FORMAT } from '../report/words-text.ts';
import { didYouMean } from '../rulebase/suggest.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { loadRules } from './load-rules.ts';

export interface WordsOptions {
  /** what was said, as one text or as the words of the command line */
  readonly said: readonly string[];
  /** show the glossary instead: all of it, or the terms that hold the words given */
  readonly list: boolean;
  readonly rules: readonly string[];
  readonly format: 'text' | 'json';
  readonly style: Style;
}

export async function words(options: WordsOptions, io: Io): Promise<ExitCode> {
  const said = options.said.join(' ').trim();
  if (said === '' && !options.list)
    throw new Refusal('Say something: earshot words "it kicks at the rear", or earshot words --list.');
  const rules = await loadRules(io, options.rules);
  if (options.list) {
    const wanted = said.toLowerCase();
    const terms = rules.glossary.filter((g) => g.term.toLowerCase().includes(wanted));
    if (terms.length === 0) {
      const hint = didYouMean(
        wanted,
        rules.glossary.map((g) => g.term),
      );
      throw new Refusal(`${said} is not in the glossary. ${hint || 'See earshot words --list.'}`);
    }
    await io.out(
      options.format === 'json'
        ? `${JSON.stringify({ format: WORDS_FORMAT, glossary: terms }, null, 2)}\n`
        : glossaryText(rules.glossary, said, options.style),
    );
    return EXIT.done;
  }
  const { buildMatcher } = await import('../words/matcher.ts');
  const readings = buildMatcher(rules).match(said);
  await io.out(
    options.format === 'json' ? wordsJson(said, readings) : wordsText(readings, rules, options.style),
  );
  return EXIT.done;
}
