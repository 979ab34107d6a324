/** Which coil to fit in place of the one that is there. */
import { inUnit, settable, writeQuantity } from '../bike/units.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import type { Model } from '../diagnosis/model.ts';
import type { Adjustment } from '../rulebase/compiled.ts';
import type { Possibility } from './feasibility.ts';
import type { Physics } from './physics.ts';

/**
 * Of another coil, which: the rate that the measured sag asks for with as little preload as the rules leave, and how much
 * that is. Preload that was added to the old coil would stand in for rate.
 */
export function withCoil(
  { rules: { settings, adjustments } }: Model,
  { end, kind, moves }: Adjustment,
  can: Possibility,
  physics: Physics | undefined,
  bike: BikeSheet,
): Possibility {
  const carries = end === undefined ? undefined : physics?.springs?.[end]?.carries;
  if (end === undefined || carries === undefined || !can.can || kind !== 'rebuild') return can;
  if (!moves.some((move) => settings[move.setting]!.kind === 'spring')) return can;
  const { spring } = bike.ends[end];
  if (spring.kind !== 'coil' || spring.preload === undefined) return can;
  const turns = adjustments.find(
    ({ end: own, change }) => own === end && change?.unit === 'turns' && change.notBelow !== undefined,
  )?.change?.notBelow;
  const least =
    turns === undefined || spring.preloadPerTurn === undefined ? Infinity : turns * spring.preloadPerTurn;
  const preload = Math.min(spring.preload, least);
  const { rate: unit, length } = bike.units;
  const rate = inUnit(settable(carries.force / (carries.shaft + preload), unit), unit);
  const held = `${writeQuantity(preload, length)} of preload`;
  const note =
    preload < spring.preload
      ? `fit a coil of about ${rate} ${unit} with ${held}; wind the collar back to that first (now ${writeQuantity(spring.preload, length)})`
      : `fit a coil of about ${rate} ${unit}; it holds with the ${held} that is on now`;
  return { ...can, note };
}
