/** A person at the prompt, made up: presses keys, and remembers what was asked and shown. */
import { Left, type Asked, type Chosen, type Leaving, type Prompter } from '../../src/console/prompter.ts';
import { begin, chosen as chosenOf, turned } from '../../src/console/list-lines.ts';
import { HELP, SAID, SURENESS } from '../../src/console/question-lines.ts';
import { PLAIN, type Style } from '../../src/report/style.ts';
import type { Sure } from '../../src/casework/case.ts';

/** Keys as they would be pressed (`1`, `c`, `s`), a text to type, or a choice by a part of its name. */
export type Press = string | { readonly text: string } | { readonly choose: string };

/** What to press at a question; undefined to leave. */
export type Player = (asked: Asked | { readonly message: string }, turn: number) => Press | undefined;

export interface Scripted extends Prompter {
  readonly asked: readonly Asked[];
  /** everything shown between the prompts */
  readonly shown: string;
  readonly closed: boolean;
}

export function scripted(
  player: Player | readonly Press[],
  leave: Leaving = 'interrupt',
  style: Style = PLAIN,
): Scripted {
  const next: Player = typeof player === 'function' ? player : (_, turn) => player[turn];
  const asked: Asked[] = [];
  let shown = '';
  let turn = 0;
  let closed = false;
  const press = (at: Asked | { readonly message: string }): Press => {
    const key = next(at, turn++);
    if (key === undefined || turn > 500) throw new Left(leave);
    return key;
  };
  return {
    style,
    get asked() {
      return asked;
    },
    get shown() {
      return shown;
    },
    get closed() {
      return closed;
    },
    async ask(question): Promise<Chosen> {
      asked.push(question);
      let sure: Sure = question.sure ?? 'sure';
      for (;;) {
        const key = press(question);
        if (key === 's' && question.sure !== undefined) {
          sure = SURENESS[(SURENESS.indexOf(sure) + 1) % SURENESS.length]!;
          continue;
        }
        if (
          typeof key === 'object' &&
          'text' in key &&
          (question.listens === true || question.numbers !== undefined)
        )
          return { value: SAID, sure, text: key.text };
        const choice =
          typeof key === 'string'
            ? question.choices[Number(key) - 1]
            : 'choose' in key
              ? question.choices.find((c) => c.name.includes(key.choose))
              : undefined;
        const letters = question.help === undefined ? question.actions : [...question.actions, HELP];
        const value = choice?.value ?? letters.find((a) => a.key === key)?.value;
        if (value === undefined)
          throw new Error(`Nothing at "${question.message}" is chosen by ${JSON.stringify(key)}.`);
        const isTyped = choice !== undefined && typeof key === 'string' && question.numbers !== undefined;
        return { value, sure, ...(isTyped ? { text: key } : {}) };
      }
    },
    async list(listed) {
      let states = begin(listed);
      for (;;) {
        const key = press({ message: listed.message });
        if (key === 'done') return chosenOf(listed, states);
        const line =
          typeof key === 'string'
            ? Number(key) - 1
            : listed.lines.findIndex(({ name }) => 'choose' in key && name.includes(key.choose));
        const letter = listed.actions.find((a) => a.key === key);
        if (letter !== undefined) return letter.value;
        if (listed.lines[line] === undefined)
          throw new Error(`No line of "${listed.message}" is turned by ${JSON.stringify(key)}.`);
        states = turned(listed, states, line);
      }
    },
    async text(message) {
      const key = press({ message });
      if (typeof key === 'object' && 'text' in key) return key.text;
      throw new Error(`"${message}" wants a text, not ${JSON.stringify(key)}.`);
    },
    say: (text) => void (shown += text),
    close: async () => void (closed = true),
  };
}
