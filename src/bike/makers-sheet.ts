/** How a bike stands against the maker's starting sheet. */
import { CIRCUITS, ENDS, type BikeSheet } from './sheet.ts';

export interface AgainstMaker {
  readonly setting: string;
  /** clicks from closed */
  readonly now: number;
  readonly maker: number;
}

/** Every knob of which both are known: where it stands, and where the maker would start. */
export function againstMaker(sheet: BikeSheet): AgainstMaker[] {
  return ENDS.flatMap((end) =>
    CIRCUITS.flatMap((circuit): AgainstMaker[] => {
      const { now, maker } = sheet.ends[end].adjusters[circuit] ?? {};
      return now === undefined || maker === undefined ? [] : [{ setting: `${end}.${circuit}`, now, maker }];
    }),
  );
}

/** Whether every knob that can be compared stands where the maker would start; undefined when none can. */
export function onMakersSheet(sheet: BikeSheet): boolean | undefined {
  const knobs = againstMaker(sheet);
  return knobs.length === 0 ? undefined : knobs.every(({ now, maker }) => now === maker);
}
