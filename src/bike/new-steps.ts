/** What is asked to write a new bike sheet, in the order in which a mechanic goes round the bike. */
import { CIRCUITS, DAMPER } from './circuits.ts';
import type { OwnSetting } from './own-setting.ts';
import { readSheet, SHEET_FORMAT } from './read.ts';
import { BIKE_KINDS, ENDS, type End } from './sheet.ts';
import type { SheetProblem } from './fields.ts';
import { unitsOf } from './units.ts';

/** The file form of a sheet as far as it goes. */
export type Draft = Record<string, unknown>;

export interface NewStep {
  /** in the file form: `front.spring.pressure` */
  readonly path: string;
  readonly ask: string;
  /** how to find it, in a few words for brackets */
  readonly help?: string;
  /** a closed list; absent for a text */
  readonly choices?: readonly string[];
  /** may not be left open */
  readonly needed: boolean;
}

/**
 * The steps that make sense after what the draft says already, those it answers included.
 * @param own the settings that packs in use add
 */
export function newSteps(draft: Draft, own: readonly OwnSetting[] = []): NewStep[] {
  const rigid = valueAt(draft, 'kind') === 'hardtail';
  const steps: NewStep[] = [
    text('id', 'Short name of the bike, for files and logs', true),
    text('name', 'Its full name, if it has one'),
    { path: 'kind', ask: 'What kind of bike is it?', choices: BIKE_KINDS, needed: true },
    { path: 'units.pressure', ask: 'Pressures in', choices: unitsOf('pressure'), needed: true },
    text('rider-mass', "The rider's mass with all kit on"),
    text('bike-mass', "The bike's mass"),
    text('geometry.wheelbase', 'Wheelbase, axle to axle'),
    text('geometry.head-angle', 'Head angle in degrees from horizontal'),
    ...ENDS.flatMap((end) => {
      const rows = own.filter((one) => one.end === end).flatMap((one) => ownSteps(draft, one));
      return rigid && end === 'rear' ? [...rows, ...tyreSteps(end)] : endSteps(draft, end, rows);
    }),
    text('cockpit.spacers-under-stem', 'Spacers under the stem'),
    text('cockpit.lever-angle', 'Brake levers, degrees below horizontal'),
    ...own.filter((one) => one.end === undefined).flatMap((one) => ownSteps(draft, one)),
  ];
  return steps;
}

function endSteps(draft: Draft, end: End, rows: readonly NewStep[]): NewStep[] {
  const at = (path: string): string => `${end}.${path}`;
  const kind = valueAt(draft, at('spring.kind'));
  const spring: NewStep[] =
    kind === 'coil'
      ? [
          text(at('spring.rate'), `Rate of the ${end} coil`, false, 'printed on the coil'),
          text(at('spring.preload'), `Preload of the ${end} coil: how far the collar squeezes it`),
          text(at('spring.preload-max'), "The maker's most preload"),
        ]
      : [
          text(at('spring.pressure'), `Pressure in the ${end} air spring now`, false, 'by a shock pump'),
          text(at('spring.min'), `The maker's least pressure, ${end}`),
          text(at('spring.max'), `The maker's most pressure, ${end}`),
          text(at('spring.maker'), `Pressure on the maker's starting sheet for this rider, ${end}`),
          text(at('spring.spacers'), `Volume spacers fitted, ${end}`),
          text(at('spring.spacers-max'), `Volume spacers that fit at most, ${end}`),
        ];
  const knobs = CIRCUITS.flatMap((circuit): NewStep[] => {
    const range = text(
      at(`${circuit}.clicks`),
      `${end}, ${DAMPER[circuit].ask}: clicks from fully closed to fully open`,
      false,
      'empty when there is no such knob, unknown when nobody counted',
    );
    if (valueAt(draft, at(`${circuit}.clicks`)) === undefined) return [range];
    return [
      range,
      text(
        at(`${circuit}.now`),
        'Where it stands now, in clicks from closed',
        false,
        'turn it gently to closed, count, turn it back',
      ),
      text(at(`${circuit}.maker`), "The maker's starting clicks, from closed"),
    ];
  });
  return [
    text(at('travel'), `Wheel travel, ${end}`, true),
    ...(end === 'rear' ? [text(at('stroke'), 'Stroke of the shock')] : []),
    {
      path: at('spring.kind'),
      ask: `Which spring is in the ${end}?`,
      choices: ['air', 'coil'],
      needed: true,
    },
    ...spring,
    text(at('sag.measured'), `Sag measured, ${end}`, false, 'kit on, riding position'),
    text(at('sag.wanted'), `Sag wanted, ${end}`, false, "see the maker's manual"),
    ...knobs,
    ...rows,
    ...tyreSteps(end),
  ];
}

function tyreSteps(end: End): NewStep[] {
  return [
    text(`${end}.tyre.now`, `Tyre pressure now, ${end}`),
    text(`${end}.tyre.wanted`, `Tyre pressure wanted, ${end}`),
  ];
}

/** A setting that a pack added. */
function ownSteps(draft: Draft, own: OwnSetting): NewStep[] {
  const path = own.end === undefined ? own.key : `${own.end}.${own.key}`;
  if (own.unit === 'positions')
    return [
      {
        path,
        ask: `Where does the ${own.words} stand?`,
        help: own.find,
        choices: [...(own.positions ?? []), 'none'],
        needed: false,
      },
    ];
  if (own.unit !== 'clicks')
    return [text(`${path}.now`, `The ${own.words} now, ${own.unit}`, false, own.find)];
  const range = text(
    `${path}.clicks`,
    `The ${own.words}: clicks from fully closed to fully open`,
    false,
    'empty when there is no such knob, unknown when nobody counted',
  );
  if (valueAt(draft, `${path}.clicks`) === undefined) return [range];
  return [
    range,
    text(`${path}.now`, 'Where it stands now, in clicks from closed', false, own.find),
    text(`${path}.maker`, "The maker's starting clicks, from closed"),
  ];
}

function text(path: string, ask: string, needed = false, help?: string): NewStep {
  return { path, ask, needed, ...(help === undefined ? {} : { help }) };
}

/** The first step that was neither answered nor passed over. */
export function nextStep(
  draft: Draft,
  passed: ReadonlySet<string>,
  own: readonly OwnSetting[] = [],
): NewStep | undefined {
  return newSteps(draft, own).find(({ path }) => !passed.has(path) && valueAt(draft, path) === undefined);
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
export function problemsAt(draft: Draft, path: string, own: readonly OwnSetting[] = []): SheetProblem[] {
  return readSheet(draft, own).problems.filter(({ path: at }) => {
    const name = at.join('.');
    return name === path || name.startsWith(`${path}.`);
  });
}
