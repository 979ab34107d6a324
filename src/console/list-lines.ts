/** A list whose lines are each turned to what they should say, and how it is laid out; no terminal is touched here. */
import { fit } from '../report/style.ts';
import { paragraph } from '../report/wrap.ts';
import type { Action, Choice, Screen } from './question-lines.ts';

export interface Listed {
  readonly head: string;
  readonly message: string;
  readonly lines: readonly {
    readonly name: string;
    /** what it can say; it begins with the first */
    readonly states: readonly Choice[];
  }[];
  readonly actions: readonly Action[];
}

/** Which state each line has, by number. */
export type States = readonly number[];

/** Return ends it. */
const KEYS = "Press a line's number to change it. Return: done.";

export function begin({ lines }: Listed): States {
  return lines.map(() => 0);
}

/** The states with one line moved on, round at the end. */
export function turned({ lines }: Listed, states: States, line: number, by = 1): States {
  const count = lines[line]?.states.length ?? 1;
  return states.map((state, i) => (i === line ? (state + by + count) % count : state));
}

/** What is chosen, line by line. */
export function chosen({ lines }: Listed, states: States): string[] {
  return lines.map((line, i) => line.states[states[i]!]!.value);
}

export function layOutList(
  listed: Listed,
  { style }: Pick<Screen, 'style'>,
  states: States,
  active: number,
): string {
  const width = style.width - 1;
  const put = (text: string, lead = '', indent = lead): string =>
    paragraph(fit(text, style), width, lead, indent);
  const digits = String(listed.lines.length).length;
  const lines = listed.lines.map(({ name, states: all }, i) => {
    const lead = `${i === active ? '> ' : '  '}${String(i + 1).padStart(digits)} `;
    const line = put(`${name}: ${all[states[i]!]!.name}`, lead, ' '.repeat(lead.length));
    return i === active || states[i] !== 0 ? style.strong(line) : line;
  });
  const letters = listed.actions.map((a) => `${a.key} ${a.name}`);
  return [
    '',
    ...(listed.head === '' ? [] : [style.quiet(put(listed.head, '', '  '))]),
    style.strong(put(listed.message)),
    ...lines,
    style.quiet(put([KEYS, ...letters].join('  '))),
  ].join('\n');
}

/** What was told, and nothing of what was left at its beginning. */
export function toldOf({ lines }: Listed, states: States): string {
  const told = lines.flatMap(({ name, states: all }, i) =>
    states[i] === 0 ? [] : [`${name}: ${all[states[i]!]!.name}`],
  );
  return told.length === 0 ? 'nothing' : told.join('; ');
}
