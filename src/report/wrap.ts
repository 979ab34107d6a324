/** Paragraphs for a narrow screen, and commands to be copied from it: broken between words, so that a shell takes them whole. */
import { wrapAnsi } from 'fast-wrap-ansi';

/**
 * Wraps one paragraph to `width` columns, its first line after `lead` and the others after `indent`. A command at its end
 * that does not fit stands below it, to be copied.
 */
export function paragraph(text: string, width: number, lead = '', indent = ' '.repeat(lead.length)): string {
  return wrapped(text, width, { lead, indent, hard: true });
}

/**
 * The lines of a message, each that is too long wrapped behind its own indent. A word longer than the line stays whole: it
 * may be a path.
 */
export function foldText(text: string, width: number): string {
  return text
    .split('\n')
    .map((line) => {
      const lead = /^ */.exec(line)![0];
      return line.length <= width
        ? line
        : wrapped(line.slice(lead.length), width, { lead, indent: lead, hard: false });
    })
    .join('\n');
}

interface Wrapping {
  readonly lead: string;
  readonly indent: string;
  /** whether a word longer than the line is cut */
  readonly hard: boolean;
}

function wrapped(text: string, width: number, { lead, indent, hard }: Wrapping): string {
  const room = Math.max(20, width - Math.max(lead.length, indent.length));
  const found = lead.length + text.length > width ? commandIn(text) : undefined;
  if (found !== undefined) {
    const before =
      found.before === '' ? [] : [wrapped(found.before.trimEnd(), width, { lead, indent, hard })];
    return [...before, foldCommand(found.command, width, found.before === '' ? lead : `${indent}  `)].join(
      '\n',
    );
  }
  // A number and its per cent sign stay on one line.
  return wrapAnsi(text.replaceAll(' %', '\u00a0%'), room, { hard, trim: true })
    .replaceAll('\u00a0%', ' %')
    .split('\n')
    .map((line, i) => (i === 0 ? lead : indent) + line)
    .join('\n');
}

/** A command at the end of a line, behind a colon or alone; what ends as a sentence does is one about the program. */
const AT_THE_END = /^(|.*?: )(earshot [a-z].*(?<![.?!]))$/s;

/** The words before a command, and the command; undefined where the line ends in none. */
function commandIn(line: string): { readonly before: string; readonly command: string } | undefined {
  const [, before, command] = AT_THE_END.exec(line) ?? [];
  return before === undefined || command === undefined ? undefined : { before, command };
}

/** `earshot trial plan --bike hazel \` and so on; a word longer than the line stays whole. @param lead of every line */
export function foldCommand(command: string, width: number, lead = '  '): string {
  if (lead.length + command.length <= width) return lead + command;
  const lines: string[] = [];
  let line = lead;
  for (const word of words(command)) {
    const longer = line.trim() === '' ? line + word : `${line} ${word}`;
    if (longer.length > width - BROKEN.length && line.trim() !== '') {
      lines.push(line + BROKEN);
      line = `${lead}  ${word}`;
    } else line = longer;
  }
  return [...lines, line].join('\n');
}

const BROKEN = ' \\';

/** As a shell tells them apart. */
function words(command: string): string[] {
  return command.match(/(?:'[^']*'|"[^"]*"|\\.|[^\s'"\\])+/g) ?? [command];
}
