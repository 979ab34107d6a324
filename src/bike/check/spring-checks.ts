/** What carries the bike, as its sheet has it: tyre, spring, sag, and the linkage between. */
import { USUAL_PRELOAD, tyreByMass } from '../end-readings.ts';
import { findOf } from '../settings.ts';
import { told, uncounted, type Told, type SheetTrade } from './sheet-check.ts';
import type { BikeSheet, End, EndSheet } from '../sheet.ts';
import { inPercent, inUnit, writeQuantity } from '../units.ts';

type Todo = SheetTrade['todo'];

export function tyreChecks(
  sheet: BikeSheet,
  { tyre }: EndSheet,
  end: End,
  { near, todo }: SheetTrade,
): Told[] {
  const { units } = sheet;
  const { now, wanted } = tyre ?? {};
  const far = tyreByMass(sheet, end, near['tyre-for']);
  // A target that is as far off as the pressure makes neither of them right.
  if (far !== undefined && far.is !== 'usual')
    return told(
      'check',
      `the tyre is at ${inUnit(now!, units.pressure)}; ${writeQuantity(far.usual, units.pressure)} is usual for this weight`,
      todo[`tyre-${far.is}`],
    );
  if (now === undefined || wanted === undefined)
    return [
      ...uncounted(now, 'current tyre pressure not recorded', findOf(`${end}.tyre`), `${end}.tyre=N`),
      ...uncounted(
        wanted,
        'target tyre pressure not recorded',
        todo['tyre-target'],
        `${end}.tyre.wanted=N`,
        'note',
      ),
    ];
  if (Math.abs(now - wanted) / wanted <= near.tyre / 100) return [];
  return told(
    'check',
    `the tyre is at ${inUnit(now, units.pressure)}, target ${writeQuantity(wanted, units.pressure)}`,
    todo['tyre-off'],
  );
}

export function springChecks(sheet: BikeSheet, { spring }: EndSheet, end: End, todo: Todo): Told[] {
  return spring.kind === 'coil' ? coilChecks(sheet, spring, end, todo) : airChecks(sheet, spring, end, todo);
}

function coilChecks(
  { units: { length } }: BikeSheet,
  { rate, preload, preloadMax }: Extract<EndSheet['spring'], { kind: 'coil' }>,
  end: End,
  todo: Todo,
): Told[] {
  const at = `${end}.spring`;
  const most = preloadMax ?? USUAL_PRELOAD;
  return [
    ...uncounted(rate, 'spring rate not recorded', findOf(`${at}.rate`), `${at}.rate=N`),
    ...uncounted(preload, 'preload not recorded', todo.preload, `${at}.preload=N`),
    ...uncounted(
      preloadMax,
      'maximum preload (manufacturer) not recorded',
      todo['preload-max'],
      `${at}.preload-max=N`,
      'note',
    ),
    ...(preload === undefined || preload <= most
      ? []
      : preloadMax === undefined
        ? told(
            'check',
            `the preload of ${writeQuantity(preload, length)} is more than a coil usually has`,
            todo['preload-unusual'],
          )
        : told(
            'check',
            `the preload of ${writeQuantity(preload, length)} is above the manufacturer's maximum of ${writeQuantity(most, length)}`,
            todo['preload-over'],
          )),
  ];
}

function airChecks(
  { units }: BikeSheet,
  { pressure, pressureMin = -Infinity, pressureMax }: Extract<EndSheet['spring'], { kind: 'air' }>,
  end: End,
  todo: Todo,
): Told[] {
  const most = pressureMax ?? Infinity;
  const beyond = pressure !== undefined && (pressure < pressureMin || pressure > most);
  return [
    ...uncounted(
      pressure,
      'spring pressure not recorded',
      findOf(`${end}.spring`),
      `${end}.spring.pressure=N`,
    ),
    ...(beyond
      ? told(
          'check',
          `the spring pressure of ${writeQuantity(pressure, units.pressure)} is ${pressure > most ? 'above' : 'below'} the manufacturer's limit of ${writeQuantity(pressure > most ? most : pressureMin, units.pressure)}`,
          todo['pressure-beyond'],
        )
      : []),
    ...uncounted(
      pressureMax,
      'maximum pressure (manufacturer) not recorded',
      todo['pressure-max'],
      `${end}.spring.max=N`,
      'note',
    ),
  ];
}

export function sagChecks(
  { sagMeasured: is, sagWanted: wanted }: EndSheet,
  end: End,
  { near, todo }: SheetTrade,
): Told[] {
  if (is === undefined || wanted === undefined)
    return [
      ...uncounted(is, 'measured sag not recorded', findOf(`${end}.sag.measured`), `${end}.sag=N%`),
      ...uncounted(wanted, 'target sag not recorded', todo['sag-target'], `${end}.sag.wanted=N%`),
    ];
  if (Math.abs(inPercent(is) - inPercent(wanted)) <= near.sag) return [];
  return told('check', `sag is ${inPercent(is)} %, target ${inPercent(wanted)} %`, todo['sag-off']);
}

/** A sag that was measured otherwise than it is meant says nothing. */
export function basisChecks({ sagMeasured, sagBasis = {} }: EndSheet, todo: Todo): Told[] {
  if (sagMeasured === undefined) return [];
  const again = todo['sag-basis'];
  return [
    ...(sagBasis.lever === 'closed' ? told('check', 'sag was measured with the lever closed', again) : []),
    ...(sagBasis.kit === 'without' ? told('check', "sag was measured without the rider's kit", again) : []),
  ];
}

export function linkageChecks(
  { units }: BikeSheet,
  { travel, stroke, leverage, spring }: EndSheet,
  { near, todo }: SheetTrade,
): Told[] {
  if (stroke === undefined)
    return uncounted(
      stroke,
      'shock stroke not recorded',
      todo.stroke,
      'rear.stroke=N',
      spring.kind === 'coil' ? 'missing' : 'note',
    );
  if (leverage === undefined) return [];
  // The stroke is the travel times the mean of 1/leverage over it; by Simpson's rule from the three ratios.
  const [start, middle, last] = leverage;
  const expected = (travel * (1 / start + 4 / middle + 1 / last)) / 6;
  if (Math.abs(expected / stroke - 1) <= near.leverage / 100) return [];
  return told(
    'check',
    `leverage and travel need a stroke of ${writeQuantity(expected, units.length)}, the sheet says ${writeQuantity(stroke, units.length)}`,
    todo['leverage-off'],
  );
}
