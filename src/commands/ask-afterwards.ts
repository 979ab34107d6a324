/** After the verdict: set it and start the trial, end, go on, take a slip back, or read the rest. */
import type { Prompter } from '../console/prompter.ts';
import type { Event } from '../interview/session.ts';

export type Afterwards =
  Event | { readonly type: 'end' } | { readonly type: 'more' } | { readonly type: 'trial' };

export async function askAfterwards(
  prompter: Prompter,
  possible: {
    /** the first change is one that can be tried on a bike that is known */
    readonly trial: boolean;
    readonly keepAsking: boolean;
    readonly back: boolean;
  },
): Promise<Afterwards> {
  const { value } = await prompter.ask({
    head: '',
    message: 'What now?',
    choices: [
      ...(possible.trial ? [{ value: 'trial', name: 'set it and start the trial' }] : []),
      { value: 'end', name: 'done for now' },
      ...(possible.keepAsking ? [{ value: 'keep-asking', name: 'a few more questions' }] : []),
    ],
    actions: [
      { key: 'm', value: 'more', name: 'more' },
      ...(possible.back ? [{ key: 'b', value: 'back', name: 'back to the last question' }] : []),
    ],
  });
  return { type: value } as Afterwards;
}
