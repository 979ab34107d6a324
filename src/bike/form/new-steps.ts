/**
 * What is asked to write a new bike sheet, in the order in which a mechanic goes round the bike. The sentences are a pack's, by
 * the end of the path that they are for.
 */
import { capital } from '../../form/text.ts';
import { isMap } from '../../form/plain-data.ts';
import { DAMPER, SIDES, type Circuit, type Side } from '../circuits.ts';
import type { OwnSetting } from '../own-setting.ts';
import { valueAt, type Draft } from './draft.ts';
import { UNCOUNTED } from './limits.ts';
import { BIKE_KINDS, ENDS, PLACES, type End } from '../sheet.ts';
import { unitsOf } from '../units.ts';

export interface NewStep {
  /** in the file form: `front.spring.pressure` */
  readonly path: string;
  readonly ask: string;
  /** how to find it, in a few words for brackets */
  readonly help?: string;
  /** a closed list; absent for a text */
  readonly choices?: readonly Choice[];
  /** beside that list: what else may be typed, such as this */
  readonly numbers?: string;
  /** may not be left open */
  readonly needed: boolean;
  /** the first change on the bike does not hang on it */
  readonly later?: true;
}

interface Choice {
  readonly name: string;
  /** in the file form; undefined leaves it open */
  readonly value: unknown;
}

/** How it is asked, and how to find it; `{end}`, `{side}` and `{name}` stand for what it is about. */
export type SheetAsks = Readonly<
  Record<string, { readonly ask: string; readonly help?: string | undefined }>
>;

export interface Wanted {
  /** absent: by the paths alone */
  readonly asks?: SheetAsks;
  /** the settings that packs in use add */
  readonly own?: readonly OwnSetting[];
  /** everything that a sheet can hold, not only what most decisions need */
  readonly all?: boolean;
  /** only what the first change hangs on: what kind of bike it is, and which knobs stand where */
  readonly first?: boolean;
  /** the only knobs whose clicks are needed, as settings: the others may be counted later */
  readonly count?: readonly string[];
  /** steps that were left open */
  readonly passed?: ReadonlySet<string>;
}

/** The steps that make sense after what the draft says already, those it answers included. */
export function newSteps(draft: Draft, wanted: Wanted = {}): NewStep[] {
  const steps = allSteps(draft, wanted);
  return wanted.first === true ? steps.filter(({ later }) => later !== true) : steps;
}

function allSteps(draft: Draft, wanted: Wanted): NewStep[] {
  const { own = [], all = false } = wanted;
  const rigid = valueAt(draft, 'kind') === 'hardtail';
  const { text, listed } = makersOf(wanted.asks);
  const more = (...steps: NewStep[]): NewStep[] => (all ? steps : []);
  return [
    needed(text('id')),
    ...more(text('name')),
    needed(listed('kind', BIKE_KINDS)),
    ...later(needed(listed('units.pressure', unitsOf('pressure'))), text('rider-mass')),
    ...more(text('bike-mass'), text('geometry.wheelbase'), text('geometry.head-angle')),
    ...ENDS.flatMap((end) => {
      const rows = later(
        ...own.filter((one) => one.end === end).flatMap((one) => ownSteps(draft, one)),
        text('tyre.now', { end }),
        text('tyre.wanted', { end }),
      );
      return rigid && end === 'rear' ? rows : endSteps(draft, end, rows, wanted);
    }),
    ...more(text('cockpit.spacers-under-stem'), text('cockpit.lever-angle')),
    ...later(...own.filter((one) => one.end === undefined).flatMap((one) => ownSteps(draft, one))),
  ];
}

function later(...steps: NewStep[]): NewStep[] {
  return steps.map((step) => ({ ...step, later: true }));
}

/** One that may not be left open. */
function needed({ choices, ...step }: NewStep): NewStep {
  const known = choices?.filter(({ value }) => value !== undefined);
  return { ...step, needed: true, ...(known === undefined ? {} : { choices: known }) };
}

function endSteps(draft: Draft, end: End, rows: readonly NewStep[], wanted: Wanted): NewStep[] {
  const { text, listed } = makersOf(wanted.asks);
  const at = (key: string): NewStep => text(key, { end });
  const more = (...keys: string[]): NewStep[] => (wanted.all === true ? keys.map(at) : []);
  const spring =
    valueAt(draft, `${end}.spring.kind`) === 'coil'
      ? [at('spring.rate'), at('spring.preload'), ...more('spring.preload-max')]
      : [
          at('spring.pressure'),
          ...more('spring.min', 'spring.max', 'spring.maker', 'spring.spacers', 'spring.spacers-max'),
        ];
  // Where the ring moves on the shock, the wheel's travel is not what it is a share of.
  const sag = text('sag.measured', { end, asked: end === 'rear' ? 'sag.measured.rear' : 'sag.measured' });
  return [
    ...later(at('travel'), ...(end === 'rear' ? more('stroke') : [])),
    needed(listed('spring.kind', ['air', 'coil'], { end })),
    ...later(...spring, sag, at('sag.wanted')),
    ...SIDES.flatMap(({ side, circuits }) => knobSteps(draft, end, side, circuits, wanted)),
    ...rows,
  ];
}

