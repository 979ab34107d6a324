/**
 * A bike as a rider tells of it, without a sheet: which springs, knobs and levers it has, and roughly where they are.
 *
 *     has:
 *       kind: hardtail                      # may be left out
 *       front:
 *         spring: air                       # air | coil
 *         rebound: one                      # none | one | two, or where the only one stands: middle
 *         compression: { low: open, high: none }        # knob | none | where it stands
 *         lever: closed                     # of a pack: knob | none | a position | where it stands
 *
 * Places are closed, nearly-closed, middle, nearly-open and open. An end that is told of has the damper knobs that are
 * named and no others; of an end that is left out, and of what packs add, nobody said whether it is there.
 */
import { sideKeys, SIDES, speedOf, type Circuit } from '../circuits.ts';
import { defined } from '../defined.ts';
import type { PathProblem } from '../../form/problem.ts';
import { Fields } from './fields.ts';
import type { Draft } from './new-steps.ts';
import type { OwnPlace, OwnSetting, OwnStand } from '../own-setting.ts';
import { rigidEnd, SHEET_FORMAT } from './read.ts';
import {
  BIKE_KINDS,
  ENDS,
  PLACES,
  type Adjuster,
  type BikeSheet,
  type End,
  type EndSheet,
  type RoughPlace,
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

/** Never throws. @param raw what stands below `has:` */
export function readSaid(raw: unknown, own: readonly OwnSetting[] = []): ReadSaid {
  const problems: PathProblem[] = [];
  const of = (end: End | undefined): OwnSetting[] => own.filter((one) => one.end === end);
  const top = new Fields(raw, ['has'], ['kind', ...ENDS, ...of(undefined).map(({ key }) => key)], problems);
  if (!top.isMap) return { problems };
  const kind = top.choice('kind', BIKE_KINDS);
  const [front, rear] = ENDS.map((end) => {
    const rigid = kind === undefined ? undefined : rigidEnd(kind, end);
    return rigid === undefined ? readEnd(top, end, of(end)) : readRigid(top, end, kind!, rigid);
  });
  if (problems.some((p) => p.severity === 'error')) return { problems };
  const bare = unsaidBike(own);
  const bike = defined<BikeSheet>({
    ...bare,
    kind: kind ?? bare.kind,
    unsaidKind: kind === undefined ? true : undefined,
    ends: { front: front!, rear: rear! },
    own: readOwn(top, of(undefined)),
  });
  return { bike, problems };
}

function readRigid(top: Fields, end: End, kind: string, rigid: EndSheet): EndSheet {
  if (top.get(end) !== undefined)
    top.wrong(
      [end],
      `A ${kind} has no ${end} suspension, so there is nothing to say of it.`,
      `Take ${end}: out, or write another kind:.`,
    );
  return rigid;
}

function readEnd(top: Fields, end: End, own: readonly OwnSetting[]): EndSheet {
  const f = top.below(end, ['spring', ...sideKeys, ...own.map(({ key }) => key)]);
  if (f === undefined) return UNSAID_END;
  const spring = f.choice('spring', ['air', 'coil'] as const);
  return defined<EndSheet>({
    unsaidSpring: spring === undefined ? true : undefined,
    travel: 0,
    spring: { kind: spring ?? 'air' },
    adjusters: readKnobs(f),
    own: readOwn(f, own),
  });
}

const HOW_MANY = ['none', 'one', 'two'] as const;
const WHERE = ['none', 'knob', ...PLACES] as const;

function readKnobs(f: Fields): EndSheet['adjusters'] {
  const out: Partial<Record<Circuit, Adjuster>> = {};
  for (const { side, circuits } of SIDES) {
    const raw = f.get(side);
    if (raw === undefined) continue;
    if (typeof raw !== 'object') {
      const said = f.choice(side, [...HOW_MANY, ...PLACES]);
      if (said === 'one' || said === 'two') out[circuits[0]!] = {};
      if (said === 'two') out[circuits[1]!] = {};
      if (isPlace(said)) out[circuits[0]!] = { near: said };
      continue;
    }
    const pair = f.below(side, circuits.map(speedOf));
    for (const circuit of circuits) {
      const said = pair?.choice(speedOf(circuit), WHERE);
      if (said === 'knob') out[circuit] = {};
      if (isPlace(said)) out[circuit] = { near: said };
    }
  }
  return out;
}

function readOwn(f: Fields, settings: readonly OwnSetting[]): Readonly<Record<string, OwnStand>> | undefined {
  const out: Record<string, OwnStand> = {};
  for (const own of settings) {
    const places = own.unit === 'positions' ? (own.positions ?? []) : own.unit === 'clicks' ? PLACES : [];
    const said = f.choice(own.key, ['none', 'knob', ...places]);
    if (said === undefined) continue;
    out[own.key] = said === 'none' ? said : placeOf(own, said);
  }
  return Object.keys(out).length === 0 ? undefined : out;
}

function placeOf(own: OwnSetting, said: string): OwnPlace {
  if (said === 'knob') return {};
  return own.unit === 'positions' ? { now: own.positions!.indexOf(said) } : { near: said as RoughPlace };
}

function isPlace(said: string | undefined): said is RoughPlace {
  return (PLACES as readonly string[]).includes(said ?? '');
}

/** What was said, as the beginning of a sheet that can be kept: the rest is asked by `newSteps`. */
export function draftOf(bike: BikeSheet): Draft {
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
  return { bike: SHEET_FORMAT, ...kind, ...Object.fromEntries([...ends, ...own]) };
}
