/** Paragraphs for a narrow screen. */
import { wrapAnsi } from 'fast-wrap-ansi';

/** Wraps one paragraph to `width` columns, its first line after `lead` and the others after `indent`. */
export function paragraph(text: string, width: number, lead = '', indent = ' '.repeat(lead.length)): string {
  const room = Math.max(20, width - Math.max(lead.length, indent.length));
  // A number and its per cent sign stay on one line.
  return wrapAnsi(text.replaceAll(' %', '\u00a0%'), room, { hard: true, trim: true })
    .replaceAll('\u00a0%', ' %')
    .split('\n')
    .map((line, i) => (i === 0 ? lead : indent) + line)
    .join('\n');
}
