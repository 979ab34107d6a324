/**
 * One end of a bike sheet:
 *
 *     travel: 170                   # at the wheel
 *     stroke: 62.5                  # rear only: of the shock
 *     leverage: [3.0, 2.7, 2.4]     # rear only: wheel travel per shock travel at 0, 50 and 100 % of the travel
 *     spring: { kind: air, pressure: 82, min: 50, max: 120, maker: 80, spacers: 2, spacers-max: 5 }
 *     spring: { kind: coil, rate: 80, preload: 1, preload-max: 3, preload-per-turn: 1 }     # or this
 *     sag: { measured: 22%, wanted: 20%, rider: standing, kit: with, lever: open }     # the last three: how
 *     travel-used: 94%              # on the hardest recent run
 *     rebound: { low: { clicks: 16, now: 8, maker: 8, ratio: 1.07 }, high: none }      # see read-knobs.ts
 *     compression: { low: ..., high: ... }
 *     tyre: { now: 23 psi, wanted: 23 psi }
 *     curve: [{ circuit: rebound, speed: 0.1, force: 180, low: 8, high: 4 }]     # m/s and N, measured at these clicks
 *     note: ...
 *
 * `clicks` is how many the knob has from fully closed to fully open; `now` and `maker` are counted from fully closed.
 * A knob that is not there is left out, or written `none`. A hardtail's rear has a tyre and a note, nothing else.
 */
import { defined } from '../defined.ts';
import { Fields } from './fields.ts';
import { LIMITS } from './limits.ts';
import { sideKeys } from '../circuits.ts';
import type { OwnSetting } from '../own-setting.ts';
import { readAdjusters, readOwn } from './read-knobs.ts';
import { readSpring } from './read-spring.ts';
import type { CurvePoint, End, EndSheet, SagBasis, UnitChoice } from '../sheet.ts';

export const END_KEYS: readonly string[] = [
  'travel',
  'stroke',
  'leverage',
  'spring',
  'sag',
  'travel-used',
  ...sideKeys,
  'tyre',
  'curve',
  'note',
];

/**
 * @param own the settings of this end that packs add
 * @returns undefined when what every end needs could not be read; the problems are told in `top`
 */
export function readEnd(
  top: Fields,
  end: End,
  units: UnitChoice,
  own: readonly OwnSetting[] = [],
): EndSheet | undefined {
  top.need(end, `Write ${end}: with travel, spring, rebound and compression below it.`);
  const f = top.below(end, [...END_KEYS, ...own.map(({ key }) => key)]);
  if (f === undefined) return undefined;
  const travel = f.quantity('travel', 'length', units, LIMITS.travel);
  const spring = readSpring(f, units);
  const sag = f.below('sag', ['measured', 'wanted', ...Object.keys(BASIS)]);
  const adjusters = readAdjusters(f);
  const rest = {
    ...(end === 'rear' ? readLinkage(f, units, travel) : noLinkage(f)),
    sagMeasured: sag?.share('measured', LIMITS.sag),
    sagWanted: sag?.share('wanted', LIMITS.sag),
    sagBasis: sag && readBasis(sag),
    travelUsed: f.share('travel-used', LIMITS.travelUsed),
    adjusters,
    own: readOwn(f, own),
    tyre: readTyre(f, units),
    curve: readCurve(f, adjusters),
    note: f.text('note', 2000),
  };
  return spring === undefined ? undefined : defined<EndSheet>({ ...rest, travel: travel ?? 0, spring });
}

/**
 * An end without suspension: its tyre, and what packs add to any end.
 * @param kind of the bike, for messages
 */
export function readRigidEnd(
  top: Fields,
  end: End,
  kind: string,
  units: UnitChoice,
  own: readonly OwnSetting[] = [],
): EndSheet | undefined {
  const rigid = RIGID_END;
  if (top.get(end) === undefined) return rigid;
  const all = [...END_KEYS, ...own.map(({ key }) => key)];
  const f = top.below(end, all);
  if (f === undefined) return undefined;
  for (const key of END_KEYS.filter((one) => one !== 'tyre' && one !== 'note'))
    if (f.get(key) !== undefined && f.get(key) !== 'none')
      f.wrong(
        [key],
        `${f.name}: a ${kind} has no ${end} suspension, so it has no ${key} there.`,
        `Take ${key}: out, or write another kind: of bike.`,
      );
  return defined<EndSheet>({
    ...rigid,
    own: readOwn(f, own),
    tyre: readTyre(f, units),
    note: f.text('note', 2000),
  });
}

