/** The bench of each bike, made once: it is dear next to a case. */
import { prepareBike, type PreparedBike } from '../../advice/prepared-bike.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Io } from '../../host/io.ts';
import { defaultPhysics, keptPhysics } from '../physics.ts';
import type { keptNumbers } from '../rules/precomputed.ts';
import { benchNumbers } from './kept-bike.ts';

/**
 * A bike's bench, with the physics of that bike; without a sheet that of the default bike.
 * @param said what was told of a bike without a sheet, as `withToldSprings` gives it
 */
export type Benches = (sheet: BikeSheet | undefined, said?: BikeSheet) => Promise<PreparedBike>;

export function benchesOf(io: Io, model: Model, keep: ReturnType<typeof keptNumbers>): Benches {
  const ofSheets = new WeakMap<BikeSheet, Promise<PreparedBike>>();
  // Few things can be said of a bike without a sheet, and they come again and again in a stream of cases.
  const ofTold = new Map<string, Promise<PreparedBike>>();
  let bare: Promise<PreparedBike> | undefined;
  const told = (said: BikeSheet): Promise<PreparedBike> => {
    const key = JSON.stringify([said.kind, said.ends, said.own]);
    let made = ofTold.get(key);
    if (made === undefined) {
      if (ofTold.size >= MOST_TOLD) ofTold.clear();
      made = defaultPhysics().then((physics) => prepareBike(model, undefined, physics, undefined, said));
      ofTold.set(key, made);
    }
    return made;
  };
  return (sheet, said) => {
    if (sheet === undefined && said !== undefined) return told(said);
    if (sheet === undefined)
      return (bare ??= defaultPhysics().then((physics) => prepareBike(model, undefined, physics, keep)));
    let made = ofSheets.get(sheet);
    if (made === undefined) {
      made = keptPhysics(io, sheet).then((physics) =>
        prepareBike(model, sheet, physics, benchNumbers(io, model.rules.digest, sheet)),
      );
      ofSheets.set(sheet, made);
    }
    return made;
  };
}

/** Benches of bikes without a sheet that are kept at once. */
const MOST_TOLD = 64;
