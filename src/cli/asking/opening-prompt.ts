/** "What bothers you most?": in own words at once, from the short list, or straight to the questions. */
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Prompter } from '../../console/prompter.ts';
import type { Event } from '../../interview/session.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { askPaged } from './ask-paged.ts';
import type { Workspace } from '../../workspace/workspace.ts';

/** Openings before the way past them, so that it stands on the first page. */
const ON_FIRST_PAGE = 7;

/** @param sheet of the bike, where there is one: what was tried on it is named as it is named there */
export async function askOpening(
  workspace: Workspace,
  prompter: Prompter,
  audience: Audience,
  sheet?: BikeSheet,
): Promise<Event[]> {
  const { openings } = workspace.rules;
  if (openings.length === 0) return [];
  const message = audience === 'rider' ? 'What bothers you most?' : 'What bothers the rider most?';
  const listed = openings.map((o) => ({
    value: `open:${o.id}`,
    name: audience === 'rider' ? o.plain : o.say,
  }));
  const { value, text } = await askPaged(prompter, {
    head: `Type ${audience === 'rider' ? 'it in your own' : "the rider's"} words, or pick a number. Saved as you go; Ctrl-C leaves.`,
    message,
    choices: listed.toSpliced(ON_FIRST_PAGE, 0, { value: 'skip', name: 'none of these: just ask' }),
    actions: [],
    listens: true,
  });
  if (text !== undefined) {
    const { hearOwnWords } = await import('./own-words-prompt.ts');
    return await hearOwnWords(workspace, prompter, audience, text, sheet);
  }
  const opening = openings.find((o) => value === `open:${o.id}`);
  if (opening === undefined) return [{ type: 'open', topics: [] }];
  const answers = Object.entries(opening.answers).map(([question, answer]) => ({
    question,
    answer,
    sure: 'sure' as const,
  }));
  return [
    { type: 'open', topics: opening.topics },
    ...(answers.length === 0 ? [] : [{ type: 'confirm' as const, answers }]),
  ];
}
