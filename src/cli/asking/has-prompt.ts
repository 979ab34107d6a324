/** Which knobs and levers a bike without a sheet has: one key where both ends have the same, else a list to be turned. */
import type { Draft } from '../../bike/form/draft.ts';
import { noKnobs, saidOf } from '../../bike/form/said.ts';
import { positionNames, type KnobCount } from '../../bike/form/new-steps.ts';
import { rigidEnd } from '../../bike/form/sheet-of.ts';
import { SIDES, type Side } from '../../bike/circuits.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { BIKE_KINDS, ENDS, type BikeKind, type End } from '../../bike/sheet.ts';
import { settingWords } from '../../bike/setting-words.ts';
import type { Case, Tried } from '../../casework/case.ts';
import { capital } from '../../form/text.ts';
import type { Choice, Prompter } from '../../console/prompter.ts';
import { paragraph } from '../../report/wrap.ts';

/** How many knobs the sides of an end's damper have, in the words of `has:`. */
export type Knobs = Readonly<Partial<Record<End, Readonly<Record<Side, KnobCount>>>>>;
type EndKnobs = Readonly<Record<Side, KnobCount>>;

/** What can be said of one thing: its place in `has:`, and the answers in the words of that form. */
interface Line {
  readonly path: readonly string[];
  readonly name: string;
  readonly states: readonly Choice[];
}

const UNSURE: Choice = { value: '', name: 'not sure' };
const NONE: Choice = { value: 'none', name: 'none' };

/**
 * @param tried what was told to have been turned: a list that has no such knob is asked once more
 * @returns undefined when the rider would rather not say
 */
export async function askHas(
  prompter: Prompter,
  own: readonly OwnSetting[],
  tried: readonly Tried[] = [],
): Promise<Case['has'] | undefined> {
  let raw = await askRaw(prompter, own);
  const missing = raw === undefined ? [] : turnedWithout(raw, tried);
  if (missing.length > 0) {
    const text = `You told of a change to ${missing.join(' and ')}, and by this list the bike has no such knob. Which is right? Set the list once more.`;
    prompter.say(`\n${paragraph(text, prompter.style.width - 1, '  ')}\n`);
    raw = (await askRaw(prompter, own)) ?? raw;
  }
  if (raw === undefined || Object.keys(raw).length === 0) return undefined;
  const { bike } = saidOf(raw, own);
  return bike === undefined ? undefined : { raw, bike };
}

/** What was told to have been turned, in words, and has no knob in the list. */
function turnedWithout(raw: Draft, tried: readonly Tried[]): string[] {
  const turned = new Set(tried.map(({ setting }) => setting));
  return noKnobs(raw)
    .filter((setting) => turned.has(setting))
    .map((setting) => `the ${settingWords(setting)}`);
}

/** @returns what it has as `has:` says it; undefined where nothing was said */
async function askRaw(
  prompter: Prompter,
  own: readonly OwnSetting[],
): Promise<Record<string, unknown> | undefined> {
  /** a kind without suspension at an end, once it was told */
  let kind: BikeKind | undefined;
  for (;;) {
    const sprung = ENDS.filter((end) => kind === undefined || rigidEnd(kind, end) === undefined);
    const other = 'other knobs, or a climb lever or lockout: line by line';
    const usual = await askUsual(prompter, sprung, other, { kinds: kind === undefined ? RIGID : [] });
    if (usual === undefined) return undefined;
    if (usual !== 'else' && typeof usual !== 'object') {
      kind = usual === 'back' ? undefined : usual;
      continue;
    }
    const told = kind === undefined ? {} : { kind };
    if (usual !== 'else') return { ...told, ...usual };
    const lines = linesOf(own).filter(({ path: [first] }) =>
      kind === undefined
        ? true
        : first !== 'kind' && !ENDS.some((end) => end === first && !sprung.includes(end)),
    );
    const said = await prompter.list({
      head: '',
      message: 'Knobs and levers, as far as you know',
      lines,
      actions: [{ key: 'b', value: 'back', name: 'back' }],
    });
    if (typeof said !== 'string') return { ...told, ...rawOf(lines, said) };
  }
}

/** Kinds of bike that have no suspension at one end. */
const RIGID = BIKE_KINDS.filter((kind) => ENDS.some((end) => rigidEnd(kind, end) !== undefined));

/**
 * One key for a bike whose ends have the usual knobs.
 * @param kinds kinds of bike that may be told in place of knobs; none left to tell: one was, and may be taken back
 * @returns undefined where it is passed over
 */
