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
    ...unless(
      riderMass,
      "the rider's mass is not written down",
      'Weigh the rider with all kit on: rider-mass.',
    ),
    ...unless(
      bikeMass,
      "the bike's mass is not written down",
      'Weigh it: bike-mass. Predictions need it.',
      'note',
    ),
    ...unless(
      geometry?.wheelbase,
      'the wheelbase is not written down',
      'Measure from axle to axle: geometry: { wheelbase: }. Predictions need it.',
      'note',
    ),
    ...changed
      .filter((change) => change.when === undefined)
      .map(({ what }): Told => ({
        severity: 'missing',
        message: `nobody wrote down when this was changed: ${what}`,
        todo: 'Write when:. Within the first rides a rider is still getting used to it.',
      })),
  ];
}

function endChecks(sheet: BikeSheet, end: End): Told[] {
  const part = sheet.ends[end];
  if (part.rigid === true) return [...tyreChecks(sheet, part), ...knobChecks(sheet, end)];
  return [
    ...tyreChecks(sheet, part),
    ...springChecks(sheet, part),
    ...sagChecks(part),
    ...basisChecks(part),
    ...reboundChecks(part),
    ...knobChecks(sheet, end),
    ...(end === 'rear' ? linkageChecks(sheet, part) : []),
    ...unless(
      part.travelUsed,
      'how much travel the hardest run used is not written down',
      'Push the ring down, ride, measure: travel-used.',
      'note',
    ),
  ];
}

function tyreChecks({ units }: BikeSheet, { tyre }: EndSheet): Told[] {
  const { now, wanted } = tyre ?? {};
  if (now === undefined || wanted === undefined)
    return [
      ...unless(now, 'the tyre pressure now is not written down', 'Read it with a gauge: tyre: { now: }.'),
      ...unless(wanted, 'the tyre pressure wanted is not written down', 'Write tyre: { wanted: }.', 'note'),
    ];
  return Math.abs(now - wanted) / wanted <= TYRE_SLACK
    ? []
    : [
        {
          severity: 'check',
          message: `the tyre is at ${inUnit(now, units.pressure)} where ${writeQuantity(wanted, units.pressure)} is wanted`,
          todo: 'Set it with a gauge before anything else is judged.',
        },
      ];
}

function springChecks({ units }: BikeSheet, { spring }: EndSheet): Told[] {
  if (spring.kind === 'coil') {
    const { rate, preload, preloadMax } = spring;
    return [
      ...unless(rate, 'the spring rate is not written down', 'It is printed on the coil: spring: { rate: }.'),
      ...unless(
        preload,
        'the preload is not written down',
        'Measure it: spring: { preload: }. That is the way back.',
      ),
      ...unless(
        preloadMax,
        "the maker's most preload is not written down",
        'See its manual: preload-max.',
        'note',
      ),
      ...(preload !== undefined && preload > (preloadMax ?? Infinity)
        ? [
            {
              severity: 'check' as const,
              message: `the preload of ${writeQuantity(preload, units.length)} is above the maker's ${writeQuantity(preloadMax!, units.length)}`,
              todo: 'Turn it back before riding, and look for a stiffer coil.',
            },
          ]
        : []),
    ];
  }
  const { pressure, pressureMin = -Infinity, pressureMax = Infinity } = spring;
  const beyond = pressure !== undefined && (pressure < pressureMin || pressure > pressureMax);
  return [
    ...unless(
      pressure,
      'the spring pressure is not written down',
      'Read it with a shock pump: spring: { pressure: }.',
    ),
    ...(beyond
      ? [
          {
            severity: 'check' as const,
            message: `the spring pressure of ${writeQuantity(pressure, units.pressure)} is ${pressure > pressureMax ? 'above' : 'below'} the maker's limit of ${writeQuantity(pressure > pressureMax ? pressureMax : pressureMin, units.pressure)}`,
            todo: 'Do not ride it so: read it again with another gauge, and set it inside the limits.',
          },
        ]
      : []),
    ...unless(
      spring.pressureMax,
      "the maker's most pressure is not written down",
      'See its manual: spring: { max: }. Without it nothing here can stop at it.',
      'note',
    ),
  ];
}

function sagChecks({ sagMeasured: is, sagWanted: wanted }: EndSheet): Told[] {
  if (is === undefined || wanted === undefined)
    return [
      ...unless(
        is,
        'the sag measured is not written down',
        'Measure it in riding position, kit on: sag: { measured: }.',
      ),
      ...unless(wanted, 'the sag wanted is not written down', "See the maker's manual: sag: { wanted: }."),
    ];
  return Math.abs(inPercent(is) - inPercent(wanted)) <= SAG_SLACK
    ? []
    : [
        {
          severity: 'check',
          message: `sag is ${inPercent(is)} % where ${inPercent(wanted)} % is wanted`,
          todo: 'Set the spring first, then look at rebound again.',
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

function reboundChecks({ adjusters }: EndSheet): Told[] {
  const [rebound] = SIDES;
  return rebound!.circuits.every((circuit) => adjusters[circuit] === undefined)
    ? [
        {
          severity: 'missing',
          message: `no ${rebound!.side} knob is written down`,
          todo: 'If there is one, write rebound: { low: { clicks:, now: } }.',
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
    if (names !== undefined) return unless(now, `${name}: nobody wrote down where it stands`, row.own!.find);
    if (!clicks) return unless(now, `${name} is not written down`, row.own!.find);
    const near = row.circuit === undefined ? undefined : sheet.ends[end].adjusters[row.circuit]?.near;
    const stop = now === 0 ? 'closed' : now !== undefined && now === of ? 'open' : undefined;
    return [
      ...unless(
        now,
        near === undefined
          ? `${name}: clicks now unknown`
          : `${name}: clicks now unknown; it stands about here: ${near}`,
        'Count from fully closed and turn it back: that is the way back.',
      ),
      ...unless(
        maker,
        `${name}: the maker's starting clicks are not written down`,
        'See its manual; count from closed.',
        'note',
      ),
      ...(stop === undefined
        ? []
        : [
            {
              severity: 'note' as const,
              message: `${name} stands fully ${stop}`,
              todo: `There is no way further that side${maker === undefined ? '' : `; the maker starts at ${maker}`}.`,
            },
          ]),
    ];
  });
}

function linkageChecks({ units }: BikeSheet, { travel, stroke, leverage, spring }: EndSheet): Told[] {
  if (stroke === undefined)
    return unless(
      stroke,
      'the shock stroke is not written down',
      "See the frame's sheet: stroke. Spring and damper work at the shock, not at the wheel.",
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
          message: `these leverages and this travel need a stroke of ${writeQuantity(expected, units.length)}, the sheet says ${writeQuantity(stroke, units.length)}`,
          todo: "Check travel, stroke and leverage against the frame's sheet.",
        },
      ];
}

function unless(
  value: number | undefined,
  message: string,
  todo: string,
  severity: Told['severity'] = 'missing',
): Told[] {
  return value === undefined ? [{ severity, message, todo }] : [];
}
