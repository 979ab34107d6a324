/** What was told of a bike without a sheet, as a sheet whose numbers nobody said; its file form is in `said-schema.ts`. */
import { printable } from '../../form/text.ts';
import { applyChange } from '../apply.ts';
import type { Change } from '../change.ts';
import { SIDES, speedOf, type Circuit } from '../circuits.ts';
import { defined } from '../../form/plain-data.ts';
import type { Sound } from '../../form/checked.ts';
import type { PathProblem } from '../../form/problem.ts';
import { didYouMean } from '../../form/suggest.ts';
import { SHEET_FORMAT } from './limits.ts';
import { valueAt, withValueAt, type Draft } from './draft.ts';
import { countedPosition, type OwnPlace, type OwnSetting } from '../own-setting.ts';
import { ownsOf } from './knobs-of.ts';
import { Place } from './place.ts';
import type { SaidEndFile, SaidFile } from './said-schema.ts';
import { rigidEnd } from './sheet-of.ts';
import {
  ENDS,
  isRoughPlace,
  PLACES,
  type Adjuster,
  type BikeSheet,
  type End,
  type EndSheet,
} from '../sheet.ts';
import { DEFAULT_UNITS } from '../units.ts';
import { writeSheet } from './write.ts';

export interface ReadSaid {
  /** what can be asked about the bike; its numbers (travel, masses) stand for nothing */
  readonly bike?: BikeSheet;
  readonly problems: readonly PathProblem[];
}

/** An end of which nobody said anything. */
const UNSAID_END: EndSheet = { unsaid: true, travel: 0, spring: { kind: 'air' }, adjusters: {} };

/** A bike of which nobody said anything: whatever is asked about it, it may be there. */
export function unsaidBike(own: readonly OwnSetting[]): BikeSheet {
  return {
    id: 'unsaid',
    kind: 'trail',
    unsaidKind: true,
    units: DEFAULT_UNITS,
    ends: { front: UNSAID_END, rear: UNSAID_END },
    ...(own.length === 0 ? {} : { settings: own }),
  };
}

/** @param file what stands below `has:`, or the sound part of it */
export function saidOf(file: Sound<SaidFile>, own: readonly OwnSetting[]): ReadSaid {
  const problems: PathProblem[] = [];
  const top = new Place(['has'], DEFAULT_UNITS, problems);
  const of = (end: End | undefined): OwnSetting[] => own.filter((one) => one.end === end);
  const kind = file.kind ?? undefined;
  const [front, rear] = ENDS.map((end) => {
    const part = file[end] ?? undefined;
    const rigid = kind === undefined ? undefined : rigidEnd(kind, end);
    if (part !== undefined && rigid !== undefined)
      top.wrong(
        [end],
        `a ${kind} has no ${end} suspension, so there is nothing to say of it.`,
        `Take ${end}: out, or write another kind:.`,
      );
    return rigid ?? (part === undefined ? UNSAID_END : endOf(part, top.below(end), of(end)));
  });
  const bare = unsaidBike(own);
  const bike = defined<BikeSheet>({
    ...bare,
    kind: kind ?? bare.kind,
    unsaidKind: kind === undefined ? true : undefined,
    ends: { front: front!, rear: rear! },
    own: ownOf(file, top, of(undefined)),
  });
  return problems.length > 0 ? { problems } : { bike, problems };
}

function endOf(file: Sound<SaidEndFile>, f: Place, own: readonly OwnSetting[]): EndSheet {
  const spring = file.spring ?? undefined;
  return defined<EndSheet>({
    unsaidSpring: spring === undefined ? true : undefined,
    travel: 0,
    spring: { kind: spring ?? 'air' },
    adjusters: knobsOf(file),
    unsure: unsureOf(file),
    own: ownOf(file, f, own),
  });
}

/** The knobs of a side that may be there: not sure is not none. */
function unsureOf(file: Sound<SaidEndFile>): EndSheet['unsure'] {
  const unsure = SIDES.filter(({ side }) => file[side] === 'unsure').flatMap(({ circuits }) => circuits);
  return unsure.length === 0 ? undefined : unsure;
}

