/** What the damper model of a bike tells the advice: how many clicks a person can feel, and how far a knob moves its partner. */
import { CIRCUITS, ENDS, type End } from '../bike/sheet.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import {
  feelableClicks,
  fixShare,
  springCorrection,
  type Bike,
  type SpringCorrection,
} from '../physics/index.ts';

/** Plain data, so that the default bike's can be worked out when the project is built. */
export interface Physics {
  /** setting id and way (`front.rebound.low+`) → clicks of one step */
  readonly clicks: Readonly<Record<string, number>>;
  /** setting id → share of a fix that a step of it is for its partner's cause, 0..1 */
  readonly crossTalk: Readonly<Record<string, number>>;
  /** end → what brings its measured sag to the wanted one */
  readonly springs?: Partial<Readonly<Record<End, SpringCorrection>>>;
}

/** @param sheet the bike is a model of; absent for the default one */
export function physicsOf(bike: Bike, sheet?: BikeSheet): Physics {
  const springs: Partial<Record<End, SpringCorrection>> = {};
  const clicks: Record<string, number> = {};
  const crossTalk: Record<string, number> = {};
  for (const end of ENDS) {
    for (const circuit of CIRCUITS) {
      const setting = `${end}.${circuit}`;
      const knob = sheet?.ends[end].adjusters[circuit];
      // Of a knob whose clicks nobody counted the model knows no size of one: the step of the rule stands.
      if (knob === undefined || knob.range !== undefined) {
        clicks[`${setting}+`] = feelableClicks(bike, end, circuit, true);
        clicks[`${setting}-`] = feelableClicks(bike, end, circuit, false);
      }
      crossTalk[setting] = fixShare(bike, end, circuit);
    }
  }
  for (const end of ENDS) {
    const correction = sheet === undefined ? undefined : springCorrection(sheet, bike, end);
    if (correction !== undefined) springs[end] = correction;
  }
  return { clicks, crossTalk, springs };
}
