/** Something to read between two prompts. */
import type { Prompter } from '../console/prompter.ts';

/** A question asked again takes about so many rows. */
const QUESTION_ROWS = 11;

/** Prints something to read; on a screen so low that the question would push it away, waits until it was read. */
export async function showRead(prompter: Prompter, text: string): Promise<void> {
  prompter.say(text);
  if (prompter.rows !== undefined && text.split('\n').length + QUESTION_ROWS > prompter.rows)
    await prompter.text('Return goes on:');
}
