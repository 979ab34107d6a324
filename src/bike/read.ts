/** The file form of a bike sheet → the sheet in SI, with every problem at once. */
import { Fields, type SheetProblem } from './fields.ts';
import type {
  Adjuster,
  AirSpring,
  BikeSheet,
  Circuit,
  CoilSpring,
  CurvePoint,
  End,
  EndSheet,
  UnitChoice,
} from './sheet.ts';
import { DEFAULT_UNITS, UNITS } from './units.ts';

export type { SheetProblem } from './fields.ts';
export const SHEET_FORMAT = 1;

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
const END_KEYS = [
  'travel',
  'stroke',
  'leverage',
  'spring',
  'sag',
  'travel-used',
  'rebound',
  'compression',
  'tyre',
  'curve',
  'note',
];

export interface ReadSheet {
  /** absent when any error was found */
  readonly sheet?: BikeSheet;
  readonly problems: readonly SheetProblem[];
}

/** @param raw what a YAML or JSON reader gave */
export function readSheet(raw: unknown): ReadSheet {
  const problems: SheetProblem[] = [];
  const top = new Fields(raw, [], KEYS, problems);
  if (problems.length > 0 && top.get('bike') === undefined && top.get('id') === undefined)
    return { problems };
  checkFormat(top);
  const id = top.text('id');
  if (id === undefined && top.get('id') === undefined)
    top.wrong([], 'The key id is missing.', 'Give the bike a short name: id: park-bike.');
  const kind = top.choice('kind', ['trail', 'enduro', 'downhill'] as const);
  if (top.get('kind') === undefined)
    top.wrong([], 'The key kind is missing.', 'Write kind: trail, enduro or downhill.');
  const units = readUnits(top);
  const name = top.text('name');
  const riderMass = top.quantity('rider-mass', 'mass', units.mass, 20, 250);
  const bikeMass = top.quantity('bike-mass', 'mass', units.mass, 5, 60);
  const geometry = readGeometry(top, units);
  const front = readEnd(top, 'front', units);
  const rear = readEnd(top, 'rear', units);
  const cockpit = readCockpit(top, units);
  const changed = readChanged(top);
  if (
    problems.some((p) => p.severity === 'error') ||
    id === undefined ||
    kind === undefined ||
    front === undefined ||
    rear === undefined
  ) {
    return { problems };
  }
  return {
    sheet: defined({
      id,
      name,
      kind,
      units,
      riderMass,
      bikeMass,
      geometry,
      ends: { front, rear },
      cockpit,
      changed,
    }),
    problems,
  };
}

/** Without the keys that hold nothing. */
function defined<T extends object>(value: { [K in keyof T]: T[K] | undefined }): T {
  return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined)) as T;
}

function checkFormat(top: Fields): void {
  const format = top.get('bike');
  if (format === SHEET_FORMAT) return;
  if (typeof format === 'number' && format > SHEET_FORMAT) {
    top.wrong(
      ['bike'],
      `This bike sheet has format ${format}; this program reads format ${SHEET_FORMAT}.`,
      'Update earshot, or write the sheet again with this version.',
    );
  } else
    top.wrong(
      format === undefined ? [] : ['bike'],
      format === undefined ? 'The key bike is missing.' : 'bike must be the format number.',
      `Write bike: ${SHEET_FORMAT} on the first line.`,
    );
}

function readUnits(top: Fields): UnitChoice {
  if (top.get('units') === undefined) return DEFAULT_UNITS;
  const f = new Fields(top.get('units'), ['units'], ['pressure', 'mass', 'rate', 'length'], top.problems);
  const pick = <D extends keyof UnitChoice>(dimension: D): UnitChoice[D] =>
    f.choice(dimension, Object.keys(UNITS[dimension]) as UnitChoice[D][]) ?? DEFAULT_UNITS[dimension];
  return { pressure: pick('pressure'), mass: pick('mass'), rate: pick('rate'), length: pick('length') };
}

function readGeometry(top: Fields, units: UnitChoice): BikeSheet['geometry'] | undefined {
  if (top.get('geometry') === undefined) return undefined;
  const f = new Fields(top.get('geometry'), ['geometry'], ['wheelbase', 'head-angle'], top.problems);
  return defined({
    wheelbase: f.quantity('wheelbase', 'length', units.length, 0.7, 1.6),
    headAngle: f.number('head-angle', 55, 80),
  });
}

