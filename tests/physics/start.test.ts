/** Starting points against numbers worked out by hand. Invented bikes. */
import { describe, expect, it } from 'vitest';
import type { BikeSheet, EndSheet } from '../../src/bike/sheet.ts';
import { fitDampers } from '../../src/physics/fit.ts';
import { damperForce } from '../../src/physics/bike/damper.ts';
import { DAMPING } from '../../src/physics/defaults.ts';
import { defaultSheet } from '../../src/physics/usual-bikes.ts';
import { restTravel } from '../../src/physics/bike/equilibrium.ts';
import { bikeFromSheet } from '../../src/physics/bike/from-sheet.ts';
import { ratioAt } from '../../src/physics/bike/linkage.ts';
import { airPressure, coilRate, springCorrection } from '../../src/physics/start-spring.ts';
import { startOf } from '../../src/physics/start.ts';
import { startText } from '../../src/report/bike/start-text.ts';
import { PLAIN } from '../../src/report/style.ts';
import { exampleSheet } from '../bike/example.ts';

const PSI = 6894.757; // Pa
const RIGID: EndSheet = { rigid: true, travel: 0, spring: { kind: 'air' }, adjusters: {} };

const knobs: EndSheet['adjusters'] = { 'rebound.low': { range: 16 }, 'rebound.high': { range: 8 } };

/** A leverage of 2.5 all the way and a fork that stands upright: everything can be done on paper. */
function paperBike(more: Partial<BikeSheet> = {}, rear: Partial<EndSheet> = {}): BikeSheet {
  return {
    id: 'paper',
    kind: 'enduro',
    units: { pressure: 'psi', mass: 'kg', rate: 'N/mm', length: 'mm' },
    riderMass: 80,
    bikeMass: 15.5,
    geometry: { wheelbase: 1.25, headAngle: 90 },
    ends: {
      front: { travel: 0.17, spring: { kind: 'coil', preload: 0 }, sagWanted: 0.2, adjusters: knobs },
      rear: {
        travel: 0.15,
        stroke: 0.06,
        leverage: [2.5, 2.5, 2.5],
        spring: { kind: 'coil', preload: 0.002 },
        sagWanted: 0.3,
        adjusters: knobs,
        ...rear,
      },
    },
    ...more,
  };
}

