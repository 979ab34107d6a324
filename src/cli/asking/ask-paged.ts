/** A long list at the prompt, a page at a time, so that every number is one key. */
import type { Asked, Choice, Chosen, Prompter } from '../../console/prompter.ts';

/** Choices whose number is one digit. */
const MOST = 9;

export async function askPaged(prompter: Prompter, asked: Asked): Promise<Chosen> {
  const { choices } = asked;
  if (choices.length <= MOST) return await prompter.ask(asked);
  const size = MOST - 1;
  const pages = Math.ceil(choices.length / size);
  for (let page = 0; ; page = (page + 1) % pages) {
    const more: Choice = {
      value: 'next-page',
      name: page + 1 < pages ? 'more choices' : 'back to the top',
    };
    const shown = [...choices.slice(page * size, (page + 1) * size), more];
    const chosen = await prompter.ask({ ...asked, choices: shown, again: asked.again === true || page > 0 });
    if (chosen.value !== more.value) return chosen;
  }
}
