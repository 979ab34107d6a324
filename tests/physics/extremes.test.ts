/** Bikes at the ends of what a sheet can say: no number that is none, no hang, and nothing doubtful without a word. */
import { describe, expect, it } from 'vitest';
import type { BikeSheet, EndSheet } from '../../src/bike/sheet.ts';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { KINDS } from '../../src/physics/usual-bikes.ts';
import { restTravel } from '../../src/physics/bike/equilibrium.ts';
import { bikeFromSheet } from '../../src/physics/bike/from-sheet.ts';
import { fullStroke, shaftTravel } from '../../src/physics/bike/linkage.ts';
import { makeGround, metricsOf, runScenario } from '../../src/physics/metrics/measure.ts';
import { SCENARIO_IDS } from '../../src/physics/ride/scenario.ts';

/** Pressures at which an 80 kg rider sits at a usual sag, Pa; from this model. */
const USUAL = { front: 6.3e5, rear: 15e5 } as const;

function sheetOf(riderMass: number, travel: number, pressure: number, clicks: number): BikeSheet {
  const end = (usual: number, wheel: number): EndSheet => ({
    travel: wheel,
    spring: { kind: 'air', pressure: usual * pressure },
    adjusters: {
      'rebound.low': { range: 16, now: clicks * 16 },
      'rebound.high': { range: 8, now: clicks * 8 },
      'compression.low': { range: 16, now: clicks * 16 },
      'compression.high': { range: 8, now: clicks * 8 },
    },
  });
  return {
    id: 'extreme',
    kind: 'enduro',
    units: { pressure: 'psi', mass: 'kg', rate: 'N/mm', length: 'mm' },
    riderMass,
    ends: { front: end(USUAL.front, travel), rear: end(USUAL.rear, travel) },
  };
}

const GRID = [45, 80, 120].flatMap((mass) =>
  [0.08, 0.14, 0.2].flatMap((travel) =>
    [0.5, 1, 2].flatMap((pressure) => [0, 1].map((clicks) => [mass, travel, pressure, clicks] as const)),
  ),
);

/** What no reading of a bike that is ridden at all goes beyond, by unit; judgement. */
const SENSE: Readonly<Record<string, number>> = {
  mm: 260,
  '%': 400,
  N: 60_000,
  s: 3,
  'm/s': 8,
  '°': 30,
  '°/s': 400,
  'm/s²': 200,
  moves: 20,
};

describe.each(GRID)('%d kg on %d m of travel at %d times the pressure, knobs at %d', (...at) => {
  const bike = bikeFromSheet(sheetOf(...at));

  it('reads sensible numbers in every scenario', () => {
    const compiled = compileBike(bike);
    const ground = makeGround(bike);
    for (const id of SCENARIO_IDS) {
      const run = runScenario(compiled, ground, id);
      for (const metric of metricsOf(id)) {
        const value = metric.read(run);
        expect(Number.isFinite(value), `${id} ${metric.id}`).toBe(true);
        expect(Math.abs(value), `${id} ${metric.id}`).toBeLessThan(SENSE[metric.unit]!);
      }
    }
  });

  it('warns of an end that rests beyond half its travel, and of no other', () => {
    for (const end of ['front', 'rear'] as const) {
      const { linkage } = bike.ends[end];
      const share = shaftTravel(linkage, restTravel(bike, end)) / fullStroke(linkage);
      expect(bike.warnings.some((w) => w.includes(`the ${end} rests`))).toBe(share > 0.5);
    }
  });
});

it('covers every kind of bike with its own defaults', () => {
  for (const kind of Object.keys(KINDS) as (keyof typeof KINDS)[]) {
    const bike = bikeFromSheet({ ...sheetOf(80, 0.15, 1, 0.5), kind });
    const compiled = compileBike(bike);
    const run = runScenario(compiled, makeGround(bike), 'row');
    for (const metric of metricsOf('row')) expect(Number.isFinite(metric.read(run))).toBe(true);
  }
});
