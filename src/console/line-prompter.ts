/** The prompter for terminals that cannot move their cursor (TERM=dumb): prints, and reads a line. */
import { createInterface } from 'node:readline';
import type { Sure } from '../casework/case.ts';
import type { Style } from '../report/style.ts';
import { endIfGone, watchLeaving } from './leaving.ts';
import { Left, styleNow, type Leaving, type Prompter, type Terminal } from './prompter.ts';
import { onClosed } from './on-closed.ts';
import { HELP, layOut, SURE_WORDS, SURENESS } from './question-lines.ts';

/** No pointer is drawn: nothing can move it. */
const NOWHERE = -1;

export function openLinePrompter(terminal: Terminal, style: Style): Prompter {
  const { input, output } = terminal;
  let left: Leaving | undefined;
  const typed: string[] = [];
  let wake: (() => void) | undefined;
  const waiting = (): boolean => typed.length === 0 && left === undefined;
  const reader = createInterface({ input, terminal: false });
  const leave = (how: Leaving): void => {
    left ??= how;
    wake?.();
  };
  reader.on('line', (line) => {
    typed.push(line);
    wake?.();
  });
  onClosed(reader, () => leave('end'));
  const unwatch = watchLeaving(input, leave);
  const line = async (label: string): Promise<string> => {
    if (left === undefined || left === 'end') output.write(label);
    while (waiting()) await new Promise<void>((resolve) => (wake = resolve));
    const next = typed.shift();
    // Lines that came before the end of the input still count; those before a signal do not.
    if (next !== undefined && (left === undefined || left === 'end')) return next;
    throw new Left(left ?? 'end');
  };
  return {
    get style() {
      return styleNow(style, terminal);
    },
    async ask(asked) {
      let sure: Sure = asked.sure ?? 'sure';
      const screen = { style: styleNow(style, terminal), rows: Number.POSITIVE_INFINITY };
      const { lines, input: label } = layOut(asked, screen, { active: NOWHERE, typed: '', sure });
      output.write(`${lines.join('\n')}\n`);
      for (;;) {
        const text = (await line(label)).trim().toLowerCase();
        const choice = /^\d+$/.test(text) ? asked.choices[Number(text) - 1] : undefined;
        const action = asked.actions.find((a) => a.key === text);
        if (choice !== undefined) return { value: choice.value, sure };
        if (action !== undefined) return { value: action.value, sure };
        if (text === 's' && asked.sure !== undefined) {
          sure = SURENESS[(SURENESS.indexOf(sure) + 1) % SURENESS.length]!;
          output.write(`  the next answer counts as: ${SURE_WORDS[sure]}\n`);
        } else if (text === HELP.key && asked.help !== undefined) return { value: HELP.value, sure };
        else if (text !== '') output.write('  Type one of the numbers or letters above, then return.\n');
      }
    },
    text: (message) => line(`${message} `),
    say: (text) => void output.write(text),
    async close() {
      reader.close();
      await endIfGone(input, left);
      unwatch();
    },
  };
}
