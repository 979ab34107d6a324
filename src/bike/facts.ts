/** What the bike sheet says of a path, in the words that gates and adjustments use. */
import type { SheetTrade } from './check/sheet-check.ts';
import { CIRCUITS, type Circuit } from './circuits.ts';
import { ownStand } from './dial/dials.ts';
import { positionsOf, type OwnSetting } from './own-setting.ts';
import { preloadBeyond, sagOnRide, tyreByMass, type TyreForMass } from './end-readings.ts';
import { BIKE_KINDS, ENDS, type BikeSheet, type End, type EndSheet } from './sheet.ts';

/**
 * `front.spring` → air | coil; `rear.preload` → usual | beyond; `front.sag` → target | less | more; `front.pressure`, of an
 * air spring against the maker's figure → chart | over | under; `front.spacers` → none | some | many; `front.travel-used` →
 * short | most | full; `front.tyre`, by the rider's weight → low | usual | high; `rear.rebound.high` → knob | none; `kind` → a kind of bike; of what a pack added: knob or
 * the name of its position, or none.
 * @param near what counts as on target; absent: nothing does, and nothing is said of it
 * @returns undefined when the sheet does not say, or has no such path
 */
export function sheetFact(sheet: BikeSheet, path: string, near?: SheetTrade['near']): string | undefined {
  if (path === 'kind') return sheet.unsaidKind === true ? undefined : sheet.kind;
  const own = sheet.settings?.find(({ id }) => id === path);
  if (own !== undefined) return ownFact(sheet, own);
  const [end, ...rest] = path.split('.');
  if (!ENDS.includes(end as End)) return undefined;
  const part = sheet.ends[end as End];
  const name = rest.join('.');
  const isSpring = name === 'spring' || name === 'spring.kind';
  if (name === 'preload' && part.toldPreload !== undefined) return part.toldPreload;
  if (part.unsaid === true) return isSpring ? part.toldSpring : undefined;
  if (isSpring)
    return part.unsaidSpring === true ? part.toldSpring : part.rigid === true ? 'none' : part.spring.kind;
  if (name === 'preload') {
    const beyond = preloadBeyond(part);
    return beyond === undefined ? undefined : beyond > 0 ? 'beyond' : 'usual';
  }
  if (name === 'sag') return sagFact(part, near?.sag);
  if (name === 'pressure') return pressureFact(part, near?.pressure);
  if (name === 'spacers') return spacersFact(part, near?.spacers);
  if (name === 'travel-used') return travelFact(part, near);
  if (name === 'tyre') return tyreFact(sheet, end as End, near?.['tyre-for']);
  if (part.unsure?.includes(name as Circuit) === true) return undefined;
  if (CIRCUITS.includes(name as Circuit))
    return part.adjusters[name as Circuit] === undefined ? 'none' : 'knob';
  return undefined;
}

/** Against the target that is written down: who wrote one knows his tyre. Else against what is usual for the weight. */
function tyreFact(sheet: BikeSheet, end: End, by: TyreForMass | undefined): string | undefined {
  const { now, wanted } = sheet.ends[end].tyre ?? {};
  if (wanted === undefined || now === undefined || by === undefined) return tyreByMass(sheet, end, by)?.is;
  const share = (100 * now) / wanted;
  return share < by.low ? 'low' : share > by.high ? 'high' : 'usual';
}

/** @param near in percentage points of travel */
function sagFact(part: EndSheet, near: number | undefined): string | undefined {
  const sag = sagOnRide(part);
  if (sag === undefined || part.sagWanted === undefined || near === undefined) return undefined;
  const off = sag - part.sagWanted;
  return Math.abs(off) <= near / 100 + 1e-9 ? 'target' : off < 0 ? 'less' : 'more';
}

/** @param near in percent of the pressure */
function pressureFact({ spring }: EndSheet, near: number | undefined): string | undefined {
  if (
    near === undefined ||
    spring.kind !== 'air' ||
    spring.pressure === undefined ||
    spring.pressureMaker === undefined
  )
    return undefined;
  const off = spring.pressure / spring.pressureMaker - 1;
  return Math.abs(off) <= near / 100 ? 'chart' : off < 0 ? 'under' : 'over';
}

/** @param most how many fit where the sheet does not say */
function spacersFact({ spring }: EndSheet, most: number | undefined): string | undefined {
  const fit = spring.kind === 'air' ? (spring.spacersMax ?? most) : undefined;
  if (spring.kind !== 'air' || spring.spacers === undefined || fit === undefined) return undefined;
  return spring.spacers === 0 ? 'none' : spring.spacers > fit / 2 ? 'many' : 'some';
}

function travelFact({ travelUsed }: EndSheet, near: SheetTrade['near'] | undefined): string | undefined {
  if (travelUsed === undefined || near === undefined) return undefined;
  const left = 100 * (1 - travelUsed) + 1e-9;
  return left >= near['travel-left'] ? 'short' : left <= near['travel-end'] + 1e-6 ? 'full' : 'most';
}

function ownFact(sheet: BikeSheet, own: OwnSetting): string | undefined {
  const stand = ownStand(sheet, own);
  if (stand === undefined || stand === 'none') return stand;
  const names = positionsOf(own, stand);
  if (names === undefined) return 'knob';
  const name = stand.now === undefined ? undefined : names[stand.now];
  if (name === undefined || own.positions?.includes(name) === true) return name;
  return between(own, names, stand.now!);
}

/**
 * A position that the pack does not name answers none of its gates, and denies none; but where the pack has one name between its
 * ends, whatever stands between the same ends on this bike stands there.
 */
function between(
  { positions: [first, ...rest] = [] }: OwnSetting,
  names: readonly string[],
  now: number,
): string | undefined {
  const [inner, last, ...more] = rest;
  const same = more.length === 0 && last !== undefined && names[0] === first && names.at(-1) === last;
  return same && now > 0 && now < names.length - 1 ? inner : undefined;
}

/** Every path a gate or a need may ask, with the values it can have. */
export function factValues(own: readonly OwnSetting[]): ReadonlyMap<string, readonly string[]> {
  const ofEnds = ENDS.flatMap((end): [string, readonly string[]][] => [
    [`${end}.spring`, ['air', 'coil', 'none']],
    [`${end}.spring.kind`, ['air', 'coil', 'none']],
    [`${end}.preload`, ['usual', 'beyond']],
    [`${end}.sag`, ['target', 'less', 'more']],
    [`${end}.pressure`, ['chart', 'over', 'under']],
    [`${end}.spacers`, ['none', 'some', 'many']],
    [`${end}.travel-used`, ['short', 'most', 'full']],
    [`${end}.tyre`, ['low', 'usual', 'high']],
    ...CIRCUITS.map((circuit): [string, readonly string[]] => [`${end}.${circuit}`, ['knob', 'none']]),
  ]);
  const ofPacks = own.map((one): [string, readonly string[]] => [
    one.id,
    one.unit === 'positions' ? [...(one.positions ?? []), 'none'] : ['knob', 'none'],
  ]);
  return new Map([['kind', BIKE_KINDS], ...ofEnds, ...ofPacks]);
}
