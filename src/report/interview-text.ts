/** The lines an interview prints between its questions. */
import type { Running } from '../interview/running.ts';
import type { Why } from '../interview/why.ts';
import { percent } from './phrases.ts';
import { toAscii, type Style } from './style.ts';
import { paragraph } from './wrap.ts';

/** `3  front rebound too slow 41 %, nothing off 20 %; settled 45 %` */
export function runningLine(number: number, r: Running, style: Style): string {
  const text = `${number}  ${r.leaders.map((l) => `${l.name} ${percent(l.probability)}`).join(', ')}; settled ${percent(r.settled)}`;
  return paragraph(style.unicode ? text : toAscii(text), style.width, '', '   ');
}

/** What each answer would decide, one line each; answers that lead to the same are told together. */
export function whyText(list: readonly Why[], style: Style): string {
  const lines = list.map(({ text, leads, nothing }) =>
    paragraph(
      `"${text}" would leave ${leads === null ? `nothing off in front, ${percent(nothing)}` : `${leads.name} in front, ${percent(leads.probability)}`}.`,
      style.width,
      '  ',
      '    ',
    ),
  );
  const all = `${lines.join('\n')}\n`;
  return style.quiet(style.unicode ? all : toAscii(all));
}
