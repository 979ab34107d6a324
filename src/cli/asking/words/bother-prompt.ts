/** What bothers most, picked from the opening's list: asked of words that did not tell it. */
import { isNoComplaint } from '../../../rulebase/no-complaint.ts';
import { botherQuestion } from '../../../casework/asking/said-already.ts';
import type { Prompter } from '../../../console/prompter.ts';
import type { Audience } from '../../../report/evidence-words.ts';
import type { Workspace } from '../../../workspace/workspace.ts';
import { questionOf } from '../answer-texts.ts';
import { askPaged } from '../ask-paged.ts';
import type { Gathered } from './confirm-reading.ts';

/**
 * Words of which a part was not understood, or of which nothing confirmed is a complaint, may be about anything: what
 * bothers is asked, before the questions go elsewhere.
 *
 * @param allHeard whether every part of the words was understood
 * @returns what is known after it; the same where nothing was asked; `back` where the rider goes back
 */
export async function askBother<G extends Gathered>(
  before: G,
  allHeard: boolean,
  { workspace, prompter, audience }: { workspace: Workspace; prompter: Prompter; audience: Audience },
): Promise<G | 'back'> {
  const { openings } = workspace.rules;
  const id = botherQuestion({ openings });
  const told = before.answers.map(({ question }) => questionOf(workspace, question));
  const complains = told.some((question) => !isNoComplaint(question));
  if (id === undefined || told.some((question) => question.id === id) || (complains && allHeard))
    return before;
  const { value, sure } = await askPaged(prompter, {
    head: 'The nearest of these leads the questions.',
    message: questionOf(workspace, id)[audience === 'rider' ? 'plain' : 'ask'],
    choices: openings.map((o) => ({ value: o.id, name: audience === 'rider' ? o.plain : o.say })),
    actions: [
      { key: 'n', value: 'none', name: 'none of these', answers: true },
      { key: 'b', value: 'back', name: 'back' },
    ],
    sure: 'sure',
    terse: audience === 'mechanic',
  });
  if (value === 'back') return value;
  const picked = openings.find((o) => o.id === value);
  // Not the same as before: it was asked, and is gone back to.
  if (picked === undefined) return { ...before };
  const answers = Object.entries(picked.answers).map(([question, answer]) => ({ question, answer, sure }));
  return {
    ...before,
    topics: [...new Set([...picked.topics, ...before.topics])],
    answers: [...before.answers, ...answers],
  };
}