export async function askUsual(
  prompter: Prompter,
  ends: readonly End[],
  other: string,
  { kinds }: { readonly kinds?: readonly BikeKind[] } = {},
): Promise<Knobs | BikeKind | 'else' | 'back' | undefined> {
  const usual = usualKnobs(ends);
  const { value } = await prompter.ask({
    head: 'Before any advice on a knob:',
    message: 'What can you turn?',
    choices: [
      ...usual.map(({ name }, i) => ({ value: String(i), name })),
      ...(kinds ?? []).map((kind) => ({ value: kind, name: `it is a ${kind}` })),
      { value: 'else', name: other },
    ],
    actions: [
      { key: 'k', value: 'skip', name: "skip, don't know" },
      ...(kinds?.length === 0 ? [{ key: 'b', value: 'back', name: 'back' }] : []),
    ],
    deliberate: true,
  });
  if (value === 'skip') return undefined;
  if (value === 'back') return value;
  return usual.find((_, i) => String(i) === value)?.knobs ?? kinds?.find((kind) => kind === value) ?? 'else';
}

/** All ends alike, from the fewest knobs on; the front alone may have one side more. */
function usualKnobs(ends: readonly End[]): { readonly name: string; readonly knobs: Knobs }[] {
  const sides = SIDES.map(({ side }) => side);
  const [first, ...others] = sides;
  const end = (count: (side: Side) => KnobCount): EndKnobs =>
    Object.fromEntries(sides.map((side) => [side, count(side)])) as EndKnobs;
  const alike = (knobs: EndKnobs): Knobs => Object.fromEntries(ends.map((one) => [one, knobs]));
  const only = end((side) => (side === first ? 'one' : 'none'));
  const one = end(() => 'one');
  const rest = others.join(' and ');
  const at = ends.length === 1 ? `at the ${ends[0]}` : 'each end';
  return [
    { name: `one ${first} knob ${at}, no ${rest} knob`, knobs: alike(only) },
    ...(ends.length === 1
      ? []
      : [
          {
            name: `the same, and one ${rest} knob at the ${ends[0]}`,
            knobs: { ...alike(only), [ends[0]!]: one },
          },
        ]),
    { name: `one ${first} and one ${rest} knob ${at}`, knobs: alike(one) },
    {
      name: `two knobs each for ${sides.join(' and ')} (low- and high-speed), ${at}`,
      knobs: alike(end(() => 'two')),
    },
    { name: 'no knobs at all', knobs: alike(end(() => 'none')) },
  ];
}

function linesOf(own: readonly OwnSetting[]): Line[] {
  const kinds = BIKE_KINDS.map((value) => ({ value, name: value.replace(/(?<=\w\w)-/, ' ') }));
  return [
    { path: ['kind'], name: 'Kind of bike', states: [UNSURE, ...kinds] },
    ...ENDS.flatMap((end) => [
      ...SIDES.map(({ side }) => ({ path: [end, side], name: `${capital(end)} ${side}`, states: KNOBS })),
      ...own.filter((one) => one.end === end).map(ownLine),
    ]),
    ...own.filter((one) => one.end === undefined).map(ownLine),
  ];
}

const KNOBS: readonly Choice[] = [
  UNSURE,
  { value: 'one', name: 'one knob' },
  { value: 'two', name: 'two knobs: low- and high-speed' },
  NONE,
];

function ownLine(own: OwnSetting): Line {
  const { end, key, words, unit } = own;
  return {
    path: [...(end === undefined ? [] : [end]), key],
    name: capital(words),
    states: [
      UNSURE,
      NONE,
      ...(unit === 'positions' ? positionNames(own) : []),
      { value: 'knob', name: unit === 'positions' ? 'there is one, position not known' : 'there is one' },
    ],
  };
}

/** What is told of an end denies all that is not named there: what he is not sure of is named as such. */
function rawOf(lines: readonly Line[], said: readonly string[]): Record<string, unknown> {
  const raw: Record<string, unknown> = {};
  const told = lines.flatMap(({ path }, i) => (said[i] === '' ? [] : [[path, said[i]!] as const]));
  for (const [path, value] of told) put(raw, path, value);
  for (const end of ENDS) {
    const part = raw[end] as Record<string, unknown> | undefined;
    if (part !== undefined) for (const { side } of SIDES) part[side] ??= 'unsure';
  }
  // An end without suspension has nothing to turn.
  const kind = raw['kind'] as BikeKind | undefined;
  for (const end of ENDS) if (kind !== undefined && rigidEnd(kind, end) !== undefined) delete raw[end];
  return raw;
}

function put(into: Record<string, unknown>, [key, ...rest]: readonly string[], value: string): void {
  if (rest.length === 0) into[key!] = value;
  else put((into[key!] ??= {}) as Record<string, unknown>, rest, value);
}
