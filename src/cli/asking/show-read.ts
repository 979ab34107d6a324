/** Something to read between two prompts. */
import type { Prompter } from '../../console/prompter.ts';

/** A question asked again takes about so many rows. */
const QUESTION_ROWS = 11;

/** Prints something to read; on a screen so low that the question would push it away, waits until it was read. */
export async function showRead(prompter: Prompter, text: string): Promise<void> {
  prompter.say(text);
  if (prompter.rows !== undefined && text.split('\n').length + QUESTION_ROWS > prompter.rows)
    await prompter.text('Press Return to go on:');
}

/** Prints a long text a screen at a time, and waits until the last of it was read. */
export async function showPages(prompter: Prompter, text: string): Promise<void> {
  const lines = text.trimEnd().split('\n');
  const { rows } = prompter;
  if (rows === undefined) {
    prompter.say(`\n${lines.join('\n')}\n`);
    return;
  }
  // The prompt takes the last row, and the line before stays in sight.
  const size = Math.max(4, rows - 2);
  for (let from = 0; from < lines.length; from += size) {
    prompter.say(`\n${lines.slice(from, from + size).join('\n')}\n`);
    const left = lines.length - from - size;
    await prompter.text(left > 0 ? `Return: next page (${left} more lines)` : 'Return: back');
  }
}
