/** The physics of a bike for the advice: of the sheet at hand, or of the default bike, worked out when built. */
import { readFileSync } from 'node:fs';
import type { Physics } from '../advice/physics.ts';
import { printChange, type Change } from '../bike/change.ts';
import type { BikeKind, BikeSheet } from '../bike/sheet.ts';
import type { Bike } from '../physics/index.ts';
import type { Io } from '../host/io.ts';
import { ofBike } from './bikes/kept-bike.ts';
import type { SheetPhysics } from '../report/pit-sheet/physics.ts';
import { BUILT_PHYSICS } from './rules/built-in.ts';

/** The bike that stands in where no sheet is given. */
export const DEFAULT_KIND = 'enduro';

/** The model of a sheet's bike, its dampers fitted where the sheet has measured curves. */
export async function sheetBike(sheet: BikeSheet): Promise<Bike> {
  const { bikeFromSheet, fitDampers } = await import('../physics/index.ts');
  const measured = sheet.ends.front.curve !== undefined || sheet.ends.rear.curve !== undefined;
  return bikeFromSheet(sheet, measured ? await fitDampers(sheet) : {});
}

/** Kept for the next start. */
export async function keptPhysics(io: Io, sheet: BikeSheet): Promise<Physics> {
  const isIt = (kept: unknown): kept is Physics =>
    typeof kept === 'object' && kept !== null && 'clicks' in kept && 'crossTalk' in kept && 'springs' in kept;
  return ofBike(io, sheet, 'physics', isIt, async () => {
    return sheetPhysics(sheet);
  });
}

export async function sheetPhysics(sheet: BikeSheet): Promise<Physics> {
  const [{ physicsOf }, bike] = await Promise.all([import('../advice/physics.ts'), sheetBike(sheet)]);
  return physicsOf(bike, sheet);
}

export async function defaultPhysics(): Promise<Physics> {
  try {
    return JSON.parse(readFileSync(BUILT_PHYSICS, 'utf8')) as Physics;
  } catch {
    const [{ physicsOf }, { defaultBike }] = await Promise.all([
      import('../advice/physics.ts'),
      import('../physics/index.ts'),
    ]);
    return physicsOf(defaultBike(DEFAULT_KIND));
  }
}

/**
 * What a change does on the bike of a sheet, or on a usual one, in lines; none where the model does not reach it.
 * @param most lines of the model, what is felt most first
 * @param kind of the usual bike, where it was told
 */
export async function knockOnOf(
  io: Io,
  sheet: BikeSheet | undefined,
  change: Change,
  most: number,
  kind: BikeKind = DEFAULT_KIND,
): Promise<readonly string[]> {
  if (most <= 0) return [];
  const lines = async (bike: Bike): Promise<readonly string[]> =>
    (await import('../report/pit-sheet/physics.ts')).knockOnLines(bike, change, most);
  const isIt = (kept: unknown): kept is readonly string[] =>
    Array.isArray(kept) && kept.every((line) => typeof line === 'string');
  const knockOn = await ofBike(
    io,
    sheet ?? kind,
    `knock-on ${most} ${printChange([change])}`,
    isIt,
    async () => {
      if (sheet !== undefined) return lines(await sheetBike(sheet));
      const { defaultBike } = await import('../physics/index.ts');
      return lines(defaultBike(kind));
    },
  );
  return sheet === undefined && knockOn.length > 0 ? [`on a default ${kind} bike:`, ...knockOn] : knockOn;
}

/** The drawings and lines of a pit sheet for the bike of a sheet. */
export async function drawnOf(io: Io, sheet: BikeSheet, change: Change): Promise<SheetPhysics> {
  const isIt = (kept: unknown): kept is SheetPhysics =>
    typeof kept === 'object' && kept !== null && 'knockOn' in kept && 'warnings' in kept;
  return ofBike(io, sheet, `pit sheet ${printChange([change])}`, isIt, async () =>
    (await import('../report/pit-sheet/physics.ts')).sheetPhysics(await sheetBike(sheet), change),
  );
}
