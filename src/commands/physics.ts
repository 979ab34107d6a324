/** The physics of a bike for the advice: of the sheet at hand, or of the default bike, worked out when built. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Physics } from '../advice/physics.ts';
import type { Change } from '../bike/change.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import type { Bike } from '../dynamics/index.ts';
import { ROOT } from './root.ts';

/** The bike that stands in where no sheet is given. */
export const DEFAULT_KIND = 'enduro';
export const BUILT_PHYSICS = join(ROOT, 'dist', 'rules', 'physics.json');

/** The model of a sheet's bike, its dampers fitted where the sheet has measured curves. */
export async function sheetBike(sheet: BikeSheet): Promise<Bike> {
  const { bikeFromSheet, fitDampers } = await import('../dynamics/index.ts');
  const measured = sheet.ends.front.curve !== undefined || sheet.ends.rear.curve !== undefined;
  return bikeFromSheet(sheet, measured ? await fitDampers(sheet) : {});
}

export async function sheetPhysics(sheet: BikeSheet): Promise<Physics> {
  const [{ physicsOf }, bike] = await Promise.all([import('../advice/physics.ts'), sheetBike(sheet)]);
  return physicsOf(bike);
}

export async function defaultPhysics(): Promise<Physics> {
  try {
    return JSON.parse(readFileSync(BUILT_PHYSICS, 'utf8')) as Physics;
  } catch {
    const [{ physicsOf }, { defaultBike }] = await Promise.all([
      import('../advice/physics.ts'),
      import('../dynamics/index.ts'),
    ]);
    return physicsOf(defaultBike(DEFAULT_KIND));
  }
}

/** What a change does on the bike of a sheet, or on the default one, in lines; none where the model does not reach it. */
export async function knockOnOf(sheet: BikeSheet | undefined, change: Change): Promise<readonly string[]> {
  const [{ defaultBike }, { sheetPhysics: drawn }] = await Promise.all([
    import('../dynamics/index.ts'),
    import('../report/pit-sheet-physics.ts'),
  ]);
  const bike = sheet === undefined ? defaultBike(DEFAULT_KIND) : await sheetBike(sheet);
  const { knockOn } = drawn(bike, change);
  return sheet === undefined && knockOn.length > 0
    ? [`on a default ${DEFAULT_KIND} bike:`, ...knockOn]
    : knockOn;
}
