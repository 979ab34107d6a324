/** How one question is laid out on a screen of so many columns and rows; no terminal is touched here. */
import type { Sure } from '../casework/case.ts';
import { fit, type Style } from '../report/style.ts';
import { paragraph } from '../report/wrap.ts';

export interface Choice {
  readonly value: string;
  readonly name: string;
}

export interface Action {
  /** one letter or sign */
  readonly key: string;
  readonly value: string;
  readonly name: string;
  /** the name where there is little room */
  readonly brief?: string;
  /** stands in the place of an answer, so the question stays on the screen beside it */
  readonly answers?: boolean;
  /** what stays on the screen as the answer, where the name alone would not say it */
  readonly stays?: string;
}

export interface Asked {
  /** the line above the question; empty for none */
  readonly head: string;
  readonly message: string;
  /** what stays on the screen of the question once it is answered; the message when absent */
  readonly stays?: string | undefined;
  /** what the answer is held against; stands below the message until it is answered */
  readonly note?: string | undefined;
  /** how to find out; folded behind the letter h where the screen is too low for it */
  readonly help?: string | undefined;
  readonly choices: readonly Choice[];
  readonly actions: readonly Action[];
  /** how sure the answer is until the letter s says otherwise; absent where that makes no sense */
  readonly sure?: Sure;
  /** nothing is chosen to begin with: return alone answers nothing */
  readonly deliberate?: boolean;
  /** index of the choice that is pointed at to begin with; the first one when absent */
  readonly start?: number;
  /** letters are words of the user's own, ended by return; there are no letter actions then */
  readonly listens?: boolean;
  /** the words that were typed here before: they stand there to be changed, or kept by Return */
  readonly before?: string | undefined;
  /** a number of the user's own may be typed, such as these; then Return ends a digit, too */
  readonly numbers?: string | undefined;
  /** letters are named in as few words as possible */
  readonly terse?: boolean;
  /** asked again under something just printed: without its head, and with the help folded, so that both are seen */
  readonly again?: boolean;
}

export interface Screen {
  readonly style: Style;
  readonly rows: number;
}

/** No choice is pointed at. */
export const NOWHERE = -1;

export interface Standing {
  /** index of the choice pointed at, or NOWHERE */
  readonly active: number;
  /** digits of a number that may go on, such as the 1 of 12 */
  readonly typed: string;
  /** words typed so far, where the prompt listens */
  readonly said?: string;
  readonly sure: Sure;
  /** a key was pressed that does nothing here: the keys that do are told */
  readonly lost?: boolean;
}

export interface Layout {
  readonly lines: readonly string[];
  /** the last line, where the cursor stands */
  readonly input: string;
  /** the help did not fit */
  readonly folded: boolean;
}

/** The value of words, or of a number, of the user's own, where a prompt takes them. */
export const SAID = 'said';
/** The value of the letter that goes back to what was asked before. */
export const BACK = 'back';
export const HELP: Action = { key: 'h', value: 'help', name: 'how to find out', brief: 'help' };
export const SURENESS: readonly Sure[] = ['sure', 'fairly', 'guess'];

/** Blank line, head, question, help, choices, letters, and the line to type on; what does not fit is left out in that order. */
export function layOut(asked: Asked, screen: Screen, at: Standing): Layout {
  const { style } = screen;
  const width = style.width - 1;
  const plain = (text: string): string => fit(text, style);
  const put = (text: string, lead = '', indent = lead): string[] =>
    paragraph(plain(text), width, lead, indent).split('\n');
  const head =
    asked.head === '' || asked.again === true
      ? []
      : put(asked.head, '', '  ').map((line) => style.quiet(line));
  const message = [
    ...put(asked.message).map((line) => style.strong(line)),
    ...(asked.note === undefined ? [] : put(asked.note, '  ')),
  ];
  const help = asked.help === undefined ? [] : put(asked.help, '    ').map((line) => style.quiet(line));
  const digits = String(asked.choices.length).length;
  const choices = asked.choices.map((choice, i) => {
    const here = i === at.active;
    const lead = `${here ? '> ' : '  '}${String(i + 1).padStart(digits)} `;
    const lines = put(choice.name, lead, ' '.repeat(lead.length));
    return here ? lines.map((line) => style.strong(line)) : lines;
  });
  const hint = at.lost === true ? put(keysWords(asked), '  ').map((line) => style.quiet(line)) : [];
  const last = asked.choices.length;
  const letters = asked.actions.length > 0 || asked.help !== undefined || asked.sure !== undefined;
  const numbers = `1-${Math.max(last, 1)}`;
  const input =
    asked.listens === true
      ? put(at.said ?? '', `${numbers}, or your own words: `, '  ').join('\n')
      : asked.numbers === undefined
        ? `${last > 1 ? `1-${last}` : '1'}${letters ? ' or a letter' : ''}: ${at.typed}`
        : `${numbers}, or what you read (${asked.numbers}), then Return: ${at.typed}`;
  // One row is left free: the terminal scrolls when the prompt ends.
  const room = screen.rows - 1;
  const tall = (keys: readonly string[], withHelp: boolean): number =>
    head.length +
    message.length +
    (withHelp ? help.length : 0) +
    choices.flat().length +
    keys.length +
    hint.length +
    1;
  let keys = keyLines(asked, asked.actions, at, style);
  const folded = help.length > 0 && (asked.again === true || tall(keys, true) > room);
  if (folded) keys = keyLines(asked, [HELP, ...asked.actions], at, style);
  const shown = windowOf(
    choices,
    Math.max(0, at.active),
    Math.max(4, room - (tall(keys, !folded) - choices.flat().length)),
    style,
  );
  const body = [...head, ...message, ...(folded ? [] : help), ...shown, ...keys, ...hint];
  return { lines: body.length + 1 < room ? ['', ...body] : body, input, folded };
}