export const RIGID_END: EndSheet = { rigid: true, travel: 0, spring: { kind: 'air' }, adjusters: {} };

export const BASIS = {
  rider: ['standing', 'seated'],
  kit: ['with', 'without'],
  lever: ['open', 'closed'],
} as const satisfies { [K in keyof SagBasis]: readonly SagBasis[K][] };

function readBasis(sag: Fields): SagBasis | undefined {
  const basis = defined<SagBasis>({
    rider: sag.choice('rider', BASIS.rider),
    kit: sag.choice('kit', BASIS.kit),
    lever: sag.choice('lever', BASIS.lever),
  });
  return Object.keys(basis).length === 0 ? undefined : basis;
}

function readTyre(f: Fields, units: UnitChoice): EndSheet['tyre'] | undefined {
  const tyre = f.below('tyre', ['now', 'wanted']);
  return (
    tyre &&
    defined<{ now?: number; wanted?: number }>({
      now: tyre.quantity('now', 'pressure', units, LIMITS.tyrePressure),
      wanted: tyre.quantity('wanted', 'pressure', units, LIMITS.tyrePressure),
    })
  );
}

function readLinkage(
  f: Fields,
  units: UnitChoice,
  travel: number | undefined,
): { stroke: number | undefined; leverage: EndSheet['leverage'] | undefined } {
  const stroke = f.quantity('stroke', 'length', units, LIMITS.stroke);
  if (stroke !== undefined && travel !== undefined && stroke > travel)
    f.wrong(
      ['stroke'],
      `${f.name}: the shock stroke is longer than the wheel travel.`,
      'Swap the two, or check their units.',
    );
  return { stroke, leverage: readLeverage(f) };
}

function noLinkage(f: Fields): object {
  for (const key of ['stroke', 'leverage'])
    if (f.get(key) !== undefined)
      f.wrong(
        [key],
        `${f.name}: ${key} is about the rear shock and is not used here.`,
        'Move it below rear:.',
        'warning',
      );
  return {};
}

function readLeverage(f: Fields): EndSheet['leverage'] | undefined {
  const raw = f.get('leverage');
  if (raw === undefined) return undefined;
  const [least, most] = LIMITS.leverage;
  const good = (x: unknown): boolean => typeof x === 'number' && x >= least && x <= most;
  if (Array.isArray(raw) && raw.length === 3 && raw.every(good))
    return raw as unknown as readonly [number, number, number];
  f.wrong(
    ['leverage'],
    `${f.name}: leverage must be three ratios from ${least} to ${most}: at 0, 50 and 100 % of the travel.`,
    'Write leverage: [3.0, 2.7, 2.4].',
  );
  return undefined;
}

function readCurve(f: Fields, adjusters: EndSheet['adjusters']): readonly CurvePoint[] | undefined {
  const raw = f.get('curve');
  if (raw === undefined) return undefined;
  if (!Array.isArray(raw)) {
    f.wrong(
      ['curve'],
      `${f.name}: curve must be a list of points.`,
      'Write - { circuit: rebound, speed: 0.1, force: 180, low: 8, high: 4 }.',
    );
    return undefined;
  }
  return raw.flatMap((point: unknown, i): CurvePoint[] => {
    const p = new Fields(point, [...f.path, 'curve', i], POINT_KEYS, f.problems);
    if (!p.isMap) return [];
    for (const key of POINT_KEYS)
      p.need(
        key,
        'Give circuit, speed (m/s), force (N), and the clicks low and high it was measured at (0 for a knob that is not there).',
      );
    const read = {
      circuit: p.choice('circuit', ['rebound', 'compression'] as const),
      speed: p.number('speed', LIMITS.shaftSpeed),
      force: p.number('force', LIMITS.force),
      low: p.number('low', [0, LIMITS.clicks[1]], true),
      high: p.number('high', [0, LIMITS.clicks[1]], true),
    };
    for (const speed of ['low', 'high'] as const) {
      const range = adjusters[`${read.circuit ?? 'rebound'}.${speed}`]?.range ?? Infinity;
      if (read.circuit !== undefined && (read[speed] ?? 0) > range)
        p.wrong(
          [speed],
          `${p.name}: ${speed} is ${read[speed]} clicks from closed, but that knob has only ${range}.`,
          'Count again from fully closed.',
        );
    }
    return Object.values(read).includes(undefined) ? [] : [read as CurvePoint];
  });
}
const POINT_KEYS = ['circuit', 'speed', 'force', 'low', 'high'];