function readEnd(top: Fields, end: End, units: UnitChoice): EndSheet | undefined {
  const raw = top.get(end);
  if (raw === undefined) {
    top.wrong(
      [],
      `The key ${end} is missing.`,
      `Write ${end}: with travel, spring, rebound and compression below it.`,
    );
    return undefined;
  }
  const f = new Fields(raw, [end], END_KEYS, top.problems);
  const travel = f.quantity('travel', 'length', units.length, 0.02, 0.35);
  if (f.get('travel') === undefined)
    f.wrong([], `${end}: the key travel is missing.`, 'Write travel: 150 (in mm).');
  const stroke = f.quantity('stroke', 'length', units.length, 0.015, 0.2);
  if (stroke !== undefined && travel !== undefined && stroke > travel) {
    f.wrong(['stroke'], 'The shock stroke is longer than the wheel travel.', 'Check which is which.');
  }
  const sag =
    f.get('sag') === undefined
      ? undefined
      : new Fields(f.get('sag'), [end, 'sag'], ['measured', 'wanted'], f.problems);
  const tyre =
    f.get('tyre') === undefined
      ? undefined
      : new Fields(f.get('tyre'), [end, 'tyre'], ['now', 'wanted'], f.problems);
  const pressure = (t: Fields, key: string): number | undefined =>
    t.quantity(key, 'pressure', units.pressure, 3e4, 6e5);
  const spring = readSpring(f, end, units);
  const adjusters = readAdjusters(f, end);
  const result = {
    travel,
    stroke,
    leverage: readLeverage(f, end),
    spring,
    sagMeasured: sag?.share('measured', 0.6),
    sagWanted: sag?.share('wanted', 0.6),
    travelUsed: f.share('travel-used', 1),
    adjusters,
    tyre:
      tyre === undefined
        ? undefined
        : defined({ now: pressure(tyre, 'now'), wanted: pressure(tyre, 'wanted') }),
    curve: readCurve(f, end),
  };
  return travel === undefined || spring === undefined ? undefined : defined({ ...result, travel, spring });
}

function readSpring(f: Fields, end: End, units: UnitChoice): AirSpring | CoilSpring | undefined {
  const raw = f.get('spring');
  if (raw === undefined) {
    f.wrong(
      [],
      `${end}: the key spring is missing.`,
      'Write spring: {kind: air, pressure: 80} or {kind: coil, rate: 80}.',
    );
    return undefined;
  }
  const path = [end, 'spring'];
  const kind = (raw as { kind?: unknown } | null)?.kind;
  if (kind === 'coil') {
    const s = new Fields(raw, path, ['kind', 'rate', 'preload', 'preload-max'], f.problems);
    return defined<CoilSpring>({
      kind: 'coil',
      rate: s.quantity('rate', 'rate', units.rate, 2e3, 3e5),
      preload: s.quantity('preload', 'length', units.length, 0, 0.05),
      preloadMax: s.quantity('preload-max', 'length', units.length, 0, 0.05),
    });
  }
  const s = new Fields(
    raw,
    path,
    ['kind', 'pressure', 'min', 'max', 'maker', 'spacers', 'spacers-max'],
    f.problems,
  );
  if (kind !== 'air') {
    s.wrong(
      kind === undefined ? [] : ['kind'],
      `${end}: the spring must be of kind air or coil.`,
      'Write spring: {kind: air, ...} or {kind: coil, ...}.',
    );
    return undefined;
  }
  const pressure = (key: string): number | undefined => s.quantity(key, 'pressure', units.pressure, 1e5, 4e6);
  const spring = {
    kind: 'air' as const,
    pressure: pressure('pressure'),
    pressureMin: pressure('min'),
    pressureMax: pressure('max'),
    pressureMaker: pressure('maker'),
    spacers: s.number('spacers', 0, 20),
    spacersMax: s.number('spacers-max', 0, 20),
  };
  const { pressure: now, pressureMin: min, pressureMax: max } = spring;
  if (min !== undefined && max !== undefined && min > max)
    s.wrong(['min'], 'min is above max.', 'Swap the two.');
  if (now !== undefined && ((max !== undefined && now > max) || (min !== undefined && now < min))) {
    s.wrong(
      ['pressure'],
      `The pressure is ${max !== undefined && now > max ? 'above' : 'below'} the maker's limit.`,
      'Check it with a gauge before riding.',
      'warning',
    );
  }
  if (spring.spacers !== undefined && spring.spacersMax !== undefined && spring.spacers > spring.spacersMax) {
    s.wrong(
      ['spacers'],
      `${spring.spacers} spacers do not fit where at most ${spring.spacersMax} do.`,
      'Count them again.',
    );
  }
  return defined<AirSpring>(spring);
}