/** What can be pressed. */
function keysWords({ choices, actions, deliberate, numbers }: Asked): string {
  if (numbers !== undefined)
    return `Type a number from 1 to ${choices.length}, or what you read (${numbers}), and press Return; or press one of the letters above. Ctrl-C leaves.`;
  const number = choices.length > 1 ? `Press a number from 1 to ${choices.length}` : 'Press 1';
  const mark = `or move with the arrows and press Return${deliberate === true ? '' : ' (it takes the marked line)'}`;
  return `${number}, type its words and press Return, ${mark}${actions.length === 0 ? '' : ', or one of the letters above'}. Ctrl-C leaves.`;
}

/** The letters, on one line if terse and on two at most otherwise; short names where the long ones need more. */
function keyLines(asked: Asked, actions: readonly Action[], at: Standing, style: Style): string[] {
  const width = style.width - 1;
  const all =
    asked.sure !== undefined
      ? [
          ...actions.filter((a) => a.answers === true),
          {
            key: 's',
            name: `how sure: ${SURE_WORDS[at.sure]}`,
            brief: at.sure === 'sure' ? 'how sure?' : SURE_WORDS[at.sure],
          },
          ...actions.filter((a) => a.answers !== true),
        ]
      : actions;
  const join = (brief: boolean): string[] =>
    fill(
      all.map((a) => `${a.key} ${brief ? (a.brief ?? a.name) : a.name}`),
      width,
    );
  const long = join(false);
  const lines = long.length <= (asked.terse === true ? 1 : 2) ? long : join(true);
  return lines.map((line) => style.quiet(line));
}

export const SURE_WORDS: Readonly<Record<Sure, string>> = {
  sure: 'sure',
  fairly: 'fairly sure',
  guess: 'a guess',
};

/** Fills lines with pieces that stay whole, two blanks between them. */
function fill(pieces: readonly string[], width: number): string[] {
  const lines: string[] = [];
  for (const piece of pieces) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 2 + piece.length <= width)
      lines[lines.length - 1] = `${last}  ${piece}`;
    else lines.push(piece);
  }
  return lines;
}

/** The choices around the active one that fit into `rows` lines, and a line for those above and below. */
function windowOf(
  items: readonly (readonly string[])[],
  active: number,
  rows: number,
  style: Style,
): string[] {
  if (items.flat().length <= rows) return items.flat();
  let [from, to] = [active, active + 1];
  let left = rows - 2 - items[active]!.length;
  // Grow by turns so that the active one stays in the middle where it can.
  for (let grown = true; grown;) {
    grown = false;
    const below = items[to];
    if (below !== undefined && below.length <= left) {
      left -= below.length;
      to++;
      grown = true;
    }
    const above = items[from - 1];
    if (above !== undefined && above.length <= left) {
      left -= above.length;
      from--;
      grown = true;
    }
  }
  const more = (count: number, where: string): string[] =>
    count === 0 ? [] : [style.quiet(`    (${count} more ${where})`)];
  return [...more(from, 'above'), ...items.slice(from, to).flat(), ...more(items.length - to, 'below')];
}

/** What stays on the screen of a question, or a list, that was answered. */
export function answered(message: string, answer: string, { style }: Pick<Screen, 'style'>): string {
  const put = (text: string, lead = ''): string => paragraph(fit(text, style), style.width - 1, lead);
  return `${put(message)}\n${style.strong(put(answer, '  '))}`;
}
