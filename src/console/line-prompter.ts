/** The prompter for terminals that cannot move their cursor (TERM=dumb): prints, and reads a line. */
import { createInterface } from 'node:readline';
import type { Sure } from '../casework/case.ts';
import type { Style } from '../report/style.ts';
import { REAL_CLOCK } from './guarded-input.ts';
import { BURST, READING } from './key-guard.ts';
import { endIfGone, watchLeaving } from './leaving.ts';
import { Left, styleNow, type Leaving, type Prompter, type Terminal } from './prompter.ts';
import { onClosed } from './on-closed.ts';
import { begin, chosen, layOutList, turned, type States } from './list-lines.ts';
import { HELP, layOut, NOWHERE, SAID, SURE_WORDS, SURENESS } from './question-lines.ts';
import { byLine } from './word-choice.ts';

/** What was typed does nothing here. */
const LOST = '  Type one of the numbers or letters above, then Return.\n';

export function openLinePrompter(terminal: Terminal, style: Style): Prompter {
  const { input, output } = terminal;
  let left: Leaving | undefined;
  /** the lines of the answer to the prompt that stands there; undefined while none does */
  let answer: string[] | undefined;
  let asked = Number.NEGATIVE_INFINITY;
  let heard = Number.NEGATIVE_INFINITY;
  let wake: (() => void) | undefined;
  const clock = terminal.clock ?? REAL_CLOCK;
  const reader = createInterface({ input, terminal: false });
  const leave = (how: Leaving): void => {
    left ??= how;
    wake?.();
  };
  reader.on('line', (line) => {
    const now = clock.now();
    // Typed before the prompt stood there, or the next lines of a paste, or a key that is held down.
    const meant = now - Math.max(asked, heard) >= READING || (answer?.length ?? 0) > 0;
    heard = now;
    if (!meant) return;
    answer?.push(line);
    wake?.();
  });
  onClosed(reader, () => leave('end'));
  const unwatch = watchLeaving(input, leave);
  /** @param together whether lines that come at once are one text */
  const line = async (label: string, together = false): Promise<string> => {
    if (left !== undefined) throw new Left(left);
    output.write(label);
    const mine: string[] = [];
    answer = mine;
    asked = clock.now();
    while (mine.length === 0 && left === undefined) await new Promise<void>((resolve) => (wake = resolve));
    if (mine.length > 0 && together) await new Promise<void>((resolve) => void clock.after(BURST, resolve));
    answer = undefined;
    // A line before the end of the input still counts; one before a signal does not.
    if (mine.length > 0 && (left === undefined || left === 'end'))
      return together ? mine.join(' ').trimEnd() : mine[0]!;
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
      const names = asked.choices.map(({ name }) => name);
      output.write(`${lines.join('\n')}\n`);
      const { before } = asked;
      if (before !== undefined) output.write(`  Return keeps "${before}".\n`);
      for (;;) {
        const typed = (await line(label, asked.listens)).trim();
        const own = typed === '' && before !== undefined ? before : typed;
        const text = own.toLowerCase();
        const choice = /^\d+$/.test(text) ? asked.choices[Number(text) - 1] : undefined;
        const action = asked.actions.find((a) => a.key === text);
        if (choice !== undefined)
          return { value: choice.value, sure, ...(asked.numbers === undefined ? {} : { text }) };
        if (action !== undefined) return { value: action.value, sure };
        if (text === 's' && asked.sure !== undefined) {
          sure = SURENESS[(SURENESS.indexOf(sure) + 1) % SURENESS.length]!;
          output.write(`  the next answer counts as ${SURE_WORDS[sure]}\n`);
        } else if (text === HELP.key && asked.help !== undefined) return { value: HELP.value, sure };
        else if (asked.numbers !== undefined && /^[\d.,~]/.test(text))
          return { value: SAID, sure, text: own };
        else if (text !== '' && asked.listens === true && !/^\d+$/.test(text))
          return { value: SAID, sure, text: own };
        else if (text !== '') {
          const named = /^\d/.test(text) ? undefined : byLine(text, names, asked.deliberate === true);
          if (named !== undefined) return { value: asked.choices[named]!.value, sure };
          output.write(LOST);
        }
      }
    },
    async list(listed) {
      const screen = { style: styleNow(style, terminal) };
      const show = (states: States): States => {
        output.write(`${layOutList(listed, screen, states, NOWHERE)}\n`);
        return states;
      };
      for (let states = show(begin(listed)); ;) {
        const text = (await line('A number, or Return: ')).trim().toLowerCase();
        if (text === '') return chosen(listed, states);
        const action = listed.actions.find((a) => a.key === text);
        if (action !== undefined) return action.value;
        if (listed.lines[Number(text) - 1] === undefined) output.write(LOST);
        else states = show(turned(listed, states, Number(text) - 1));
      }
    },
    text: (message) => line(`${message} `, true),
    say: (text) => void output.write(text),
    async close() {
      reader.close();
      await endIfGone(input, left);
      unwatch();
    },
  };
}