function knobsOf(file: Sound<SaidEndFile>): EndSheet['adjusters'] {
  const out: Partial<Record<Circuit, Adjuster>> = {};
  for (const { side, circuits } of SIDES) {
    const said = file[side] ?? undefined;
    if (typeof said === 'object') {
      for (const circuit of circuits) {
        const where = said[speedOf(circuit)] ?? undefined;
        if (where === 'knob') out[circuit] = {};
        if (isRoughPlace(where)) out[circuit] = { near: where };
      }
    } else if (isRoughPlace(said)) out[circuits[0]!] = { near: said };
    else {
      if (said === 'one' || said === 'two') out[circuits[0]!] = {};
      if (said === 'two') out[circuits[1]!] = {};
    }
  }
  return out;
}

function ownOf(file: object, f: Place, settings: readonly OwnSetting[]): BikeSheet['own'] {
  return ownsOf(file, settings, (own, said) => {
    if (typeof said !== 'string') return undefined;
    const places = own.unit === 'positions' ? (own.positions ?? []) : own.unit === 'clicks' ? PLACES : [];
    const words = ['none', 'knob', ...places];
    const counted = own.unit === 'positions' ? countedPosition(said, own) : undefined;
    if (counted !== undefined) return counted;
    if (words.includes(said)) return said === 'none' ? said : placeOf(own, said);
    f.wrong(
      [own.key],
      `${own.key} must be ${words.join(', ')}; found ${printable(said)}.`,
      didYouMean(said, words) || 'Choose one of these.',
    );
    return undefined;
  });
}

function placeOf(own: OwnSetting, said: string): OwnPlace {
  if (said === 'knob') return {};
  return isRoughPlace(said) && own.unit !== 'positions'
    ? { near: said }
    : { now: own.positions!.indexOf(said) };
}

/**
 * What was said, as the beginning of a sheet that can be kept: the rest is asked by `newSteps`.
 * @param said what stands below `has:`; a knob said not to be there is not asked for again
 */
export function draftOf(bike: BikeSheet, said: object = {}): Draft {
  const file = writeSheet(bike) as Draft;
  const ends = ENDS.flatMap((end) => {
    const part = bike.ends[end];
    if (part.unsaid === true || part.rigid === true) return [];
    const { travel: _, spring, ...rest } = file[end] as Draft;
    return [[end, part.unsaidSpring === true ? rest : { spring, ...rest }] as const];
  });
  const own = (bike.settings ?? []).flatMap(({ end, key }) =>
    end === undefined && file[key] !== undefined ? [[key, file[key]] as const] : [],
  );
  const kind = bike.unsaidKind === true ? {} : { kind: bike.kind };
  const begun: Draft = { bike: SHEET_FORMAT, ...kind, ...Object.fromEntries([...ends, ...own]) };
  return noKnobs(said as Draft).reduce((draft, path) => withValueAt(draft, path, 'none'), begun);
}

/** Places of the file form where somebody said that there is no knob: `front.compression.high`. */
export function noKnobs(said: Draft): string[] {
  return ENDS.flatMap((end) =>
    SIDES.flatMap(({ side, circuits }) => {
      const of = valueAt(said, `${end}.${side}`);
      const gone = (circuit: Circuit): boolean =>
        of === 'none' ||
        (of as Draft | undefined)?.[speedOf(circuit)] === 'none' ||
        (circuit === circuits[1] && typeof of === 'string' && of !== 'two' && of !== 'unsure');
      return circuits.filter(gone).map((circuit) => `${end}.${circuit}`);
    }),
  );
}

/** What was told of a bike, once something that stands at a named position was moved; as it was where nobody said where it stands. */
export function saidAfter(has: Said, change: Change, own: readonly OwnSetting[]): Said {
  const applied = applyChange(has.bike, change);
  const name = 'message' in applied ? undefined : applied.step.names?.[applied.step.to];
  if (name === undefined) return has;
  const raw = withValueAt(has.raw, change.setting, name);
  const { bike } = saidOf(raw, own);
  return bike === undefined ? has : { raw, bike };
}

interface Said {
  readonly raw: Draft;
  readonly bike: BikeSheet;
}
