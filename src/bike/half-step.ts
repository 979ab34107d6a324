/** The smaller step that lies between where something stood and where it was turned to. */
import type { Change } from './change.ts';
import { grainOf } from './dial/dial.ts';

/** Half of a step as it can be set, rounded down to its grain; undefined where that is nothing. */
export function halfStep({ setting, by, unit }: Change): Change | undefined {
  const grain = grainOf(unit);
  // Seven digits, without the dust of dividing.
  const half = Number((Math.floor(Math.abs(by) / 2 / grain) * grain).toFixed(7));
  return half === 0 ? undefined : { setting, by: Math.sign(by) * half, unit };
}
