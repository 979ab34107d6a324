/** Any bike sheet the reader could give, for laws. */
import * as fc from 'fast-check';
import { LIMITS, type Range } from '../../src/bike/form/limits.ts';
import {
  CIRCUITS,
  type Adjuster,
  type AirSpring,
  type BikeSheet,
  type CoilSpring,
  type EndSheet,
  type UnitChoice,
} from '../../src/bike/sheet.ts';
import { unitsOf } from '../../src/bike/units.ts';

const within = ([min, max]: Range): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const whole = ([min, max]: Range): fc.Arbitrary<number> => fc.integer({ min, max });
const word = fc.string({ minLength: 1, maxLength: 12, unit: fc.constantFrom(...'abcdefgh-0') });

/** Without the keys that hold nothing, as the reader gives them. */
function maybe<T>(
  required: Record<string, fc.Arbitrary<unknown>>,
  optional: Record<string, fc.Arbitrary<unknown>>,
): fc.Arbitrary<T> {
  return fc.record(
    { ...required, ...optional },
    { requiredKeys: Object.keys(required) },
  ) as unknown as fc.Arbitrary<T>;
}

const adjuster: fc.Arbitrary<Adjuster> = whole(LIMITS.clicks).chain((range) =>
  maybe<Adjuster>(
    { range: fc.constant(range) },
    { now: whole([0, range]), maker: whole([0, range]), ratio: within(LIMITS.ratio) },
  ),
);

const pressure = within(LIMITS.springPressure);
const air: fc.Arbitrary<AirSpring> = maybe<AirSpring>(
  { kind: fc.constant('air') },
  {
    pressure,
    pressureMin: pressure,
    pressureMax: pressure,
    pressureMaker: pressure,
    spacers: whole([0, 5]),
    spacersMax: whole([0, 5]),
  },
).map((spring) => ({
  ...spring,
  ...(spring.pressureMin !== undefined &&
    spring.pressureMax !== undefined && {
      pressureMin: Math.min(spring.pressureMin, spring.pressureMax),
      pressureMax: Math.max(spring.pressureMin, spring.pressureMax),
    }),
  ...(spring.spacers !== undefined && { spacers: Math.min(spring.spacers, spring.spacersMax ?? 5) }),
}));
const coil = maybe<CoilSpring>(
  { kind: fc.constant('coil') },
  {
    rate: within(LIMITS.rate),
    preload: within(LIMITS.preload),
    preloadMax: within(LIMITS.preload),
    preloadPerTurn: within(LIMITS.preloadPerTurn),
  },
);

function anyEnd(rear: boolean): fc.Arbitrary<EndSheet> {
  const point = fc.record({
    circuit: fc.constantFrom('rebound', 'compression'),
    speed: within(LIMITS.shaftSpeed),
    force: within(LIMITS.force),
    low: fc.constant(0),
    high: fc.constant(1),
  });
  return maybe<EndSheet>(
    {
      travel: within([0.1, 0.35]),
      spring: fc.oneof(air, coil),
      adjusters: fc.record(Object.fromEntries(CIRCUITS.map((c) => [c, adjuster])), { requiredKeys: [] }),
    },
    {
      ...(rear && {
        stroke: within([0.015, 0.1]),
        leverage: fc.tuple(within(LIMITS.leverage), within(LIMITS.leverage), within(LIMITS.leverage)),
      }),
      sagMeasured: within(LIMITS.sag),
      sagWanted: within(LIMITS.sag),
      travelUsed: within(LIMITS.travelUsed),
      tyre: maybe({}, { now: within(LIMITS.tyrePressure), wanted: within(LIMITS.tyrePressure) }),
      curve: fc.array(point, { maxLength: 3 }),
      note: word,
    },
  );
}

const units: fc.Arbitrary<UnitChoice> = fc.record({
  pressure: fc.constantFrom(...unitsOf('pressure')),
  mass: fc.constantFrom(...unitsOf('mass')),
  rate: fc.constantFrom(...unitsOf('rate')),
  length: fc.constantFrom(...unitsOf('length')),
});

export const anySheet: fc.Arbitrary<BikeSheet> = maybe<BikeSheet>(
  {
    id: word,
    kind: fc.constantFrom('trail', 'enduro', 'downhill'),
    units,
    ends: fc.record({ front: anyEnd(false), rear: anyEnd(true) }),
  },
  {
    name: word,
    riderMass: within(LIMITS.riderMass),
    bikeMass: within(LIMITS.bikeMass),
    geometry: maybe({}, { wheelbase: within(LIMITS.wheelbase), headAngle: within(LIMITS.headAngle) }),
    cockpit: maybe(
      {},
      { spacersUnderStem: within(LIMITS.stemSpacers), leverAngle: within(LIMITS.leverAngle) },
    ),
    changed: fc.array(maybe({ what: word }, { when: fc.constantFrom('2026-04-01') }), { maxLength: 3 }),
    note: word,
  },
);
