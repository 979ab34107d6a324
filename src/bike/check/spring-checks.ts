/** What carries the bike, as its sheet has it: tyre, spring, sag, and the linkage between. */
import { USUAL_PRELOAD } from '../preload.ts';
import { uncounted, type Told } from './sheet-check.ts';
import type { BikeSheet, End, EndSheet } from '../sheet.ts';
import { inPercent, inUnit, writeQuantity } from '../units.ts';

/** Percentage points of travel: closer than that is within what reading a ring by eye gives (judgement, no source). */
const SAG_SLACK = 2;
/** Share of the pressure: gauges differ by about that (judgement, no source). */
const TYRE_SLACK = 0.05;
/** Share: leverage read off a drawing is not better than that (judgement, no source). */
const LEVERAGE_SLACK = 0.05;

export function tyreChecks({ units }: BikeSheet, { tyre }: EndSheet, end: End): Told[] {
  const { now, wanted } = tyre ?? {};
  if (now === undefined || wanted === undefined)
    return [
      ...uncounted(now, 'current tyre pressure not recorded', 'Read it with a gauge.', `${end}.tyre=N`),
      ...uncounted(
        wanted,
        'target tyre pressure not recorded',
        'Decide on one, and keep to it.',
        `${end}.tyre.wanted=N`,
        'note',
      ),
    ];
  return Math.abs(now - wanted) / wanted <= TYRE_SLACK
    ? []
    : [
        {
          severity: 'check',
          message: `the tyre is at ${inUnit(now, units.pressure)}, target ${writeQuantity(wanted, units.pressure)}`,
          todo: 'Set it with a gauge before anything else is judged.',
        },
      ];
}

export function springChecks({ units }: BikeSheet, { spring }: EndSheet, end: End): Told[] {
  if (spring.kind === 'coil') {
    const { rate, preload, preloadMax } = spring;
    return [
      ...uncounted(rate, 'spring rate not recorded', 'It is printed on the coil.', `${end}.spring.rate=N`),
      ...uncounted(
        preload,
        'preload not recorded',
        'You need it to undo a change. Measure it.',
        `${end}.spring.preload=N`,
      ),
      ...uncounted(
        preloadMax,
        'maximum preload (manufacturer) not recorded',
        'See the manual.',
        `${end}.spring.preload-max=N`,
        'note',
      ),
      ...(preload !== undefined && preloadMax === undefined && preload > USUAL_PRELOAD
        ? [
            {
              severity: 'check' as const,
              message: `the preload of ${writeQuantity(preload, units.length)} is more than a coil usually has`,
              todo: 'The sag may be right and the coil too soft. Look for a stiffer coil with a turn or two.',
            },
          ]
        : []),
      ...(preload !== undefined && preload > (preloadMax ?? Infinity)
        ? [
            {
              severity: 'check' as const,
              message: `the preload of ${writeQuantity(preload, units.length)} is above the manufacturer's maximum of ${writeQuantity(preloadMax!, units.length)}`,
              todo: 'Turn it back before riding, and look for a stiffer coil.',
            },
          ]
        : []),
    ];
  }
  const { pressure, pressureMin = -Infinity, pressureMax = Infinity } = spring;
  const beyond = pressure !== undefined && (pressure < pressureMin || pressure > pressureMax);
  return [
    ...uncounted(
      pressure,
      'spring pressure not recorded',
      'Read it with a shock pump.',
      `${end}.spring.pressure=N`,
    ),
    ...(beyond
      ? [
          {
            severity: 'check' as const,
            message: `the spring pressure of ${writeQuantity(pressure, units.pressure)} is ${pressure > pressureMax ? 'above' : 'below'} the manufacturer's limit of ${writeQuantity(pressure > pressureMax ? pressureMax : pressureMin, units.pressure)}`,
            todo: 'Do not ride it like this. Check it with another gauge and set it inside the limits.',
          },
        ]
      : []),
    ...uncounted(
      spring.pressureMax,
      'maximum pressure (manufacturer) not recorded',
      'Without it, advice cannot stop at the limit. See the manual.',
      `${end}.spring.max=N`,
      'note',
    ),
  ];
}

export function sagChecks({ sagMeasured: is, sagWanted: wanted }: EndSheet, end: End): Told[] {
  if (is === undefined || wanted === undefined)
    return [
      ...uncounted(
        is,
        'measured sag not recorded',
        'Measure it in riding position, in full kit.',
        `${end}.sag=N%`,
      ),
      ...uncounted(
        wanted,
        'target sag not recorded',
        "See the manufacturer's manual.",
        `${end}.sag.wanted=N%`,
      ),
    ];
  return Math.abs(inPercent(is) - inPercent(wanted)) <= SAG_SLACK
    ? []
    : [
        {
          severity: 'check',
          message: `sag is ${inPercent(is)} %, target ${inPercent(wanted)} %`,
          todo: 'Set the spring first, then check rebound again.',
        },
      ];
}

/** A sag that was measured otherwise than it is meant says nothing. */
export function basisChecks({ sagMeasured, sagBasis = {} }: EndSheet): Told[] {
  if (sagMeasured === undefined) return [];
  const again = 'Measure it again: kit on, in riding position, climb lever and lock-out open.';
  return [
    ...(sagBasis.lever === 'closed'
      ? [{ severity: 'check' as const, message: 'sag was measured with the lever closed', todo: again }]
      : []),
    ...(sagBasis.kit === 'without'
      ? [{ severity: 'check' as const, message: "sag was measured without the rider's kit", todo: again }]
      : []),
  ];
}

export function linkageChecks({ units }: BikeSheet, { travel, stroke, leverage, spring }: EndSheet): Told[] {
  if (stroke === undefined)
    return uncounted(
      stroke,
      'shock stroke not recorded',
      "Spring and damper work at the shock, not at the wheel. See the frame's specification.",
      'rear.stroke=N',
      spring.kind === 'coil' ? 'missing' : 'note',
    );
  if (leverage === undefined) return [];
  // The stroke is the travel times the mean of 1/leverage over it; by Simpson's rule from the three ratios.
  const [start, middle, last] = leverage;
  const expected = (travel * (1 / start + 4 / middle + 1 / last)) / 6;
  return Math.abs(expected / stroke - 1) <= LEVERAGE_SLACK
    ? []
    : [
        {
          severity: 'check',
          message: `leverage and travel need a stroke of ${writeQuantity(expected, units.length)}, the sheet says ${writeQuantity(stroke, units.length)}`,
          todo: "Check travel, stroke and leverage against the frame's specification.",
        },
      ];
}