/** Which knobs a side of a damper has, in one question; then how each is set, as far as anybody knows. */
function knobSteps(
  draft: Draft,
  end: End,
  side: Side,
  circuits: readonly Circuit[],
  { asks, all = false, passed = new Set(), count: only }: Wanted,
): NewStep[] {
  const { text, listed } = makersOf(asks);
  const which: NewStep = {
    ...text(side, { end, side, asked: 'knobs' }),
    choices: [
      { name: 'one knob', value: uncountedKnobs('one') },
      { name: 'two knobs: low- and high-speed', value: uncountedKnobs('two') },
      { name: 'none', value: uncountedKnobs('none') },
      NOT_SURE,
    ],
  };
  const there = circuits.filter((circuit) => isMap(valueAt(draft, `${end}.${circuit}`)));
  return [
    which,
    ...there.flatMap((circuit): NewStep[] => {
      const name = there.length === 1 ? `${end} ${side}` : `${end} ${DAMPER[circuit].words}`;
      const about = (asked: string): About => ({ end, name, asked });
      const wanted = only === undefined || only.includes(`${end}.${circuit}`);
      return (wanted ? (...steps: NewStep[]) => steps : later)(
        text(`${circuit}.now`, about('now')),
        // Who did not count may still have seen whether it is open or closed.
        passed.has(`${end}.${circuit}.now`)
          ? listed(`${circuit}.near`, PLACES, about('near'))
          : text(`${circuit}.clicks`, about('clicks')),
        ...(all ? later(text(`${circuit}.maker`, about('maker'))) : []),
      );
    }),
  ];
}

/** So many knobs of one side, none of them counted, in the file form. */
export function uncountedKnobs(count: KnobCount): Draft {
  const knob = { clicks: UNCOUNTED };
  return { low: count === 'none' ? 'none' : knob, high: count === 'two' ? knob : 'none' };
}

/** How many knobs a side of a damper has. */
export type KnobCount = 'none' | 'one' | 'two';

/** A setting that a pack added. */
function ownSteps(draft: Draft, own: OwnSetting): NewStep[] {
  const path = own.end === undefined ? own.key : `${own.end}.${own.key}`;
  if (own.unit === 'positions')
    return [
      {
        path,
        ask: `${capital(own.words)}: which position?`,
        help: own.find,
        // One that has more positions, or fewer, is told as which of how many.
        ...((own.positions ?? []).length > 2 ? { numbers: '2/5' } : {}),
        choices: [
          ...positionNames(own).map(({ value, name }) => ({ name, value: value as unknown })),
          { name: 'the bike has none', value: 'none' },
          NOT_SURE,
        ],
        needed: false,
      },
    ];
  const step = (key: string, ask: string, help?: string): NewStep => ({
    path: `${path}.${key}`,
    ask,
    needed: false,
    ...(help === undefined ? {} : { help }),
  });
  if (own.unit !== 'clicks') return [step('now', `The ${own.words} now, ${own.unit}`, own.find)];
  const range = step(
    'clicks',
    `The ${own.words}: clicks from fully closed to fully open`,
    'Return: no such knob; unknown: not counted',
  );
  if (valueAt(draft, range.path) === undefined) return [range];
  return [
    range,
    step('now', `${own.words}: clicks out from fully closed`, own.find),
    step('maker', `${own.words}: recommended clicks from closed`),
  ];
}

/** What its positions are called where one is picked: of three the middle one is all that is neither of the others. */
export function positionNames({
  positions = [],
}: OwnSetting): { readonly value: string; readonly name: string }[] {
  const isThree = positions.length === 3;
  return positions.map((value, i) => ({
    value,
    name: isThree && i === 1 ? `${value}, or anywhere between` : value,
  }));
}

/** What a step is about, and the key of its sentence where that is not the end of its path. */
interface About {
  readonly end?: End;
  readonly side?: Side;
  readonly name?: string;
  readonly asked?: string;
}

const NOT_SURE: Choice = { name: 'not sure', value: undefined };

/** What makes a step out of the end of its path: one for a text, and one for a closed list whose names are its values. */
function makersOf(asks: SheetAsks | undefined): {
  readonly text: (key: string, about?: About) => NewStep;
  readonly listed: (key: string, values: readonly string[], about?: About) => NewStep;
} {
  const text = (key: string, { asked = key, ...about }: About = {}): NewStep => {
    const path = about.end === undefined ? key : `${about.end}.${key}`;
    const { ask = path.replaceAll('.', ' '), help } = asks?.[asked] ?? {};
    const filled = ask.replaceAll(
      /\{(end|side|name)\}/g,
      (_, name: 'end' | 'side' | 'name') => about[name] ?? '',
    );
    return { path, ask: capital(filled), needed: false, ...(help === undefined ? {} : { help }) };
  };
  return {
    text,
    listed: (key, values, about) => ({
      ...text(key, about),
      // `cross country`, and still `e-bike`.
      choices: [...values.map((value) => ({ name: value.replace(/(?<=\w\w)-/, ' '), value })), NOT_SURE],
    }),
  };
}
