/** What the damper model of a bike tells the advice: how many clicks a person can feel, and how far a knob moves its partner. */
import { CIRCUITS, ENDS } from '../bike/sheet.ts';
import { feelableClicks, fixShare, type Bike } from '../physics/index.ts';

/** Plain data, so that the default bike's can be worked out when the project is built. */
export interface Physics {
  /** setting id and way (`front.rebound.low+`) → clicks of one step */
  readonly clicks: Readonly<Record<string, number>>;
  /** setting id → share of a fix that a step of it is for its partner's cause, 0..1 */
  readonly crossTalk: Readonly<Record<string, number>>;
}

export function physicsOf(bike: Bike): Physics {
  const clicks: Record<string, number> = {};
  const crossTalk: Record<string, number> = {};
  for (const end of ENDS) {
    for (const circuit of CIRCUITS) {
      const setting = `${end}.${circuit}`;
      clicks[`${setting}+`] = feelableClicks(bike, end, circuit, true);
      clicks[`${setting}-`] = feelableClicks(bike, end, circuit, false);
      crossTalk[setting] = fixShare(bike, end, circuit);
    }
  }
  return { clicks, crossTalk };
}