describe('the spring for the wanted sag', () => {
  // Sprung: 80 + 15.5 − 3.6 − 4.3 = 87.6 kg, 859.06 N; 60 % of it behind: 515.44 N at the wheel, × 2.5 = 1288.59 N at
  // the shock. Sag 30 % of 60 mm = 18 mm, and 2 mm preload: 1288.59 / 0.020 = 64 430 N/m.
  it('gives the rear coil', () => {
    expect(startOf(paperBike()).ends.rear.spring.model).toBeCloseTo(64_430, -1);
  });

  // 40 % of 859.06 N = 343.62 N on 20 % of 170 mm = 34 mm: 10 107 N/m.
  it('gives the front coil', () => {
    expect(startOf(paperBike()).ends.front.spring.model).toBeCloseTo(10_107, -1);
  });

  // At the same sag the spring grows with the load, and critical damping, 2·√(k·m), with it: sprung (110 + 15.5 − 7.9) kg
  // against (55 + 15.5 − 7.9) kg. "About double" from 55 to 110 kg is common practice, no source.
  it('takes damping with it, by about double from a rider of 55 kg to one of 110', () => {
    const [light, heavy] = [55, 110].map((riderMass) => startOf(paperBike({ riderMass })).ends);
    for (const end of ['front', 'rear'] as const)
      expect(heavy![end].critical / light![end].critical).toBeCloseTo(117.6 / 62.6, 1);
  });

  it('is what carries the load, less what the preload does', () => {
    expect(coilRate(1200, 0.018, 0.002)).toBeCloseTo(60_000);
  });

  // Exponent 1 and no negative chamber: piston 10 cm², 100 cm³, 50 mm in: the volume is halved, absolute pressure
  // doubled: gauge 2·(p + 1.01325 bar) − 1.01325 bar over 10 cm². 800 N is 8 bar: p = (8 − 1.01325)/2 = 3.493 bar.
  it('gives an air pressure by the gas law', () => {
    const spring = {
      kind: 'air',
      pressure: 0,
      area: 1e-3,
      negativeArea: 0,
      volume: 1e-4,
      spacerVolume: 0,
      spacers: 0,
      spacersMax: 0,
      negativeVolume: 1,
      portTravel: 0,
      exponent: 1,
    } as const;
    expect(airPressure(spring, 800, 0.05)).toBeCloseTo(349_338, -1);
  });

  it('leaves a pressure alone at which the measured sag is the wanted one', () => {
    const spring = startOf(exampleSheet('all-knobs')).ends.front.spring;
    expect(spring.model).toBeCloseTo(spring.now!, 0);
    expect(spring.basis).toBe('measured');
  });

  it('asks for more pressure where the bike sits too deep, and begins there whatever the table of the maker says', () => {
    const sheet = exampleSheet('few-knobs');
    const { spring } = startOf(sheet).ends.front;
    expect(spring.model).toBeGreaterThan(spring.now!);
    expect(Math.abs(spring.begin - spring.model)).toBeLessThan(PSI);
    expect(spring.begin).not.toBe(spring.maker);
    // Not measured, the maker's table is the better start.
    const { sagMeasured: _, ...front } = sheet.ends.front;
    const fresh = startOf({ ...sheet, ends: { ...sheet.ends, front } }).ends.front.spring;
    expect(fresh.begin).toBe(fresh.maker);
  });

  it('never begins beyond the limits of the maker', () => {
    const bike = paperBike(
      { riderMass: 140 },
      { spring: { kind: 'air', pressure: 1e6, pressureMax: 1.2e6 }, sagMeasured: 0.5 },
    );
    const { spring } = startOf(bike).ends.rear;
    expect(spring.limited).toBe('max');
    // The last whole psi below it.
    expect(spring.begin).toBeLessThanOrEqual(1.2e6);
    expect(spring.begin).toBeGreaterThan(1.2e6 - 6895);
    expect(spring.model).toBeGreaterThan(1.2e6);
  });
});

describe('clicks', () => {
  it('stand in the middle for the rider that the middle is made for', () => {
    expect(startOf(paperBike()).ends.front.clicks.map(({ model }) => model)).toEqual([8, 4]);
  });

  it('close for a heavier rider and open for a lighter one', () => {
    const at = (riderMass: number): number[] =>
      startOf(paperBike({ riderMass })).ends.rear.clicks.map(({ model }) => model);
    const [light, usual, heavy] = [at(50), at(80), at(115)];
    for (const i of [0, 1]) {
      expect(light[i]!).toBeGreaterThan(usual[i]!);
      expect(heavy[i]!).toBeLessThan(usual[i]!);
    }
  });

  // The damper is the same whoever rides: at the clicks it begins with, a bike is damped alike for every rider.
  it('are where the model of the same bike is damped as wanted, whoever rides it', () => {
    const shares = [60, 80, 105].map((riderMass) => {
      const sheet = defaultSheet('enduro');
      const start = startOf({ ...sheet, riderMass });
      const bike = bikeFromSheet({ ...start.sheet, riderMass });
      const { critical } = start.ends.rear;
      const ratio = ratioAt(bike.ends.rear.linkage, restTravel(bike, 'rear'));
      return damperForce(bike.ends.rear.rebound, DAMPING.fast / ratio) / ratio / (critical * DAMPING.fast);
    });
    for (const share of shares) expect(Math.abs(share / DAMPING.rebound.fast - 1)).toBeLessThan(0.19);
  });

  it('of the same number damp the same, whoever rides it', () => {
    const forces = [45, 80, 120].map((riderMass) =>
      damperForce(bikeFromSheet({ ...defaultSheet('trail'), riderMass }).ends.front.rebound, 0.3),
    );
    for (const force of forces) expect(force).toBeCloseTo(forces[0]!, 9);
  });

  it("are the maker's where the maker's sheet says some", () => {
    const bike = paperBike({}, { adjusters: { 'rebound.low': { range: 16, maker: 5 } } });
    expect(startOf(bike).ends.rear.clicks).toMatchObject([{ maker: 5, begin: 5 }]);
    expect(startOf(bike).sheet.ends.rear.adjusters['rebound.low']?.now).toBe(5);
  });

  // Twice the force at the same clicks: further open on the curve.
  it('come from the curve of the damper where it was measured', async () => {
    const bike = exampleSheet('coil');
    const stiffer: BikeSheet = {
      ...bike,
      ends: {
        ...bike.ends,
        rear: {
          ...bike.ends.rear,
          curve: bike.ends.rear.curve!.map((point) => ({ ...point, force: 2 * point.force })),
        },
      },
    };
    const of = async (sheet: BikeSheet) => startOf(sheet, await fitDampers(sheet)).ends.rear;
    const [plain, firm] = [await of(bike), await of(stiffer)];
    const open = (clicks: typeof plain.clicks): number => clicks.reduce((sum, { model }) => sum + model, 0);
    expect(plain.clicks.every(({ basis }) => basis === 'measured')).toBe(true);
    expect(open(firm.clicks)).toBeGreaterThan(open(plain.clicks));
  });
});

