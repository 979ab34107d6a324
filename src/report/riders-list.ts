/** What to go and ride or check, and bring back. */
import { fit, type Style } from './style.ts';
import { paragraph } from './wrap.ts';

export function ridersListText(
  list: readonly { readonly question: string; readonly text: string }[],
  style: Style,
): string {
  const lines = [
    style.strong('To check on the next ride'),
    ...list.map((x, i) => paragraph(x.text, style.width, `${i + 1}. `.padStart(5))),
  ];
  const text = `${lines.join('\n')}\n`;
  return fit(text, style);
}
