/**
 * The file form of a bike sheet → the sheet in SI, with every problem at once.
 *
 *     bike: 1                       # format version
 *     id: park-bike
 *     name: the park bike
 *     kind: enduro                  # hardtail | cross-country | trail | enduro | downhill | e-bike
 *     units: { pressure: psi, mass: kg, rate: N/mm, length: mm }    # what a plain number means
 *     rider-mass: 84                # with kit
 *     bike-mass: 15.5
 *     geometry: { wheelbase: 1240, head-angle: 64.5 }
 *     front: ...                    # see read-end.ts
 *     rear: ...
 *     cockpit: { spacers-under-stem: 15, lever-angle: 30 }
 *     changed: [{ what: new bar, when: 2026-04-01 }]                # newest first
 *     note: anything else worth knowing
 *
 * A plain number is in the sheet's unit; any quantity may carry its own (`5.6 bar`). Sag and travel used are percentages.
 * Only `bike`, `id`, `kind`, and the `spring` of each end must be there; what nobody measured is left out. A
 * hardtail has no rear suspension: its `rear:` says the tyre, or is left out.
 */
import { defined } from '../defined.ts';
import type { PathProblem } from '../../form/problem.ts';
import { Fields } from './fields.ts';
import { LIMITS } from './limits.ts';
import type { OwnSetting } from '../own-setting.ts';
import { END_KEYS, readEnd, readRigidEnd, RIGID_END } from './read-end.ts';
import { readOwn } from './read-knobs.ts';
import { BIKE_KINDS, ENDS, type BikeSheet, type End, type EndSheet, type UnitChoice } from '../sheet.ts';
import { DEFAULT_UNITS, unitsOf } from '../units.ts';

export const SHEET_FORMAT = 1;
/** Kinds of bike without a suspension at an end. */
const RIGID: Readonly<Partial<Record<string, End>>> = { hardtail: 'rear' };

/** An end as it is where a kind of bike has no suspension there; undefined where it has. */
export function rigidEnd(kind: string, end: End): EndSheet | undefined {
  return RIGID[kind] === end ? RIGID_END : undefined;
}

const KEYS = [
  'bike',
  'id',
  'name',
  'kind',
  'units',
  'rider-mass',
  'bike-mass',
  'geometry',
  'front',
  'rear',
  'cockpit',
  'changed',
  'note',
];
/** Keys of a sheet and of its ends that no setting of a pack may have. */
export const RESERVED: ReadonlySet<string> = new Set([...KEYS, ...END_KEYS]);

export interface ReadSheet {
  /** absent when any error was found; warnings alone leave it */
  readonly sheet?: BikeSheet;
  readonly problems: readonly PathProblem[];
}

/**
 * Never throws.
 * @param raw what a YAML (core schema) or JSON reader gave
 * @param own the settings that rule packs in use add to the table
 */
export function readSheet(raw: unknown, own: readonly OwnSetting[] = []): ReadSheet {
  const problems: PathProblem[] = [];
  const of = (end: End | undefined): OwnSetting[] => own.filter((one) => one.end === end);
  const top = new Fields(raw, [], [...KEYS, ...of(undefined).map(({ key }) => key)], problems);
  // A newer format may mean anything: its keys are not worth a word each.
  if (!top.isMap || isNewer(top))
    return { problems: problems.filter((p) => p.path.length === 0 || p.path[0] === 'bike') };
  top.need('id', 'Give the bike a short name: id: park-bike.');
  top.need('kind', `Write kind: ${BIKE_KINDS.join(', ')}.`);
  const units = readUnits(top);
  const read = {
    id: top.text('id', 60),
    name: top.text('name'),
    kind: top.choice('kind', BIKE_KINDS),
    units,
    riderMass: top.quantity('rider-mass', 'mass', units, LIMITS.riderMass),
    bikeMass: top.quantity('bike-mass', 'mass', units, LIMITS.bikeMass),
    geometry: readGeometry(top, units),
    cockpit: readCockpit(top, units),
    changed: readChanged(top),
    own: readOwn(top, of(undefined)),
    settings: own.length === 0 ? undefined : own,
    note: top.text('note', 2000),
  };
  const { id, kind } = read;
  const [front, rear] = ENDS.map((end) =>
    kind !== undefined && rigidEnd(kind, end) !== undefined
      ? readRigidEnd(top, end, kind, units, of(end))
      : readEnd(top, end, units, of(end)),
  );
  const good = problems.every((p) => p.severity !== 'error');
  if (!good || id === undefined || kind === undefined || front === undefined || rear === undefined)
    return { problems };
  return { sheet: defined<BikeSheet>({ ...read, id, kind, ends: { front, rear } }), problems };
}

