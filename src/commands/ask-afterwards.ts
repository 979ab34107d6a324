/** After the report: end, go on, or take a slip back. */
import type { Prompter } from '../console/prompter.ts';
import type { Event } from '../interview/session.ts';

/** @returns undefined to end */
export async function askAfterwards(
  prompter: Prompter,
  possible: { readonly keepAsking: boolean; readonly back: boolean },
): Promise<Event | undefined> {
  const { value } = await prompter.ask({
    head: '',
    message: 'And now?',
    choices: [
      { value: 'end', name: 'end here' },
      ...(possible.keepAsking
        ? [{ value: 'keep-asking', name: 'keep asking: a few questions still tell a little' }]
        : []),
    ],
    actions: possible.back ? [{ key: 'b', value: 'back', name: 'back: the last answer was a slip' }] : [],
  });
  return value === 'back' || value === 'keep-asking' ? { type: value } : undefined;
}
