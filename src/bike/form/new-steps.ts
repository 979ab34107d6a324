/** What is asked to write a new bike sheet, in the order in which a mechanic goes round the bike. */
import { capital } from '../../form/capital.ts';
import { isMap } from '../../form/is-map.ts';
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

export interface Wanted {
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

function allSteps(draft: Draft, { own = [], all = false, passed = new Set(), count }: Wanted): NewStep[] {
  const rigid = valueAt(draft, 'kind') === 'hardtail';
  const more = (...steps: NewStep[]): NewStep[] => (all ? steps : []);
  return [
    text('id', 'Short name for the bike', true, 'for files and logs'),
    ...more(text('name', 'Full name, if it has one')),
    listed('kind', 'What kind of bike is it?', BIKE_KINDS, true),
    ...later(
      listed('units.pressure', 'Pressures in', unitsOf('pressure'), true),
      text('rider-mass', 'Rider weight, in full kit', false, 'a plain number, or with its unit: 185lb'),
    ),
    ...more(
      text('bike-mass', 'Bike weight'),
      text('geometry.wheelbase', 'Wheelbase', false, 'axle to axle'),
      text('geometry.head-angle', 'Head angle, degrees from horizontal'),
    ),
    ...ENDS.flatMap((end) => {
      const rows = later(
        ...own.filter((one) => one.end === end).flatMap((one) => ownSteps(draft, one)),
        ...tyreSteps(end),
      );
      return rigid && end === 'rear' ? rows : endSteps(draft, end, rows, { all, passed, count });
    }),
    ...more(
      text('cockpit.spacers-under-stem', 'Spacers under the stem'),
      text('cockpit.lever-angle', 'Brake levers, degrees below horizontal'),
    ),
    ...later(...own.filter((one) => one.end === undefined).flatMap((one) => ownSteps(draft, one))),
  ];
}

function later(...steps: NewStep[]): NewStep[] {
  return steps.map((step) => ({ ...step, later: true }));
}

/** What of the wishes an end's steps hang on. */
interface Wish {
  readonly all: boolean;
  readonly passed: ReadonlySet<string>;
  readonly count: readonly string[] | undefined;
}

function endSteps(draft: Draft, end: End, rows: readonly NewStep[], wish: Wish): NewStep[] {
  const { all } = wish;
  const at = (path: string): string => `${end}.${path}`;
  const more = (...steps: NewStep[]): NewStep[] => (all ? steps : []);
  const spring: NewStep[] =
    valueAt(draft, at('spring.kind')) === 'coil'
      ? [
          text(at('spring.rate'), `${capital(end)} coil rate`, false, 'printed on the coil'),
          text(
            at('spring.preload'),
            `${capital(end)} preload`,
            false,
            'how far the collar squeezes the coil',
          ),
          ...more(text(at('spring.preload-max'), `${capital(end)} maximum preload (manufacturer)`)),
        ]
      : [
          text(at('spring.pressure'), `${capital(end)} air pressure`, false, 'read with a shock pump'),
          ...more(
            text(at('spring.min'), `${capital(end)} minimum pressure (manufacturer)`),
            text(at('spring.max'), `${capital(end)} maximum pressure (manufacturer)`),
            text(at('spring.maker'), `${capital(end)} recommended pressure for this rider`),
            text(at('spring.spacers'), `Volume spacers fitted, ${end}`),
            text(at('spring.spacers-max'), `Volume spacers that fit at most, ${end}`),
          ),
        ];
  return [
    ...later(
      text(
        at('travel'),
        `Wheel travel, ${end}`,
        false,
        "from the specification, or measured; Return: don't know",
      ),
      ...(end === 'rear' ? more(text(at('stroke'), 'Shock stroke')) : []),
    ),
    listed(at('spring.kind'), `${capital(end)} spring`, ['air', 'coil'], true),
    ...later(
      ...spring,
      text(
        at('sag.measured'),
        `Sag measured, ${end}`,
        false,
        // Where the ring moves on the shock, the wheel's travel is not what it is a share of.
        end === 'rear'
          ? "ring over the shock's stroke; in full kit, riding position"
          : 'in full kit, riding position',
      ),
      text(at('sag.wanted'), `Target sag, ${end}`, false, "see the manufacturer's manual"),
    ),
    ...SIDES.flatMap(({ side, circuits }) => knobSteps(draft, end, side, circuits, wish)),
    ...rows,
  ];
}

/** Which knobs a side of a damper has, in one question; then how each is set, as far as anybody knows. */
function knobSteps(
  draft: Draft,
  end: End,
  side: Side,
  circuits: readonly Circuit[],
  { all, passed, count: only }: Wish,
): NewStep[] {
  const which: NewStep = {
    path: `${end}.${side}`,
    ask: `${capital(end)} ${side} knobs`,
    needed: false,
    choices: [
      { name: 'one knob', value: uncountedKnobs('one') },
      { name: 'two knobs: low- and high-speed', value: uncountedKnobs('two') },
      { name: 'none', value: uncountedKnobs('none') },
      { name: 'not sure', value: undefined },
    ],
  };
  const there = circuits.filter((circuit) => isMap(valueAt(draft, `${end}.${circuit}`)));
  const count = 'turn it gently clockwise to the stop, counting; then turn it back';
  return [
    which,
    ...there.flatMap((circuit): NewStep[] => {
      const at = (key: string): string => `${end}.${circuit}.${key}`;
      const name = there.length === 1 ? `${end} ${side}` : `${end} ${DAMPER[circuit].words}`;
      const wanted = only === undefined || only.includes(`${end}.${circuit}`);
      return (wanted ? (...steps: NewStep[]) => steps : later)(
        text(
          at('now'),
          `${capital(name)}: clicks out from fully closed`,
          false,
          `${count}; Return: not counted`,
        ),
        // Who did not count may still have seen whether it is open or closed.
        ...(passed.has(at('now'))
          ? [listed(at('near'), `${capital(name)}: roughly where?`, PLACES, false)]
          : [
              text(
                at('clicks'),
                `${capital(name)}: clicks from fully closed to fully open`,
                false,
                'Return: not counted',
              ),
            ]),
        ...(all ? later(text(at('maker'), `${capital(name)}: recommended clicks from closed`)) : []),
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

function tyreSteps(end: End): NewStep[] {
  return [
    text(`${end}.tyre.now`, `Tyre pressure, ${end}`),
    text(`${end}.tyre.wanted`, `Target tyre pressure, ${end}`),
  ];
}

/** A setting that a pack added. */
function ownSteps(draft: Draft, own: OwnSetting): NewStep[] {
  const path = own.end === undefined ? own.key : `${own.end}.${own.key}`;
  if (own.unit === 'positions')
    return [
      {
        path,
        ask: `${capital(own.words)}: which position?`,
        help: own.find,
        choices: [
          ...(own.positions ?? []).map((value) => ({ name: value, value: value as unknown })),
          { name: 'the bike has none', value: 'none' },
          { name: 'not sure', value: undefined },
        ],
        needed: false,
      },
    ];
  if (own.unit !== 'clicks')
    return [text(`${path}.now`, `The ${own.words} now, ${own.unit}`, false, own.find)];
  const range = text(
    `${path}.clicks`,
    `The ${own.words}: clicks from fully closed to fully open`,
    false,
    'Return: no such knob; unknown: not counted',
  );
  if (valueAt(draft, `${path}.clicks`) === undefined) return [range];
  return [
    range,
    text(`${path}.now`, `${own.words}: clicks out from fully closed`, false, own.find),
    text(`${path}.maker`, `${own.words}: recommended clicks from closed`),
  ];
}

function text(path: string, ask: string, needed = false, help?: string): NewStep {
  return { path, ask, needed, ...(help === undefined ? {} : { help }) };
}

/** A closed list whose names are its values; one that may be left open says so. */
function listed(path: string, ask: string, values: readonly string[], needed: boolean): NewStep {
  // `cross country`, and still `e-bike`.
  const choices = values.map((value) => ({
    name: value.replace(/(?<=\w\w)-/, ' '),
    value: value as unknown,
  }));
  return {
    path,
    ask,
    needed,
    choices: needed ? choices : [...choices, { name: 'not sure', value: undefined }],
  };
}