/** Checks the format version. @returns true when a later version of this program wrote the sheet */
function isNewer(top: Fields): boolean {
  const format = top.get('bike');
  if (format === SHEET_FORMAT) return false;
  if (typeof format === 'number' && format > SHEET_FORMAT) {
    top.wrong(
      ['bike'],
      `This bike sheet has format ${format}; this program reads format ${SHEET_FORMAT}.`,
      'Update earshot, or write the sheet again with this version.',
    );
    return true;
  }
  const write = `Write bike: ${SHEET_FORMAT} (the number of the format) on the first line.`;
  if (format === undefined) top.need('bike', write);
  else top.wrong(['bike'], 'bike must be the number of the format.', write);
  return false;
}

function readUnits(top: Fields): UnitChoice {
  const f = top.below('units', Object.keys(DEFAULT_UNITS));
  if (f === undefined) return DEFAULT_UNITS;
  const pick = <D extends keyof UnitChoice>(dimension: D): UnitChoice[D] =>
    f.choice(dimension, unitsOf(dimension)) ?? DEFAULT_UNITS[dimension];
  return { pressure: pick('pressure'), mass: pick('mass'), rate: pick('rate'), length: pick('length') };
}

function readGeometry(top: Fields, units: UnitChoice): BikeSheet['geometry'] {
  const f = top.below('geometry', ['wheelbase', 'head-angle']);
  if (f === undefined) return undefined;
  return defined({
    wheelbase: f.quantity('wheelbase', 'length', units, LIMITS.wheelbase),
    headAngle: f.number('head-angle', LIMITS.headAngle),
  });
}

function readCockpit(top: Fields, units: UnitChoice): BikeSheet['cockpit'] {
  const f = top.below('cockpit', ['spacers-under-stem', 'lever-angle']);
  if (f === undefined) return undefined;
  return defined({
    spacersUnderStem: f.quantity('spacers-under-stem', 'length', units, LIMITS.stemSpacers),
    leverAngle: f.number('lever-angle', LIMITS.leverAngle),
  });
}

function readChanged(top: Fields): BikeSheet['changed'] {
  const raw = top.get('changed');
  if (raw === undefined) return undefined;
  if (!Array.isArray(raw)) {
    top.wrong(['changed'], 'changed must be a list.', 'Write - { what: new bar, when: 2026-04-01 }.');
    return undefined;
  }
  const changed = raw.flatMap((entry: unknown, i) => {
    const f = new Fields(entry, ['changed', i], ['what', 'when'], top.problems);
    if (!f.isMap) return [];
    f.need('what', 'Write what: new bar.');
    const what = f.text('what');
    const when = f.text('when', 20);
    if (when !== undefined && !isDate(when))
      f.wrong(['when'], `when is ${when}, which is no date.`, 'Write year-month-day: 2026-04-01.', 'warning');
    return what === undefined ? [] : [defined<{ what: string; when?: string }>({ what, when })];
  });
  // Newest first; a list with an undated entry stays as it was written, which is the best guess there is.
  return changed.every((c) => c.when !== undefined && isDate(c.when))
    ? changed.sort((a, b) => (a.when! < b.when! ? 1 : a.when! > b.when! ? -1 : 0))
    : changed;
}

/** A day of the calendar, as ISO 8601 writes it. */
function isDate(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}
