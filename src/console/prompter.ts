/** The port between an interview and a terminal: three ways of asking, and the ways of leaving. */
import { printableLines, printableOut } from '../report/foreign-text.ts';
import type { Style } from '../report/style.ts';
import type { Clock } from './guarded-input.ts';
import type { Listed } from './list-lines.ts';
import type { ListAnswer } from './list-prompt.ts';
import type { Asked } from './question-lines.ts';
import type { Chosen } from './question-prompt.ts';

export type { Listed } from './list-lines.ts';
export type { Action, Asked, Choice } from './question-lines.ts';
export type { Chosen } from './question-prompt.ts';

/** interrupt: Ctrl-C or SIGINT; end: Ctrl-D or the end of the input; terminate: SIGTERM; hangup: the terminal is gone */
export type Leaving = 'interrupt' | 'end' | 'terminate' | 'hangup';

/** The user, or the system, ended the asking. */
export class Left extends Error {
  readonly how: Leaving;
  constructor(how: Leaving) {
    super(how);
    this.name = 'Left';
    this.how = how;
  }
}

export interface Prompter {
  /** fits the terminal as it is now */
  readonly style: Style;
  /** one question with its letters; resolves to what was chosen, rejects with `Left` */
  ask(asked: Asked): Promise<Chosen>;
  /** a list, each line turned to what it should say; resolves to the value of every line, or of the letter pressed */
  list(listed: Listed): Promise<ListAnswer>;
  /** a line of free text; rejects with `Left` */
  text(message: string): Promise<string>;
  /** how many rows the screen has now; undefined where nothing printed is drawn over or pushed away */
  readonly rows?: number | undefined;
  /** anything printed between prompts */
  say(text: string): void;
  /** gives signals back to the system; without a terminal left it does not return */
  close(): Promise<void>;
}

export interface Terminal {
  readonly input: NodeJS.ReadableStream;
  readonly output: NodeJS.WritableStream & { readonly columns?: number; readonly rows?: number };
  readonly env: Readonly<Record<string, string | undefined>>;
  /** what the times between keys are taken by; the machine's own when absent */
  readonly clock?: Clock;
}

/** A terminal that cannot move its cursor is asked line by line; any other by prompts that redraw themselves. */
export async function openPrompter(terminal: Terminal, style: Style): Promise<Prompter> {
  if (terminal.env['TERM'] === 'dumb') {
    const { openLinePrompter } = await import('./line-prompter.ts');
    return printing(openLinePrompter(terminal, style));
  }
  const { openScreenPrompter } = await import('./screen-prompter.ts');
  return printing(openScreenPrompter(terminal, style));
}

/** Whatever is asked or said may quote rules, sheets and cases of anybody's: nothing of it moves the cursor. */
function printing(prompter: Prompter): Prompter {
  const named = <T extends { readonly name: string }>(all: readonly T[]): T[] =>
    all.map((one) => ({ ...one, name: printableLines(one.name) }));
  return {
    get style() {
      return prompter.style;
    },
    get rows() {
      return prompter.rows;
    },
    ask: (asked) =>
      prompter.ask({
        ...asked,
        head: printableLines(asked.head),
        message: printableLines(asked.message),
        ...(asked.note === undefined ? {} : { note: printableLines(asked.note) }),
        ...(asked.help === undefined ? {} : { help: printableLines(asked.help) }),
        ...(asked.before === undefined ? {} : { before: printableLines(asked.before) }),
        choices: named(asked.choices),
        actions: named(asked.actions),
      }),
    list: (listed) =>
      prompter.list({
        ...listed,
        lines: named(listed.lines).map((line) => ({ ...line, states: named(line.states) })),
      }),
    text: (message) => prompter.text(printableLines(message)),
    say: (text) => prompter.say(printableOut(text, prompter.style.strong('x') !== 'x')),
    close: () => prompter.close(),
  };
}

/** The style at the width the terminal has now: it may have been resized since the start. */
export function styleNow(style: Style, { output }: Terminal): Style {
  return output.columns === undefined
    ? style
    : { ...style, width: Math.min(100, Math.max(40, output.columns)) };
}
