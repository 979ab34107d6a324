/** What a bike sheet does not say, or says doubtfully, and what to do about each: the basics, before any click. */
import { knobChecks, reboundChecks } from './knob-checks.ts';
import { uncounted, type SheetCheck, type Told } from './sheet-check.ts';
import { ENDS, type BikeSheet, type End } from '../sheet.ts';
import { basisChecks, linkageChecks, sagChecks, springChecks, tyreChecks } from './spring-checks.ts';

/** Most serious first; within that, front before rear, in the order in which a mechanic would go. */
export function checkSheet(sheet: BikeSheet): SheetCheck[] {
  const all: SheetCheck[] = [
    ...bikeChecks(sheet),
    ...ENDS.flatMap((end) => endChecks(sheet, end).map((told): SheetCheck => ({ end, ...told }))),
  ];
  const order: readonly SheetCheck['severity'][] = ['check', 'missing', 'note'];
  return order.flatMap((severity) => all.filter((told) => told.severity === severity));
}

function bikeChecks(sheet: BikeSheet): Told[] {
  const { riderMass, bikeMass, geometry, changed = [] } = sheet;
  return [
    ...uncounted(riderMass, 'rider weight not recorded', 'Weigh the rider in full kit.', 'rider-mass=N'),
    ...uncounted(
      bikeMass,
      'bike weight not recorded',
      'Predictions need it. Weigh it.',
      'bike-mass=N',
      'note',
    ),
    ...uncounted(
      geometry?.wheelbase,
      'wheelbase not recorded',
      'Predictions need it. Measure from axle to axle.',
      'geometry.wheelbase=N',
      'note',
    ),
    ...changed
      .filter((change) => change.when === undefined)
      .map(({ what }): Told => ({
        severity: 'missing',
        message: `date of this change not recorded: ${what}`,
        todo: 'Add the date under when: (year-month-day). It takes a few rides to get used to a change.',
      })),
  ];
}

function endChecks(sheet: BikeSheet, end: End): Told[] {
  const part = sheet.ends[end];
  if (part.rigid === true) return [...tyreChecks(sheet, part, end), ...knobChecks(sheet, end)];
  return [
    ...uncounted(
      part.travel === 0 ? undefined : part.travel,
      'wheel travel not recorded',
      'See the specification, or measure it.',
      `${end}.travel=N`,
      'note',
    ),
    ...tyreChecks(sheet, part, end),
    ...springChecks(sheet, part, end),
    ...sagChecks(part, end),
    ...basisChecks(part),
    ...reboundChecks(part, end),
    ...knobChecks(sheet, end),
    ...(end === 'rear' ? linkageChecks(sheet, part) : []),
    ...uncounted(
      part.travelUsed,
      'travel used on the hardest run not recorded',
      'Push the O-ring down, ride, measure.',
      `${end}.travel-used=N%`,
      'note',
    ),
  ];
}
