/** What is asked to write a new bike sheet, in the order in which a mechanic goes round the bike. */
import { capital } from '../../form/capital.ts';
import { isMap } from '../../form/is-map.ts';
import { DAMPER, SIDES, type Circuit, type Side } from '../circuits.ts';
import type { OwnSetting } from '../own-setting.ts';
import { SHEET_FORMAT, UNCOUNTED } from './limits.ts';
import { readSheet } from './read.ts';
import { BIKE_KINDS, ENDS, PLACES, type End } from '../sheet.ts';
import type { PathProblem } from '../../form/problem.ts';
import { unitsOf } from '../units.ts';

/** The file form of a sheet as far as it goes. */
export type Draft = Record<string, unknown>;

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
}

interface Choice {
  readonly name: string;
  /** in the file form; undefined leaves it open */
  readonly value: unknown;
}

export interface Wanted {
  /** the settings that packs in use add */
  readonly own?: readonly OwnSetting[];
  /** everything that a sheet can hold, not only what the next decision needs */
  readonly all?: boolean;
  /** steps that were left open */
  readonly passed?: ReadonlySet<string>;
}

/** The steps that make sense after what the draft says already, those it answers included. */
export function newSteps(
  draft: Draft,
  { own = [], all = false, passed = new Set() }: Wanted = {},
): NewStep[] {
  const rigid = valueAt(draft, 'kind') === 'hardtail';
  const more = (...steps: NewStep[]): NewStep[] => (all ? steps : []);
  return [
    text('id', 'Short name for the bike', true, 'for files and logs'),
    ...more(text('name', 'Full name, if it has one')),
    listed('kind', 'What kind of bike is it?', BIKE_KINDS, true),
    listed('units.pressure', 'Pressures in', unitsOf('pressure'), true),
    text('rider-mass', 'Rider mass, in full kit'),
    ...more(
      text('bike-mass', 'Bike mass'),
      text('geometry.wheelbase', 'Wheelbase', false, 'axle to axle'),
      text('geometry.head-angle', 'Head angle, degrees from horizontal'),
    ),
    ...ENDS.flatMap((end) => {
      const rows = own.filter((one) => one.end === end).flatMap((one) => ownSteps(draft, one));
      return rigid && end === 'rear'
        ? [...rows, ...tyreSteps(end)]
        : endSteps(draft, end, rows, { all, passed });
    }),
    ...more(
      text('cockpit.spacers-under-stem', 'Spacers under the stem'),
      text('cockpit.lever-angle', 'Brake levers, degrees below horizontal'),
    ),
    ...own.filter((one) => one.end === undefined).flatMap((one) => ownSteps(draft, one)),
  ];
}

function endSteps(
  draft: Draft,
  end: End,
  rows: readonly NewStep[],
  { all, passed }: Required<Pick<Wanted, 'all' | 'passed'>>,
): NewStep[] {
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
    text(
      at('travel'),
      `Wheel travel, ${end}`,
      false,
      "from the specification, or measured; Return: don't know",
    ),
    ...(end === 'rear' ? more(text(at('stroke'), 'Shock stroke')) : []),
    listed(at('spring.kind'), `${capital(end)} spring`, ['air', 'coil'], true),
    ...spring,
    text(at('sag.measured'), `Sag measured, ${end}`, false, 'in full kit, riding position'),
    text(at('sag.wanted'), `Target sag, ${end}`, false, "see the manufacturer's manual"),
    ...SIDES.flatMap(({ side, circuits }) => knobSteps(draft, end, side, circuits, { all, passed })),
    ...rows,
    ...tyreSteps(end),
  ];
}

/** Which knobs a side of a damper has, in one question; then how each is set, as far as anybody knows. */
function knobSteps(
  draft: Draft,
  end: End,
  side: Side,
  circuits: readonly Circuit[],
  { all, passed }: Required<Pick<Wanted, 'all' | 'passed'>>,
): NewStep[] {
  const knob = { clicks: UNCOUNTED };
  const which: NewStep = {
    path: `${end}.${side}`,
    ask: `${capital(end)} ${side} knobs`,
    needed: false,
    choices: [
      { name: 'one knob', value: { low: knob, high: 'none' } },
      { name: 'two knobs: low- and high-speed', value: { low: knob, high: knob } },
      { name: 'none', value: { low: 'none', high: 'none' } },
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
      return [
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
        ...(all ? [text(at('maker'), `${capital(name)}: recommended clicks from closed`)] : []),
      ];
    }),
  ];
}

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
  const choices = values.map((value) => ({ name: value.replace('-', ' '), value: value as unknown }));
  return {
    path,
    ask,
    needed,
    choices: needed ? choices : [...choices, { name: 'not sure', value: undefined }],
  };
}

/** How many steps there are at most, whatever is answered from here on; no answer makes it more. */
export function mostSteps(draft: Draft, wanted: Wanted = {}): number {
  const { passed = new Set() } = wanted;
  const asked = new Set<string>();
  let longest = draft;
  for (;;) {
    const steps = newSteps(longest, wanted);
    const open = steps.find(
      ({ path }) => !asked.has(path) && !passed.has(path) && valueAt(longest, path) === undefined,
    );
    if (open === undefined) return steps.length;
    asked.add(open.path);
    const here = longest;
    const ways = (open.choices?.map(({ value }) => value) ?? [1]).map((value) =>
      value === undefined ? here : withValueAt(here, open.path, value),
    );
    const length = (one: Draft): number => newSteps(one, wanted).length;
    longest = ways.reduce((most, one) => (length(one) > length(most) ? one : most), here);
  }
}

/** The first step that was neither answered nor passed over; what is said to be uncounted may still be counted. */
export function nextStep(draft: Draft, wanted: Wanted = {}): NewStep | undefined {
  return newSteps(draft, wanted).find(({ path }) => {
    const value = valueAt(draft, path);
    return wanted.passed?.has(path) !== true && (value === undefined || value === UNCOUNTED);
  });
}

export function emptyDraft(): Draft {
  return { bike: SHEET_FORMAT };
}

export function valueAt(draft: Draft, path: string): unknown {
  let here: unknown = draft;
  for (const key of path.split('.')) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined;
    here = (here as Draft)[key];
  }
  return here;
}

/** What a path of the file form looks like: `rear.rebound.low.clicks`. */
export const PATH = /^[a-z][a-z0-9-]*(?:\.[a-z][a-z0-9-]*)*$/;

/** The draft with a value put at a path; the draft itself stays as it is. */
export function withValueAt(draft: Draft, path: string, value: unknown): Draft {
  const [key, ...rest] = path.split('.') as [string, ...string[]];
  if (rest.length === 0) return { ...draft, [key]: value };
  const below = Object.hasOwn(draft, key) ? draft[key] : undefined;
  const map = typeof below === 'object' && below !== null && !Array.isArray(below) ? (below as Draft) : {};
  return { ...draft, [key]: withValueAt(map, rest.join('.'), value) };
}

/** What stands against the value at a path; what is still missing elsewhere does not count. */
export function problemsAt(draft: Draft, path: string, own: readonly OwnSetting[] = []): PathProblem[] {
  return readSheet(draft, own).problems.filter(({ path: at }) => {
    const name = at.join('.');
    return name === path || name.startsWith(`${path}.`);
  });
}
