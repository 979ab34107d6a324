/** `?` at a prompt: first the words on the screen, then any other word. */
import type { Prompter } from '../../../console/prompter.ts';
import type { Workspace } from '../../../workspace/workspace.ts';
import { paragraph } from '../../../report/wrap.ts';
import { showRead } from '../show-read.ts';

/** More would push the question off the screen. */
const MOST_TERMS = 4;

/**
 * @param texts what stands on the screen
 * @param plain the question in plain words, where it stands there in others
 * @returns to be called at each `?` of this question
 */
export function explainWords(
  workspace: Workspace,
  prompter: Prompter,
  texts: readonly string[],
  plain?: string,
): () => Promise<void> {
  let told = false;
  return async () => {
    const { glossaryText, termNames, termsText, termsIn } =
      await import('../../../report/rules/glossary-text.ts');
    const { glossary } = workspace.rules;
    const here = told ? [] : termsIn(glossary, texts).slice(0, MOST_TERMS);
    const first = told || plain === undefined ? '' : `${paragraph(plain, prompter.style.width - 1, '  ')}\n`;
    told = true;
    if (here.length > 0 || first !== '') {
      const terms = here.length > 0 ? termsText(here, prompter.style) : '';
      await showRead(prompter, `${first}${terms}  Press ? again for any other word.\n`);
      return;
    }
    const word = (await prompter.text('Which word? (Return lists them all)')).trim();
    await showRead(
      prompter,
      word === '' ? termNames(glossary, prompter.style) : glossaryText(glossary, word, prompter.style),
    );
  };
}
