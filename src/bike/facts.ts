/** What the bike sheet says of a path, in the words that gates and adjustments use. */
import { CIRCUITS, type Circuit } from './circuits.ts';
import { ownStand } from './dial/own-dial.ts';
import { positionsOf, type OwnSetting } from './own-setting.ts';
import { preloadBeyond } from './preload.ts';
import { BIKE_KINDS, ENDS, type BikeSheet, type End } from './sheet.ts';

/**
 * `front.spring` → air | coil; `rear.preload` → usual | beyond; `rear.rebound.high` → knob | none; `kind` → a kind of bike; of what a pack added: knob or
 * the name of its position, or none.
 * @returns undefined when the sheet does not say, or has no such path
 */
export function sheetFact(sheet: BikeSheet, path: string): string | undefined {
  if (path === 'kind') return sheet.unsaidKind === true ? undefined : sheet.kind;
  const own = sheet.settings?.find(({ id }) => id === path);
  if (own !== undefined) return ownFact(sheet, own);
  const [end, ...rest] = path.split('.');
  if (!ENDS.includes(end as End)) return undefined;
  const part = sheet.ends[end as End];
  const name = rest.join('.');
  if (part.unsaid === true) return undefined;
  if (name === 'spring' || name === 'spring.kind')
    return part.unsaidSpring === true ? undefined : part.rigid === true ? 'none' : part.spring.kind;
  if (name === 'preload') {
    const beyond = preloadBeyond(part);
    return beyond === undefined ? undefined : beyond > 0 ? 'beyond' : 'usual';
  }
  if (CIRCUITS.includes(name as Circuit))
    return part.adjusters[name as Circuit] === undefined ? 'none' : 'knob';
  return undefined;
}

function ownFact(sheet: BikeSheet, own: OwnSetting): string | undefined {
  const stand = ownStand(sheet, own);
  if (stand === undefined || stand === 'none') return stand;
  const names = positionsOf(own, stand);
  if (names === undefined) return 'knob';
  // A position that the pack does not name answers none of its gates, and denies none.
  const name = stand.now === undefined ? undefined : names[stand.now];
  return name !== undefined && own.positions?.includes(name) === true ? name : undefined;
}

/** Every path a gate or a need may ask, with the values it can have. */
export function factValues(own: readonly OwnSetting[]): ReadonlyMap<string, readonly string[]> {
  const ofEnds = ENDS.flatMap((end): [string, readonly string[]][] => [
    [`${end}.spring`, ['air', 'coil', 'none']],
    [`${end}.spring.kind`, ['air', 'coil', 'none']],
    [`${end}.preload`, ['usual', 'beyond']],
    ...CIRCUITS.map((circuit): [string, readonly string[]] => [`${end}.${circuit}`, ['knob', 'none']]),
  ]);
  const ofPacks = own.map((one): [string, readonly string[]] => [
    one.id,
    one.unit === 'positions' ? [...(one.positions ?? []), 'none'] : ['knob', 'none'],
  ]);
  return new Map([['kind', BIKE_KINDS], ...ofEnds, ...ofPacks]);
}