describe('the two ends together', () => {
  // Coils, straight leverage: ω² = k/m = g/(sag + preload, at the wheel). Front √(9.80665/0.034)/2π = 2.703 Hz; rear
  // (18 + 2 mm)·2.5 = 50 mm: 2.229 Hz. 1.213 to 1.
  it('swing as by hand', () => {
    const { ends, balance, together } = startOf(paperBike());
    expect(ends.front.frequency).toBeCloseTo(2.703, 2);
    expect(ends.rear.frequency).toBeCloseTo(2.229, 2);
    expect(balance).toBeCloseTo(1.213, 2);
    expect(together).toBe('balanced');
  });

  it('are told apart when one is much firmer', () => {
    expect(startOf(paperBike({}, { sagWanted: 0.5 })).together).toBe('front-firmer');
    expect(startOf(paperBike({}, { sagWanted: 0.1 })).together).toBe('rear-firmer');
  });
});

describe('what it rests on', () => {
  it('is said for every default that was used', () => {
    const { riderMass: _, bikeMass: __, geometry: ___, ...bare } = paperBike();
    const said = startOf(bare).assumptions.join('\n');
    for (const part of [
      'rider with kit 80 kg',
      'bike 15.5 kg',
      '40 % of the weight',
      'head angle',
      'shares of critical',
    ])
      expect(said).toContain(part);
    const fuller = startOf(paperBike()).assumptions.join('\n');
    expect(fuller).not.toContain('rider with kit');
  });

  it('takes readings of the old spring off the sheet it gives, and only those', () => {
    const { sheet } = startOf(exampleSheet('few-knobs'));
    expect(sheet.ends.front.sagMeasured).toBeUndefined();
    expect(startOf(exampleSheet('coil')).sheet.ends.front.sagMeasured).toBe(0.18);
  });
});

describe('a bike without rear suspension', () => {
  const rigid: BikeSheet = {
    ...exampleSheet('few-knobs'),
    kind: 'hardtail',
    ends: { ...exampleSheet('few-knobs').ends, rear: RIGID },
  };

  it('is told of its front alone, and gets no spring it has not', () => {
    const start = startOf(rigid);
    expect(start.suspended).toEqual(['front']);
    expect(start.sheet.ends.rear).toBe(RIGID);
    expect(start.assumptions.join('\n')).not.toMatch(/rear (sag|air|damper|preload)|leverage|balanced/);
    const text = startText(rigid, start, [], PLAIN);
    expect(text).toMatch(/^front /m);
    expect(text).not.toMatch(/^rear |Hz/m);
  });
});

