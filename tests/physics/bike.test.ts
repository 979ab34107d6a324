import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BikeSheet, EndSheet } from '../../src/bike/sheet.ts';
import { GRAVITY } from '../../src/physics/bike/bike.ts';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { damperForce } from '../../src/physics/bike/damper.ts';
import { defaultSheet } from '../../src/physics/usual-bikes.ts';
import { restUnder, sagAt, staticLoads } from '../../src/physics/bike/equilibrium.ts';
import { bikeFromSheet, defaultBike } from '../../src/physics/bike/from-sheet.ts';
import { fullStroke, ratioAt, shaftTravel, wheelTravel } from '../../src/physics/bike/linkage.ts';
import { springForce } from '../../src/physics/bike/spring.ts';
import { standingOn } from '../../src/physics/slope.ts';

const KINDS = ['trail', 'enduro', 'downhill'] as const;
const ENDS = ['front', 'rear'] as const;

/** Sag of the model as a share of the shaft's stroke. */
function sagOf(sheet: BikeSheet, end: 'front' | 'rear'): number {
  const bike = bikeFromSheet(sheet);
  const { linkage } = bike.ends[end];
  const wheel = sagAt(compileBike(bike)[end], staticLoads(bike.body)[end]);
  return shaftTravel(linkage, wheel) / fullStroke(linkage);
}

function withPart(sheet: BikeSheet, end: 'front' | 'rear', part: Partial<EndSheet>): BikeSheet {
  return { ...sheet, ends: { ...sheet.ends, [end]: { ...sheet.ends[end], ...part } } };
}

describe.each(KINDS)('a usual %s bike', (kind) => {
  const sheet = defaultSheet(kind);
  const bike = defaultBike(kind);

  it('sits at its sag at both ends', () => {
    for (const end of ENDS) expect(sagOf(sheet, end)).toBeCloseTo(sheet.ends[end].sagMeasured!, 4);
  });

  it('comes to rest, on air or a coil, where its spring carries what stands on it', () => {
    // N/m, soft enough that no stop is touched
    const RATES = { front: 8000, rear: 70_000 } as const;
    for (const end of ENDS)
      for (const spring of [sheet.ends[end].spring, { kind: 'coil', rate: RATES[end] } as const])
        for (const share of [0.8, 1.2]) {
          const { ends, body } = bikeFromSheet(withPart(sheet, end, { spring }));
          const part = ends[end];
          const load = share * staticLoads(body)[end];
          const wheel = restUnder(part, load);
          const force = springForce(part.spring, shaftTravel(part.linkage, wheel));
          expect(force / ratioAt(part.linkage, wheel)).toBeCloseTo(load, 4);
        }
  });

  it('has rebound damping between 0.3 and 0.75 of critical, above its compression damping', () => {
    const standing = standingOn(bike, 0);
    for (const end of ENDS) {
      expect(standing[end].damping).toBeGreaterThan(0.3);
      expect(standing[end].damping).toBeLessThan(0.75);
      for (const v of [0.05, 0.2, 1, 3])
        expect(damperForce(bike.ends[end].rebound, v)).toBeGreaterThan(
          damperForce(bike.ends[end].compression, v),
        );
    }
  });

  it('bounces at between 1.5 and 3.5 Hz on each end', () => {
    const standing = standingOn(bike, 0);
    for (const end of ENDS) {
      const hertz =
        Math.sqrt(standing[end].stiffness / (bike.body.mass * standing[end].share)) / (2 * Math.PI);
      expect(hertz).toBeGreaterThan(1.5);
      expect(hertz).toBeLessThan(3.5);
    }
  });

  it('carries more than four times its standing load at full travel, and has no notes', () => {
    const compiled = compileBike(bike);
    for (const end of ENDS) {
      const load = staticLoads(bike.body)[end];
      expect(sagAt(compiled[end], 4 * load)).toBeLessThan(bike.ends[end].linkage.travel);
    }
    expect(bike.notes).toEqual([]);
  });
});

