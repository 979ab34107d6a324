/** Paragraphs for a narrow screen. */
import { wrapAnsi } from 'fast-wrap-ansi';
import { commandIn, foldCommand } from './fold.ts';

/**
 * Wraps one paragraph to `width` columns, its first line after `lead` and the others after `indent`. A command at its end
 * that does not fit stands below it, to be copied.
 */
export function paragraph(text: string, width: number, lead = '', indent = ' '.repeat(lead.length)): string {
  const room = Math.max(20, width - Math.max(lead.length, indent.length));
  const found = lead.length + text.length > width ? commandIn(text) : undefined;
  if (found !== undefined) {
    const before = found.before === '' ? [] : [paragraph(found.before.trimEnd(), width, lead, indent)];
    return [...before, foldCommand(found.command, width, found.before === '' ? lead : `${indent}  `)].join(
      '\n',
    );
  }
  // A number and its per cent sign stay on one line.
  return wrapAnsi(text.replaceAll(' %', '\u00a0%'), room, { hard: true, trim: true })
    .replaceAll('\u00a0%', ' %')
    .split('\n')
    .map((line, i) => (i === 0 ? lead : indent) + line)
    .join('\n');
}
