/** Paragraphs for a narrow screen. */
import { wrapAnsi } from 'fast-wrap-ansi';
import { commandIn, foldCommand } from './fold.ts';

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
