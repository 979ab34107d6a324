/** Measured sag, where it tells how the bike sags on a ride. */
import type { EndSheet } from './sheet.ts';

/**
 * @returns share of the travel; undefined where nothing was measured, or where it was with the lever closed or without
 * the kit: then it says nothing of how the bike sags on a ride
 */
export function sagOnRide({ sagMeasured, sagBasis }: EndSheet): number | undefined {
  return sagBasis?.lever === 'closed' || sagBasis?.kit === 'without' ? undefined : sagMeasured;
}