function readAdjusters(f: Fields, end: End): EndSheet['adjusters'] {
  const out: Partial<Record<Circuit, Adjuster>> = {};
  for (const side of ['rebound', 'compression'] as const) {
    const raw = f.get(side);
    if (raw === undefined) continue;
    const pair = new Fields(raw, [end, side], ['low', 'high'], f.problems);
    for (const speed of ['low', 'high'] as const) {
      // A knob that is not there may be written down as such.
      if (pair.get(speed) === undefined || pair.get(speed) === 'none') continue;
      const adjuster = readAdjuster(
        new Fields(pair.get(speed), [end, side, speed], ['clicks', 'now', 'maker', 'ratio'], f.problems),
      );
      if (adjuster !== undefined) out[`${side}.${speed}`] = adjuster;
    }
  }
  return out;
}

function readAdjuster(f: Fields): Adjuster | undefined {
  const range = f.number('clicks', 1, 100, true);
  if (f.get('clicks') === undefined)
    f.wrong(
      [],
      `${f.path.join(' › ')}: the key clicks is missing.`,
      'Write clicks: with the number from fully closed to fully open.',
    );
  const now = f.number('now', 0, 1000, true);
  const maker = f.number('maker', 0, 1000, true);
  const ratio = f.number('ratio', 1.005, 2);
  if (range === undefined) return undefined;
  for (const [key, value] of [
    ['now', now],
    ['maker', maker],
  ] as const) {
    if (value !== undefined && value > range) {
      f.wrong(
        [key],
        `${key} is ${value} clicks from closed, but the knob has only ${range}.`,
        'Count again from fully closed, without force.',
      );
    }
  }
  return defined<Adjuster>({ range, now, maker, ratio });
}

function readLeverage(f: Fields, end: End): readonly [number, number, number] | undefined {
  const raw = f.get('leverage');
  if (raw === undefined) return undefined;
  const list = Array.isArray(raw) ? (raw as unknown[]) : [];
  const good = list.length === 3 && list.every((x) => typeof x === 'number' && x >= 1 && x <= 5);
  if (good) return list as unknown as readonly [number, number, number];
  f.wrong(
    ['leverage'],
    `${end}: leverage must be three ratios (at 0, 50 and 100 % of the travel) from 1 to 5.`,
    'Write leverage: [3.0, 2.7, 2.4].',
  );
  return undefined;
}

function readCurve(f: Fields, end: End): readonly CurvePoint[] | undefined {
  const raw = f.get('curve');
  if (raw === undefined) return undefined;
  if (!Array.isArray(raw)) {
    f.wrong(
      ['curve'],
      `${end}: curve must be a list of points.`,
      'Write - {circuit: rebound, speed: 0.1, force: 180, low: 8, high: 4}.',
    );
    return undefined;
  }
  return raw.flatMap((point: unknown, i): CurvePoint[] => {
    const p = new Fields(point, [end, 'curve', i], ['circuit', 'speed', 'force', 'low', 'high'], f.problems);
    const circuit = p.choice('circuit', ['rebound', 'compression'] as const);
    const speed = p.number('speed', 0.001, 20);
    const force = p.number('force', 0.1, 50_000);
    const low = p.number('low', 0, 100, true);
    const high = p.number('high', 0, 100, true);
    const all =
      circuit !== undefined &&
      speed !== undefined &&
      force !== undefined &&
      low !== undefined &&
      high !== undefined;
    if (!all)
      p.wrong(
        [],
        `Point ${i + 1} of the curve is not complete.`,
        'Give circuit, speed (m/s), force (N), and the clicks low and high.',
      );
    return all ? [{ circuit, speed, force, low, high }] : [];
  });
}

function readCockpit(top: Fields, units: UnitChoice): BikeSheet['cockpit'] | undefined {
  if (top.get('cockpit') === undefined) return undefined;
  const f = new Fields(top.get('cockpit'), ['cockpit'], ['spacers-under-stem', 'lever-angle'], top.problems);
  return defined({
    spacersUnderStem: f.quantity('spacers-under-stem', 'length', units.length, 0, 0.1),
    leverAngle: f.number('lever-angle', -30, 90),
  });
}

function readChanged(top: Fields): BikeSheet['changed'] | undefined {
  const raw = top.get('changed');
  if (raw === undefined) return undefined;
  if (!Array.isArray(raw)) {
    top.wrong(['changed'], 'changed must be a list.', 'Write - {what: new bar, when: 2026-04-01}.');
    return undefined;
  }
  return raw.flatMap((entry: unknown, i) => {
    const f = new Fields(entry, ['changed', i], ['what', 'when'], top.problems);
    const what = f.text('what');
    if (what === undefined) {
      f.wrong([], 'A change without what was changed says nothing.', 'Write what: new bar.');
      return [];
    }
    const when = f.text('when');
    return [when === undefined ? { what } : { what, when }];
  });
}
