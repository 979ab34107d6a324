/** `earshot words "..."`: what a phrase could mean; `--list [TERM]`: the glossary. */
import { json } from '../../form/text.ts';
import { command, flag, format, maybeArgs, type Given } from '../takes.ts';
import { glossaryText } from '../../report/rules/glossary-text.ts';
import type { Style } from '../../report/style.ts';
import { wordsJson, wordsText, WORDS_FORMAT } from '../../report/rules/words-text.ts';
import { didYouMean } from '../../form/suggest.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../host/io.ts';
import { loadRules } from '../../workspace/rules/load-rules.ts';

const args = { said: maybeArgs('the words, or with --list a term of the glossary') };
const options = {
  list: flag('explain the words of the trade'),
  format: format('text', 'json'),
};
export type WordsOptions = Given<typeof args & typeof options> & {
  readonly rules: readonly string[];
  readonly style: Style;
};

export const wordsCommand = command({
  about: "what a rider's words could mean; or the glossary",
  args,
  options,
  examples: [
    ['earshot words "it packs down through the roots"', 'what that could mean'],
    ['earshot words --list sag', 'one word of the trade'],
  ],
  run: async (given, { io, rules, style }) => words({ ...given, rules, style: await style() }, io),
});

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
        ? json({ format: WORDS_FORMAT, glossary: terms })
        : glossaryText(rules.glossary, said, options.style),
    );
    return EXIT.done;
  }
  const [{ buildHearing }, { unheard }, { keptWords }] = await Promise.all([
    import('../../words/hearing.ts'),
    import('../../words/unheard.ts'),
    import('../../workspace/rules/kept-words.ts'),
  ]);
  const heard = buildHearing(rules, await keptWords(io, rules))(said);
  await io.out(
    options.format === 'json'
      ? wordsJson(said, heard)
      : wordsText(heard, unheard(said, heard, rules), rules, options.style),
  );
  return EXIT.done;
}
