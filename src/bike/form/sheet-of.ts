/**
 * What a bike sheet in its file form means: the sheet in SI, its parts compared with each other. Data that has the form is
 * taken as it is; of data that has not, what is sound is, so that all that is wrong is told at once.
 */
import { defined } from '../../form/plain-data.ts';
import type { Sound } from '../../form/checked.ts';
import { atMost, type PathProblem } from '../../form/problem.ts';
import type { OwnSetting } from '../own-setting.ts';
import { ENDS, type BikeSheet, type End, type EndSheet, type UnitChoice } from '../sheet.ts';
import { DEFAULT_UNITS } from '../units.ts';
import { endOf, rigidEndOf, RIGID_END } from './end-of.ts';
import { ownOf } from './knobs-of.ts';
import { LIMITS } from './limits.ts';
import { Place, textOf } from './place.ts';
import type { SheetFile } from './schema.ts';

/** Kinds of bike without a suspension at an end. */
const RIGID: Readonly<Partial<Record<string, End>>> = { hardtail: 'rear' };

/** An end as it is where a kind of bike has no suspension there; undefined where it has. */
export function rigidEnd(kind: string, end: End): EndSheet | undefined {
  return RIGID[kind] === end ? RIGID_END : undefined;
}

export interface ReadSheet {
  /** absent when any error was found; warnings alone leave it */
  readonly sheet?: BikeSheet;
  readonly problems: readonly PathProblem[];
}

/** @param own the settings that rule packs in use add to the table */
export function sheetOf(file: Sound<SheetFile>, own: readonly OwnSetting[]): ReadSheet {
  const problems: PathProblem[] = [];
  const said = Object.entries(file.units ?? {}).filter(([, unit]) => unit !== undefined && unit !== null);
  const units = { ...DEFAULT_UNITS, ...(Object.fromEntries(said) as Partial<UnitChoice>) };
  const top = new Place([], units, problems);
  const of = (end: End | undefined): OwnSetting[] => own.filter((one) => one.end === end);
  const { id, kind, geometry, cockpit } = file;
  const [front, rear] = ENDS.map((end) => {
    const part = file[end] ?? undefined;
    const rigid = kind !== undefined && rigidEnd(kind, end) !== undefined;
    if (rigid) return part === undefined ? RIGID_END : rigidEndOf(part, top.below(end), kind, of(end));
    if (part !== undefined) return endOf(part, top.below(end), end, of(end));
    // The front the form has asked for already; the rear is asked for where the kind is wrong too, all at once.
    if (end === 'rear' && (file.rear === null || !Object.hasOwn(file, 'rear')))
      top.missing(end, `Write ${end}: with travel, spring, rebound and compression below it.`);
    return undefined;
  });
  const { wheelbase } = geometry ?? {};
  const spacers = cockpit?.['spacers-under-stem'];
  const sheet = {
    name: textOf(file.name),
    units,
    riderMass: top.quantity('rider-mass', file['rider-mass'], 'mass', LIMITS.riderMass),
    bikeMass: top.quantity('bike-mass', file['bike-mass'], 'mass', LIMITS.bikeMass),
    geometry:
      geometry &&
      defined<NonNullable<BikeSheet['geometry']>>({
        wheelbase: top.below('geometry').quantity('wheelbase', wheelbase, 'length', LIMITS.wheelbase),
        headAngle: geometry['head-angle'] ?? undefined,
      }),
    cockpit:
      cockpit &&
      defined<NonNullable<BikeSheet['cockpit']>>({
        spacersUnderStem: top
          .below('cockpit')
          .quantity('spacers-under-stem', spacers, 'length', LIMITS.stemSpacers),
        leverAngle: cockpit['lever-angle'] ?? undefined,
      }),
    changed: changedOf(file.changed ?? undefined, top),
    own: ownOf(file, top, of(undefined)),
    settings: own.length === 0 ? undefined : own,
    note: textOf(file.note),
  };
  const good = problems.every((p) => p.severity !== 'error');
  if (!good || id === undefined || kind === undefined || front === undefined || rear === undefined)
    return { problems: atMost(problems) };
  return {
    sheet: defined<BikeSheet>({
      ...sheet,
      geometry: sheet.geometry ?? undefined,
      cockpit: sheet.cockpit ?? undefined,
      id: String(id),
      kind,
      ends: { front, rear },
    }),
    problems: atMost(problems),
  };
}

function changedOf(list: Sound<SheetFile>['changed'], top: Place): BikeSheet['changed'] {
  const changed = list?.flatMap((entry, i) => {
    const what = textOf(entry?.what);
    const when = textOf(entry?.when);
    if (when !== undefined && !isDate(when))
      top
        .below('changed', i)
        .wrong(['when'], `when: ${when} is not a date.`, 'Write year-month-day: 2026-04-01.', 'warning');
    return what === undefined ? [] : [defined<{ what: string; when?: string }>({ what, when })];
  });
  // Newest first; a list with an undated entry stays as it was written, which is the best guess there is.
  return changed?.every((c) => c.when !== undefined && isDate(c.when)) === true
    ? changed.sort((a, b) => (a.when! < b.when! ? 1 : a.when! > b.when! ? -1 : 0))
    : changed;
}

/** A day of the calendar, as ISO 8601 writes it. */
function isDate(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}
