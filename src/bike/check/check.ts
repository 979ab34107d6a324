/** What a bike sheet does not say, or says doubtfully, and what to do about each: the basics, before any click. */
import { knobChecks, reboundChecks } from './knob-checks.ts';
import { findOf } from '../settings.ts';
import { told, uncounted, type SheetCheck, type Told } from './sheet-check.ts';
import type { SheetTrade } from './sheet-trade.ts';
import { ENDS, type BikeSheet, type End } from '../sheet.ts';
import { basisChecks, linkageChecks, sagChecks, springChecks, tyreChecks } from './spring-checks.ts';

/** Most serious first; within that, front before rear, in the order in which a mechanic would go. */
export function checkSheet(sheet: BikeSheet, trade: SheetTrade): SheetCheck[] {
  const all: SheetCheck[] = [
    ...bikeChecks(sheet, trade),
    ...ENDS.flatMap((end) => endChecks(sheet, end, trade).map((told): SheetCheck => ({ end, ...told }))),
  ];
  const order: readonly SheetCheck['severity'][] = ['check', 'missing', 'note'];
  return order.flatMap((severity) => all.filter((told) => told.severity === severity));
}

function bikeChecks(sheet: BikeSheet, { todo }: SheetTrade): Told[] {
  const { riderMass, bikeMass, geometry, changed = [] } = sheet;
  return [
    ...uncounted(riderMass, 'rider weight not recorded', todo['rider-mass'], 'rider-mass=N'),
    ...uncounted(bikeMass, 'bike weight not recorded', todo['bike-mass'], 'bike-mass=N', 'note'),
    ...uncounted(
      geometry?.wheelbase,
      'wheelbase not recorded',
      todo.wheelbase,
      'geometry.wheelbase=N',
      'note',
    ),
    ...changed
      .filter((change) => change.when === undefined)
      .flatMap(({ what }) =>
        told('missing', `date of this change not recorded: ${what}`, todo['change-date']),
      ),
  ];
}

function endChecks(sheet: BikeSheet, end: End, trade: SheetTrade): Told[] {
  const { todo } = trade;
  const part = sheet.ends[end];
  if (part.rigid === true) return [...tyreChecks(sheet, part, end, trade), ...knobChecks(sheet, end, trade)];
  return [
    ...uncounted(
      part.travel === 0 ? undefined : part.travel,
      'wheel travel not recorded',
      todo.travel,
      `${end}.travel=N`,
      'note',
    ),
    ...tyreChecks(sheet, part, end, trade),
    ...springChecks(sheet, part, end, todo),
    ...sagChecks(part, end, trade),
    ...basisChecks(part, todo),
    ...reboundChecks(part, end, todo),
    ...knobChecks(sheet, end, trade),
    ...(end === 'rear' ? linkageChecks(sheet, part, trade) : []),
    ...uncounted(
      part.travelUsed,
      'travel used on the hardest run not recorded',
      findOf(`${end}.travel-used`),
      `${end}.travel-used=N%`,
      'note',
    ),
  ];
}