describe('a bike sheet', () => {
  const sheet = defaultSheet('enduro');

  it('that gives pressure and measured sag gets a piston that agrees with both', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.4, noNaN: true }),
        fc.double({ min: 3e5, max: 9e5, noNaN: true }),
        (sag, pressure) => {
          const given = withPart(sheet, 'front', {
            sagMeasured: sag,
            spring: { kind: 'air', pressure, spacers: 2 },
          });
          expect(sagOf(given, 'front')).toBeCloseTo(sag, 4);
          const { spring } = bikeFromSheet(given).ends.front;
          expect(spring).toMatchObject({ pressure, spacers: 2 });
        },
      ),
      { numRuns: 30 },
    );
  });

  it('that gives only a pressure sits deeper with less of it', () => {
    const { sagMeasured: _, ...front } = sheet.ends.front;
    const at = (pressure: number): number =>
      sagOf(
        { ...sheet, ends: { ...sheet.ends, front: { ...front, spring: { kind: 'air', pressure } } } },
        'front',
      );
    expect(at(4e5)).toBeGreaterThan(at(5e5));
    expect(at(5e5)).toBeGreaterThan(at(6e5));
  });

  it('that gives a coil without a rate gets the rate that sits at its sag', () => {
    const given = withPart(sheet, 'rear', { spring: { kind: 'coil' }, sagMeasured: 0.32 });
    expect(sagOf(given, 'rear')).toBeCloseTo(0.32, 4);
  });

  it('that gives a coil rate and its sag says where the weight is', () => {
    const rate = 80_000;
    const given = withPart(sheet, 'rear', {
      spring: { kind: 'coil', rate, preload: 0.002 },
      sagMeasured: 0.28,
    });
    const bike = bikeFromSheet(given);
    expect(bike.ends.rear.spring).toMatchObject({ rate, preload: 0.002 });
    expect(sagOf(given, 'rear')).toBeCloseTo(0.28, 3);
    expect(bike.notes).toEqual([]);
  });

  it('whose coil could not carry the rider at its sag is used, with a note', () => {
    const given = withPart(sheet, 'rear', { spring: { kind: 'coil', rate: 200_000 }, sagMeasured: 0.35 });
    const bike = bikeFromSheet(given);
    expect(bike.notes.join(' ')).toContain('check rate, sag and rider weight');
    expect(bike.ends.rear.spring).toMatchObject({ rate: 200_000 });
  });

  it('overrides masses, wheelbase, head angle, travel, stroke and tyre pressure', () => {
    const given: BikeSheet = {
      ...sheet,
      riderMass: 95,
      bikeMass: 18,
      geometry: { wheelbase: 1.3, headAngle: 60 },
      ends: {
        front: { ...sheet.ends.front, travel: 0.18, tyre: { now: 2e5 } },
        rear: { ...sheet.ends.rear, travel: 0.17, stroke: 0.065 },
      },
    };
    const { body, ends } = bikeFromSheet(given);
    expect(body.mass + ends.front.unsprungMass + ends.rear.unsprungMass).toBeCloseTo(113, 9);
    expect(body.toFront + body.toRear).toBeCloseTo(1.3, 12);
    expect(ends.front.linkage.travel).toBeCloseTo(0.18 * Math.sin(Math.PI / 3), 9);
    expect(fullStroke(ends.rear.linkage)).toBeCloseTo(0.065, 9);
    expect(ends.rear.linkage.travel).toBe(0.17);
    expect(ends.front.tyre.pressure).toBe(2e5);
    expect(ends.front.tyre.stiffness).toBeGreaterThan(defaultBike('enduro').ends.front.tyre.stiffness);
  });

  it('with a knob more open than the maker starts it damps less, by its own ratio a click', () => {
    const knob = (now: number): BikeSheet =>
      withPart(sheet, 'front', { adjusters: { 'rebound.low': { range: 20, now, maker: 8, ratio: 1.1 } } });
    const at = (now: number) => bikeFromSheet(knob(now)).ends.front.rebound.orifice;
    expect(at(11) / at(8)).toBeCloseTo(1.1 ** 3, 12);
    expect(at(5) / at(8)).toBeCloseTo(1.1 ** -3, 12);
    expect(bikeFromSheet(knob(8)).ends.front.rebound).toEqual(
      bikeFromSheet(withPart(sheet, 'front', { adjusters: {} })).ends.front.rebound,
    );
  });

  it('that says almost nothing still makes a bike that stands', () => {
    const bare: BikeSheet = {
      id: 'bare',
      kind: 'trail',
      units: sheet.units,
      ends: {
        front: { travel: 0.12, spring: { kind: 'air' }, adjusters: {} },
        rear: { travel: 0.12, spring: { kind: 'coil' }, adjusters: {} },
      },
    };
    expect(sagOf(bare, 'front')).toBeCloseTo(0.2, 3);
    expect(sagOf(bare, 'rear')).toBeCloseTo(0.28, 3);
  });
});

