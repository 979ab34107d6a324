/** How the step went that was advised, from whoever set it and rode, without the runs of a trial. */
import type { Outcome } from '../../../casework/case.ts';
import type { Choice, Prompter } from '../../../console/prompter.ts';

export interface Went {
  readonly outcome: Outcome;
  /** it is better, and what bothered is not gone */
  readonly left: boolean;
}

const CHOICES: readonly (Choice & { readonly went: Went })[] = [
  { value: 'gone', name: 'better, and what bothered is gone', went: { outcome: 'better', left: false } },
  { value: 'left', name: 'better, but not gone', went: { outcome: 'better', left: true } },
  { value: 'same', name: 'no difference', went: { outcome: 'same', left: false } },
  { value: 'worse', name: 'worse', went: { outcome: 'worse', left: false } },
];

/**
 * @param step what was advised, in words
 * @returns undefined to go back
 */
export async function askWent(prompter: Prompter, step: string): Promise<Went | undefined> {
  const { value } = await prompter.ask({
    head: `Ridden: ${step}`,
    message: 'How did it go?',
    help: 'What is better stays on the bike; what is not goes back to where it was.',
    choices: CHOICES.map(({ value: id, name }) => ({ value: id, name })),
    actions: [{ key: 'b', value: 'back', name: 'back' }],
    // Return alone says nothing of a ride.
    deliberate: true,
  });
  return CHOICES.find((choice) => choice.value === value)?.went;
}

/**
 * Asked of who comes back to an interview that advised a step, before what was left open there.
 * @param step what was advised, in words
 * @param open how many questions were left open
 * @returns whether it was ridden
 */
export async function askCameBack(prompter: Prompter, step: string, open: number): Promise<boolean> {
  const { value } = await prompter.ask({
    head: `Advised: ${step}`,
    message: 'Did you ride it?',
    choices: [
      { value: 'ridden', name: 'I rode it: say how it went' },
      {
        value: 'open',
        name: `not yet: ${open === 1 ? 'one question was' : `${open} questions were`} left open`,
      },
    ],
    actions: [],
    deliberate: true,
  });
  return value === 'ridden';
}
