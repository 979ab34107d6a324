/** How a bike stands against the maker's starting sheet. */
import { rowsOf } from './settings.ts';
import type { BikeSheet } from './sheet.ts';

export interface AgainstMaker {
  readonly setting: string;
  /** clicks from closed */
  readonly now: number;
  readonly maker: number;
}

/** Every knob of which both are known: where it stands, and where the maker would start. */
export function againstMaker(sheet: BikeSheet): AgainstMaker[] {
  return rowsOf(sheet.settings).flatMap(({ setting, shown }): AgainstMaker[] => {
    const { unit, now, maker } = shown(sheet) ?? {};
    return unit !== 'clicks' || now === undefined || maker === undefined ? [] : [{ setting, now, maker }];
  });
}

/** Whether every knob that can be compared stands where the maker would start; undefined when none can. */
export function onMakersSheet(sheet: BikeSheet): boolean | undefined {
  const knobs = againstMaker(sheet);
  return knobs.length === 0 ? undefined : knobs.every(({ now, maker }) => now === maker);
}
