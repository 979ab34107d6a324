/** What a bike sheet does not say, or says doubtfully, and what to do about each: the basics, before any click. */
import { SIDES } from './circuits.ts';
import { rowsOf } from './settings.ts';
import { settingWords } from './setting-words.ts';
import { ENDS, type BikeSheet, type End, type EndSheet } from './sheet.ts';
import { inPercent, inUnit, writeQuantity } from './units.ts';

export interface SheetCheck {
  /** absent when it is about the whole bike */
  readonly end?: End;
  /** `check`: outside a limit or against itself, look before riding; `missing`: not written down; `note`: worth knowing */
  readonly severity: 'check' | 'missing' | 'note';
  readonly message: string;
  readonly todo: string;
  /** the number that is missing, as `earshot bike set` takes it: `rear.sag=N%`; absent where none is */
  readonly writeDown?: string;
}

type Told = Omit<SheetCheck, 'end'>;

/** Percentage points of travel: closer than that is within what reading a ring by eye gives (judgement, no source). */
const SAG_SLACK = 2;
/** Share of the pressure: gauges differ by about that (judgement, no source). */
const TYRE_SLACK = 0.05;
/** Share: leverage read off a drawing is not better than that (judgement, no source). */
const LEVERAGE_SLACK = 0.05;

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
    ...uncounted(riderMass, 'rider mass not recorded', 'Weigh the rider in full kit.', 'rider-mass=N'),
    ...uncounted(bikeMass, 'bike mass not recorded', 'Predictions need it. Weigh it.', 'bike-mass=N', 'note'),
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
        todo: 'Add when:. It takes a few rides to get used to a change.',
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

function tyreChecks({ units }: BikeSheet, { tyre }: EndSheet, end: End): Told[] {
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

function springChecks({ units }: BikeSheet, { spring }: EndSheet, end: End): Told[] {
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
      'Without it no advice can stop at the limit. See the manual.',
      `${end}.spring.max=N`,
      'note',
    ),
  ];
}

function sagChecks({ sagMeasured: is, sagWanted: wanted }: EndSheet, end: End): Told[] {
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
function basisChecks({ sagMeasured, sagBasis = {} }: EndSheet): Told[] {
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

function reboundChecks({ adjusters }: EndSheet, end: End): Told[] {
  const [rebound] = SIDES;
  return rebound!.circuits.every((circuit) => adjusters[circuit] === undefined)
    ? [
        {
          severity: 'missing',
          message: `no ${rebound!.side} knob recorded`,
          todo: 'If there is one, count its clicks.',
          writeDown: `${end}.rebound.low.clicks=N`,
        },
      ]
    : [];
}

/** Every knob and switch of an end, those that packs added included. */
function knobChecks(sheet: BikeSheet, end: End): Told[] {
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
          : `${name}: current setting not recorded; it stands about here: ${near}`,
        'Count from fully closed, then turn it back. You need the number to undo a change.',
      ),
      ...unless(
        maker,
        `${name}: recommended clicks not recorded`,
        'See the manual; count from closed.',
        'note',
      ),
      ...(stop === undefined
        ? []
        : [
            {
              severity: 'note' as const,
              message: `${name} is fully ${stop}`,
              todo: `There is no way further that side${maker === undefined ? '' : `; ${maker} is recommended`}.`,
            },
          ]),
    ];
  });
}

function linkageChecks({ units }: BikeSheet, { travel, stroke, leverage, spring }: EndSheet): Told[] {
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

/** Where only a number is missing. */
function uncounted(
  value: number | undefined,
  message: string,
  todo: string,
  writeDown: string,
  severity: Told['severity'] = 'missing',
): Told[] {
  return unless(value, message, todo, severity).map((told) => ({ ...told, writeDown }));
}

function unless(
  value: number | undefined,
  message: string,
  todo: string,
  severity: Told['severity'] = 'missing',
): Told[] {
  return value === undefined ? [{ severity, message, todo }] : [];
}