describe('a linkage', () => {
  it('turns shaft travel into wheel travel and back', () => {
    const { linkage } = defaultBike('downhill').ends.rear;
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.075, noNaN: true }), (shaft) => {
        expect(shaftTravel(linkage, wheelTravel(linkage, shaft))).toBeCloseTo(shaft, 10);
      }),
    );
  });
});

describe('standing on a slope', () => {
  it('shifts weight by height ÷ wheelbase times the tangent of the slope', () => {
    const bike = defaultBike('enduro');
    const { toFront, toRear, height } = bike.body;
    const flat = standingOn(bike, 0).front.share;
    const steep = standingOn(bike, 20).front.share;
    expect(flat).toBeCloseTo(toRear / (toFront + toRear), 6);
    expect(steep - flat).toBeCloseTo((height / (toFront + toRear)) * Math.tan((20 * Math.PI) / 180), 6);
  });

  it('lowers the damping ratio of the front with the same clicks, and raises that of the rear', () => {
    for (const kind of KINDS) {
      const bike = defaultBike(kind);
      expect(standingOn(bike, 20).front.damping).toBeLessThan(standingOn(bike, 0).front.damping);
      expect(standingOn(bike, 20).rear.damping).toBeGreaterThan(standingOn(bike, 0).rear.damping);
    }
  });

  it('carries the weight square to the ground and no more', () => {
    const { body } = defaultBike('trail');
    const { front, rear } = staticLoads(body, GRAVITY * Math.cos(0.3), GRAVITY * Math.sin(0.3));
    expect(front + rear).toBeCloseTo(body.mass * GRAVITY * Math.cos(0.3), 9);
  });
});

describe('a measured sag that no spring follows from', () => {
  it('is counted as the least that one does, and said', () => {
    const sheet = withPart(defaultSheet('trail'), 'front', { sagMeasured: 0.02 });
    expect(bikeFromSheet(sheet).notes.join(' ')).toContain('front sag of 2 % is too little');
    expect(bikeFromSheet(sheet).ends.front).toEqual(
      bikeFromSheet(withPart(sheet, 'front', { sagMeasured: 0.05 })).ends.front,
    );
  });

  it('leaves a bike that stands and damps, whatever sag, travel and pressure are written down', () => {
    const share = fc.oneof(
      fc.constantFrom(0, 5e-324, 0.01, 0.05, 0.6),
      fc.double({ min: 0, max: 0.6, noNaN: true }),
    );
    const pressure = fc.option(fc.double({ min: 1e5, max: 4e6, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.constantFrom(...ENDS),
        share,
        pressure,
        fc.double({ min: 0.02, max: 0.35, noNaN: true }),
        (kind, end, sagMeasured, given, travel) => {
          const sheet = defaultSheet(kind);
          const spring = { kind: 'air' as const, ...(given === undefined ? {} : { pressure: given }) };
          const bike = bikeFromSheet(withPart(sheet, end, { sagMeasured, travel, spring }));
          for (const side of ['rebound', 'compression'] as const) {
            expect(bike.ends[end][side].orifice).toBeGreaterThan(0);
            expect(Number.isFinite(damperForce(bike.ends[end][side], 0.5))).toBe(true);
          }
        },
      ),
    );
  });
});
