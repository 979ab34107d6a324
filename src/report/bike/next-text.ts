/** Where a bike stands and what to do next: first the one thing, then why, then the rest. */
import { shownValue } from '../../logbook/entry.ts';
import { printableLines } from '../foreign-text.ts';
import { page, type Style } from '../style.ts';
import { foldCommand, paragraph } from '../wrap.ts';

/** What a bike's log, its sheet and the kept interviews come to. */
export interface NextThing {
  readonly kind:
    | 'ride'
    | 'judge'
    | 'give-up'
    | 'try'
    | 'find-out'
    | 'resume'
    | 'count'
    | 'plan'
    | 'further'
    | 'repair'
    | 'rest'
    | 'interview';
  /** what, in one line; what must be minded before it, in lines of its own */
  readonly do: string;
  /** to be copied; absent when it is done on the bike alone */
  readonly command?: string;
}

export interface Outlook {
  readonly bike: string;
  readonly next: NextThing;
  /** every setting with a number, and the maker's where it is known */
  readonly stands: readonly {
    readonly setting: string;
    readonly value: number | string;
    readonly unit?: string;
    readonly maker?: number;
  }[];
  /** every knob that can be compared stands where the maker would start; null when none can */
  readonly onMakersSheet: boolean | null;
  /** what else is not finished, each with its command as the last line */
  readonly open: readonly string[];
  /** the last things done, newest first */
  readonly done: readonly string[];
  /** the sheet and the log do not agree */
  readonly doubts: readonly string[];
}

/** @param words what a setting is called on this bike */
export function nextText(outlook: Outlook, words: (setting: string) => string, style: Style): string {
  const lines: string[] = printableLines(outlook.next.do)
    .split('\n')
    .map((line) => {
      const lead = /^ */.exec(line)![0];
      return style.strong(paragraph(line.slice(lead.length), style.width, lead));
    });
  const put = (text: string, lead = '  - '): void =>
    void lines.push(paragraph(text, style.width, lead, ' '.repeat(lead.length)));
  const head = (text: string): void => void lines.push('', style.strong(text));
  if (outlook.next.command !== undefined) lines.push(foldCommand(outlook.next.command, style.width));
  for (const doubt of outlook.doubts) put(style.warn(doubt), '! ');
  head(`Where ${outlook.bike} stands`);
  const [clicks, rest] = [
    outlook.stands.filter((s) => s.unit === 'clicks'),
    outlook.stands.filter((s) => s.unit !== 'clicks'),
  ];
  if (clicks.length > 0)
    put(
      `clicks from closed: ${clicks.map(({ setting, value, maker }) => `${words(setting)} ${value}${maker === undefined || maker === value ? '' : ` (recommended ${maker})`}`).join(', ')}`,
    );
  if (rest.length > 0)
    put(rest.map(({ setting, value, unit }) => `${words(setting)} ${shownValue(value, unit)}`).join(', '));
  if (outlook.onMakersSheet === true) put('every knob is at its recommended setting');
  if (outlook.open.length > 0) head('Open');
  for (const one of outlook.open) {
    const [first, ...more] = printableLines(one).split('\n');
    put(first!);
    for (const line of more) put(line.trim(), '    ');
  }
  if (outlook.done.length > 0) head('Done last');
  for (const one of outlook.done) put(printableLines(one));
  return page(lines, style);
}
