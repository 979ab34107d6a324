/** A bike sheet in SI → the file form that `readSheet` reads, in the user's own units. The caller makes text of it. */
import { defined } from './defined.ts';
import { SHEET_FORMAT } from './read.ts';
import { ENDS, type Adjuster, type BikeSheet, type EndSheet, type UnitChoice } from './sheet.ts';
import { inUnit, writeShare, type Dimension } from './units.ts';

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
  const [front, rear] = ENDS.map((end) => writeEnd(sheet.ends[end], units));
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
    changed: sheet.changed?.map((change) => ({ ...change })),
    note: sheet.note,
  });
}

function writeEnd(end: EndSheet, units: UnitChoice): object {
  const length = shownIn(units, 'length');
  const pressure = shownIn(units, 'pressure');
  return defined({
    travel: length(end.travel),
    stroke: length(end.stroke),
    leverage: end.leverage && [...end.leverage],
    spring: writeSpring(end.spring, units),
    sag: filled({ measured: share(end.sagMeasured), wanted: share(end.sagWanted) }),
    'travel-used': share(end.travelUsed),
    rebound: writePair(end, 'rebound'),
    compression: writePair(end, 'compression'),
    tyre: end.tyre && defined({ now: pressure(end.tyre.now), wanted: pressure(end.tyre.wanted) }),
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

function writePair({ adjusters }: EndSheet, side: 'rebound' | 'compression'): object | undefined {
  return filled({
    low: writeAdjuster(adjusters[`${side}.low`]),
    high: writeAdjuster(adjusters[`${side}.high`]),
  });
}

function writeAdjuster(adjuster: Adjuster | undefined): object | undefined {
  if (adjuster === undefined) return undefined;
  const { range, now, maker, ratio } = adjuster;
  return defined({ clicks: range, now, maker, ratio });
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
