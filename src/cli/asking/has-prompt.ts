/** Which knobs and levers a bike without a sheet has, and roughly where they are: one screen, a line each. */
import { saidOf } from '../../bike/form/said.ts';
import { SIDES } from '../../bike/circuits.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { BIKE_KINDS, ENDS, PLACES, type End } from '../../bike/sheet.ts';
import type { Case } from '../../casework/case.ts';
import type { Choice, Prompter } from '../../console/prompter.ts';
import { askPaged } from './ask-paged.ts';

/** What can be said of one thing: its place in `has:`, and the answers in the words of that form. */
interface Line {
  readonly path: readonly string[];
  readonly name: string;
  readonly choices: readonly Choice[];
}

const NOT_SURE = '';
const place = (value: string): Choice => ({ value, name: value.replace('-', ' ') });
const NONE: Choice = { value: 'none', name: 'none' };
const UNSURE: Choice = { value: NOT_SURE, name: 'not sure' };
const KNOBS: readonly Choice[] = [
  { value: 'one', name: 'one knob' },
  ...PLACES.map((where) => ({
    value: where,
    name: `one knob, ${where === 'middle' ? 'around the middle' : where.replace('-', ' ')}`,
  })),
  { value: 'two', name: 'two knobs: low- and high-speed' },
  NONE,
  UNSURE,
];

/** @returns undefined when the rider would rather not say */
export async function askHas(
  prompter: Prompter,
  own: readonly OwnSetting[],
): Promise<Case['has'] | undefined> {
  const said = new Map<Line, string>();
  const lines = linesOf(own);
  for (;;) {
    const { value } = await askPaged(prompter, {
      head: 'Before a knob is named: what does the bike have? Type a number to change that line.',
      message: 'Knobs and levers, as far as you know',
      choices: lines.map((line, i) => ({ value: String(i), name: `${line.name}: ${answerOf(line, said)}` })),
      actions: [
        { key: 'd', value: 'done', name: 'done' },
        { key: 'k', value: 'skip', name: 'skip this' },
      ],
      deliberate: true,
    });
    if (value === 'skip') return undefined;
    if (value === 'done') break;
    const line = lines[Number(value)]!;
    const chosen = await askPaged(prompter, {
      head: '',
      message: line.name,
      choices: line.choices,
      actions: [{ key: 'b', value: 'back', name: 'back' }],
    });
    if (chosen.value !== 'back') said.set(line, chosen.value);
  }
  const raw = {};
  for (const [{ path }, value] of said) if (value !== NOT_SURE) put(raw, path, value);
  if (Object.keys(raw).length === 0) return undefined;
  const { bike } = saidOf(raw, own);
  return bike === undefined ? undefined : { raw, bike };
}

function answerOf(line: Line, said: ReadonlyMap<Line, string>): string {
  const value = said.get(line) ?? NOT_SURE;
  return line.choices.find((choice) => choice.value === value)!.name;
}

function linesOf(own: readonly OwnSetting[]): Line[] {
  return [
    ...ENDS.flatMap((end) => endLines(end, own)),
    ...own.filter((one) => one.end === undefined).map(ownLine),
    { path: ['kind'], name: 'Kind of bike', choices: [...BIKE_KINDS.map(place), UNSURE] },
  ];
}

function endLines(end: End, own: readonly OwnSetting[]): Line[] {
  return [
    ...SIDES.map(({ side }) => ({
      path: [end, side],
      name: `${end === 'front' ? 'Front' : 'Rear'} ${side}`,
      choices: KNOBS,
    })),
    ...own.filter((one) => one.end === end).map(ownLine),
  ];
}

function ownLine({ end, key, words, unit, positions = [] }: OwnSetting): Line {
  const where = unit === 'positions' ? positions : unit === 'clicks' ? PLACES : [];
  return {
    path: [...(end === undefined ? [] : [end]), key],
    name: `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`,
    choices: [
      { value: 'knob', name: unit === 'positions' ? 'there is one, position not known' : 'yes' },
      ...where.map(place),
      NONE,
      UNSURE,
    ],
  };
}

function put(into: Record<string, unknown>, [key, ...rest]: readonly string[], value: string): void {
  if (rest.length === 0) into[key!] = value;
  else put((into[key!] ??= {}) as Record<string, unknown>, rest, value);
}
