/** A bike sheet in SI → the file form that `readSheet` reads, in the user's own units. The caller makes text of it. */
import { isMap, defined } from '../../form/plain-data.ts';
import { SHEET_FORMAT, UNCOUNTED } from './limits.ts';
import { SIDES, speedOf, type Circuit } from '../circuits.ts';
import { positionsOf, type OwnSetting, type OwnStand } from '../own-setting.ts';
import { ENDS, type Adjuster, type BikeSheet, type End, type EndSheet, type UnitChoice } from '../sheet.ts';
import { inUnit, writeShare, type Dimension } from '../units.ts';

/** Plain data: maps, lists, texts and numbers, ready for YAML or JSON. */
export type SheetFile = Readonly<Record<string, unknown>>;

/**
 * Quantities become plain numbers in the sheet's units, rounded to what a gauge shows; shares become percentages.
 * Reading the result again gives the same sheet within those digits, and writing that one again gives the same file.
 */
export function writeSheet(sheet: BikeSheet): SheetFile {
  const { units } = sheet;
  const length = shownIn(units, 'length');
  const mass = shownIn(units, 'mass');
  const own = (end?: End): readonly OwnSetting[] => (sheet.settings ?? []).filter((one) => one.end === end);
  const [front, rear] = ENDS.map((end) => writeEnd(sheet.ends[end], units, own(end)));
  return defined({
    bike: SHEET_FORMAT,
    id: sheet.id,
    name: sheet.name,
    kind: sheet.kind,
    units: { ...units },
    'rider-mass': mass(sheet.riderMass),
    'bike-mass': mass(sheet.bikeMass),
    geometry:
      sheet.geometry &&
      defined({ wheelbase: length(sheet.geometry.wheelbase), 'head-angle': sheet.geometry.headAngle }),
    front,
    rear,
    cockpit:
      sheet.cockpit &&
      defined({
        'spacers-under-stem': length(sheet.cockpit.spacersUnderStem),
        'lever-angle': sheet.cockpit.leverAngle,
      }),
    ...writeOwn(sheet.own, own()),
    changed: sheet.changed?.map((change) => ({ ...change })),
    note: sheet.note,
  });
}

function writeEnd(end: EndSheet, units: UnitChoice, own: readonly OwnSetting[]): object | undefined {
  const length = shownIn(units, 'length');
  const pressure = shownIn(units, 'pressure');
  const tyre = end.tyre && defined({ now: pressure(end.tyre.now), wanted: pressure(end.tyre.wanted) });
  if (end.rigid === true) return filled({ ...writeOwn(end.own, own), tyre, note: end.note });
  return defined({
    travel: end.travel === 0 ? undefined : length(end.travel),
    stroke: length(end.stroke),
    leverage: end.leverage && [...end.leverage],
    spring: writeSpring(end.spring, units),
    sag: filled({ measured: share(end.sagMeasured), wanted: share(end.sagWanted), ...end.sagBasis }),
    'travel-used': share(end.travelUsed),
    ...Object.fromEntries(SIDES.map(({ side, circuits }) => [side, writePair(end, circuits)])),
    ...writeOwn(end.own, own),
    tyre,
    curve: end.curve?.map((point) => ({ ...point })),
    note: end.note,
  });
}

function writeSpring(spring: EndSheet['spring'], units: UnitChoice): object {
  const pressure = shownIn(units, 'pressure');
  const length = shownIn(units, 'length');
  return spring.kind === 'air'
    ? defined({
        kind: 'air',
        pressure: pressure(spring.pressure),
        min: pressure(spring.pressureMin),
        max: pressure(spring.pressureMax),
        maker: pressure(spring.pressureMaker),
        spacers: spring.spacers,
        'spacers-max': spring.spacersMax,
      })
    : defined({
        kind: 'coil',
        rate: shownIn(units, 'rate')(spring.rate),
        preload: length(spring.preload),
        'preload-max': length(spring.preloadMax),
        'preload-per-turn': length(spring.preloadPerTurn),
      });
}

function writePair({ adjusters }: EndSheet, circuits: readonly Circuit[]): object | undefined {
  return filled(
    Object.fromEntries(circuits.map((circuit) => [speedOf(circuit), writeAdjuster(adjusters[circuit])])),
  );
}

function writeAdjuster(adjuster: Adjuster | undefined): object | undefined {
  if (adjuster === undefined) return undefined;
  const { range, now, near, maker, ratio } = adjuster;
  return defined({ clicks: range ?? UNCOUNTED, now, near, maker, ratio });
}

/** What packs added, each in its own form. */
function writeOwn(
  stands: Readonly<Record<string, OwnStand>> | undefined,
  settings: readonly OwnSetting[],
): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    settings.flatMap((own): [string, unknown][] => {
      const stand = stands?.[own.key];
      if (stand === undefined) return [];
      if (stand === 'none') return [[own.key, stand]];
      const names = positionsOf(own, stand);
      const said = (value: number | undefined): string | number | undefined =>
        value === undefined ? undefined : (names?.[value] ?? value);
      const { range, min, max, positions } = stand;
      const counts = { now: said(stand.now), maker: said(stand.maker) };
      if (own.unit === 'clicks')
        return [[own.key, defined({ clicks: range ?? UNCOUNTED, ...counts, near: stand.near })]];
      const form = defined({ now: counts.now ?? UNCOUNTED, maker: counts.maker, min, max, positions });
      return [[own.key, form]];
    }),
  );
}

function shownIn(units: UnitChoice, dimension: Dimension): (si: number | undefined) => number | undefined {
  return (si) => (si === undefined ? undefined : inUnit(si, units[dimension]));
}

function share(value: number | undefined): string | undefined {
  return value === undefined ? undefined : writeShare(value);
}

/** Without its empty keys; undefined when all are empty. */
function filled(map: object): object | undefined {
  const kept = defined(map);
  return Object.keys(kept).length === 0 ? undefined : kept;
}

/** The file form with the knobs that a draft says are not there: a sheet holds only those that are. */
export function withoutKnobs(file: SheetFile, draft: SheetFile): SheetFile {
  const map = (of: unknown): SheetFile => (isMap(of) ? (of as SheetFile) : {});
  const ends = ENDS.flatMap((end) => {
    if (file[end] === undefined) return [];
    const sides = SIDES.flatMap(({ side, circuits }) => {
      const said = map(draft[end])[side];
      const gone = circuits.map(speedOf).filter((speed) => said === 'none' || map(said)[speed] === 'none');
      if (gone.length === 0) return [];
      return [
        [side, { ...map(map(file[end])[side]), ...Object.fromEntries(gone.map((speed) => [speed, 'none'])) }],
      ];
    });
    return [[end, { ...map(file[end]), ...Object.fromEntries(sides) }]];
  });
  return { ...file, ...Object.fromEntries(ends) };
}
