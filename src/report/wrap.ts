/** Paragraphs for a narrow screen. */
import { wrapAnsi } from 'fast-wrap-ansi';

/** Wraps one paragraph, its first line after `lead` and the others indented to match. */
export function paragraph(text: string, width: number, lead = '', indent = ' '.repeat(lead.length)): string {
  const room = Math.max(20, width - lead.length);
  return wrapAnsi(text, room, { hard: true, trim: true })
    .split('\n')
    .map((line, i) => (i === 0 ? lead : indent) + line)
    .join('\n');
}