it('begins with what a gauge shows, and names the place of a knob that nobody counted', () => {
  const sheet = exampleSheet('few-knobs');
  const { front } = sheet.ends;
  const spring = { kind: 'air' as const, pressure: 5e5, pressureMin: 3e5, pressureMax: 9e5 };
  const uncounted: BikeSheet = {
    ...sheet,
    units: { ...sheet.units, pressure: 'psi' },
    ends: { ...sheet.ends, front: { ...front, spring, adjusters: { 'rebound.low': {} } } },
  };
  const start = startOf(uncounted);
  expect(start.ends.front.spring.begin / 6894.757).toBeCloseTo(
    Math.round(start.ends.front.spring.begin / 6894.757),
    4,
  );
  expect(start.sheet.ends.front.adjusters['rebound.low']).toEqual({ near: 'middle' });
  const row = /Rebound, low speed.*/.exec(startText(uncounted, start, [], PLAIN))![0];
  expect(row).toMatch(/middle/);
  expect(row).not.toMatch(/\d/);
});

it("takes a knob that nobody counted to the open end where the maker's clicks are more than the range assumed", () => {
  const sheet = paperBike({}, { adjusters: { 'rebound.low': { maker: 60, now: 3 } } });
  const start = startOf(sheet);
  // Where it stood before is no longer where it begins.
  expect(start.sheet.ends.rear.adjusters['rebound.low']).toEqual({ maker: 60, near: 'open' });
  expect(startText(sheet, start, [], PLAIN)).toMatch(/open/);
});

describe('what brings a measured sag to the wanted one', () => {
  it('of a coil, by hand: what it was measured to carry, at the wanted stroke', () => {
    const coil = { kind: 'coil', rate: 70_000, preload: 0.001 } as const;
    const sheet = paperBike({}, { spring: coil, sagMeasured: 0.24, sagWanted: 0.3 });
    // Stroke 60 mm: 70 N/mm × (1 + 14.4) mm = 1078 N; at 18 mm that is 15.4 − 18 = −2.6 mm of preload, or 1078 / 19 N/mm.
    const { by, rate } = springCorrection(sheet, bikeFromSheet(sheet), 'rear')!;
    expect(by * 1000).toBeCloseTo(15.4 - 18 - 1, 6);
    expect(rate! / 1000).toBeCloseTo(1078 / 19, 6);
  });
  it('of an air spring brings the model to rest at the wanted sag', () => {
    const air = { kind: 'air', pressure: 60 * 6894.76 } as const;
    const front = { travel: 0.17, spring: air, sagMeasured: 0.3, sagWanted: 0.2, adjusters: knobs };
    const sheet = paperBike({ ends: { ...paperBike().ends, front } });
    const bike = bikeFromSheet(sheet);
    const { by } = springCorrection(sheet, bike, 'front')!;
    expect(by).toBeGreaterThan(0);
    const spring = { ...bike.ends.front.spring, pressure: air.pressure + by };
    const set = { ...bike, ends: { ...bike.ends, front: { ...bike.ends.front, spring } } } as typeof bike;
    expect(restTravel(set, 'front') / 0.17).toBeCloseTo(0.2, 3);
  });
  it.each([{ lever: 'closed' }, { kit: 'without' }] as const)(
    'is not told from sag that says nothing of the ride: %o',
    (sagBasis) => {
      const air = { kind: 'air', pressure: 60 * 6894.76 } as const;
      const front = { travel: 0.17, spring: air, sagMeasured: 0.3, sagWanted: 0.2, adjusters: knobs };
      const of = (part: EndSheet): BikeSheet => paperBike({ ends: { ...paperBike().ends, front: part } });
      const sheet = of({ ...front, sagBasis });
      expect(springCorrection(of(front), bikeFromSheet(of(front)), 'front')).toBeDefined();
      expect(springCorrection(sheet, bikeFromSheet(sheet), 'front')).toBeUndefined();
      const { spring } = startOf(sheet).ends.front;
      expect(spring.basis).toBe('assumption');
      const unmeasured: EndSheet = { travel: 0.17, spring: air, sagWanted: 0.2, adjusters: knobs };
      expect(spring.model).toBeCloseTo(startOf(of(unmeasured)).ends.front.spring.model, 6);
    },
  );
  it('is not told where a number is missing', () => {
    const sheet = paperBike();
    expect(springCorrection(sheet, bikeFromSheet(sheet), 'rear')).toBeUndefined();
  });
});
