/** What a bike sheet does not say, or says doubtfully, and what to do about each: the basics, before any click. */
import { findOf, rowsOf } from '../settings.ts';
import { told, uncounted, type SheetCheck, type Told, type SheetTrade, unless } from './sheet-check.ts';
import { ENDS, type BikeSheet, type End, type EndSheet } from '../sheet.ts';
import { basisChecks, linkageChecks, sagChecks, springChecks, tyreChecks } from './spring-checks.ts';
import { SIDES } from '../circuits.ts';
import { settingWords } from '../setting-words.ts';

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

function reboundChecks({ adjusters }: EndSheet, end: End, todo: SheetTrade['todo']): Told[] {
  const [rebound] = SIDES;
  return rebound!.circuits.every((circuit) => adjusters[circuit] === undefined)
    ? uncounted(undefined, `no ${rebound!.side} knob recorded`, todo.rebound, `${end}.rebound.low.clicks=N`)
    : [];
}

/** Every knob and switch of an end, those that packs added included. */
function knobChecks(sheet: BikeSheet, end: End, { near: enough, todo }: SheetTrade): Told[] {
  return rowsOf(sheet.settings).flatMap((row): Told[] => {
    if (row.end !== end || (row.circuit === undefined && row.own === undefined)) return [];
    const said = row.shown(sheet);
    if (said === undefined) return [];
    const name = settingWords(row.setting, sheet).replace(`${end} `, '');
    const { now, of, maker, names, unit } = said;
    const clicks = unit === 'clicks';
    if (names !== undefined) return unless(now, `${name}: current setting not recorded`, row.own!.find);
    if (!clicks) return unless(now, `${name} not recorded`, row.own!.find);
    const near = row.circuit === undefined ? undefined : sheet.ends[end].adjusters[row.circuit]?.near;
    const stop = now === 0 ? 'closed' : now !== undefined && now === of ? 'open' : undefined;
    return [
      ...unless(
        now,
        near === undefined
          ? `${name}: current setting not recorded`
          : `${name}: current setting not recorded; roughly: ${near}`,
        todo.clicks,
      ),
      ...unless(maker, `${name}: recommended clicks not recorded`, todo.recommended, 'note'),
      ...(stop === undefined &&
      now !== undefined &&
      maker !== undefined &&
      Math.abs(now - maker) > enough.clicks
        ? told(
            'note',
            `${name} is at ${now}, ${Math.abs(now - maker)} clicks more ${now > maker ? 'open' : 'closed'} than the recommended ${maker}`,
            todo['clicks-off'],
          )
        : []),
      ...(stop === undefined
        ? []
        : told(
            'note',
            `${name} is fully ${stop}`,
            `It goes no further that way${maker === undefined ? '' : `; ${maker} is recommended`}.`,
          )),
    ];
  });
}
