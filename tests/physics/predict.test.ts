import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/bike/change.ts';
import { defaultSheet } from '../../src/physics/usual-bikes.ts';
import { bikeFromSheet, defaultBike } from '../../src/physics/bike/from-sheet.ts';
import { restTravel } from '../../src/physics/bike/equilibrium.ts';
import { makeGround, measure } from '../../src/physics/metrics/measure.ts';
import { METRIC_IDS, METRICS } from '../../src/physics/metrics/metrics.ts';
import { forceCurve, travelCurve } from '../../src/physics/plots.ts';
import { changed, predict } from '../../src/physics/predict.ts';
import { SCENARIOS } from '../../src/physics/ride/scenarios.ts';
import { SCENARIO_IDS } from '../../src/physics/ride/scenario.ts';
import { clicked, reaches, SETTINGS, withEnd } from '../../src/physics/settings.ts';
import { KICKING, PACES, PACKING, sweep } from '../../src/physics/sweep.ts';

const bike = defaultBike('enduro');
const clicks = (setting: string, by: number): Change => ({ setting, by, unit: 'clicks' });

describe('a change', () => {
  it('and its way back leave the bike as it was', () => {
    const there = changed(bike, [
      clicks('front.rebound.low', 3),
      { setting: 'rear.spring', by: -5, unit: 'psi' },
    ]);
    if (!there.ok) throw new Error('refused');
    const back = changed(there.bike, [
      clicks('front.rebound.low', -3),
      { setting: 'rear.spring', by: 5, unit: 'psi' },
    ]);
    if (!back.ok) throw new Error('refused');
    expect(back.bike.ends.front.rebound.orifice).toBeCloseTo(bike.ends.front.rebound.orifice, 14);
    expect(back.bike.ends.front.knobs).toEqual(bike.ends.front.knobs);
    expect(back.bike.ends.rear.spring).toMatchObject({
      pressure: expect.closeTo((bike.ends.rear.spring as { pressure: number }).pressure, 3) as number,
    });
  });

  it('goes no further than a stop, and all that stands against it is said at once', () => {
    const result = changed(bike, [
      clicks('front.rebound.low', 20),
      { setting: 'front.spring', by: 2, unit: 'N/mm' },
      { setting: 'rear.ramp-up', by: -4, unit: 'spacers' },
      { setting: 'bars', by: 10, unit: 'mm' },
      { setting: 'rear.tyre', by: 3, unit: 'clicks' },
    ]);
    if (result.ok) throw new Error('accepted');
    expect(result.refused.map((r) => r.why)).toEqual([
      'it stands at 8 of 16 clicks from closed: 8 are left that way',
      'an air spring is changed by pressure: psi, bar or kPa',
      'there are only 1 spacers to take out',
      'the model does not reach bars',
      'rear.tyre is changed in psi, bar, kPa, not in clicks',
    ]);
  });

  it('of a knob the bike does not have is refused', () => {
    const sheet = defaultSheet('trail');
    const few = bikeFromSheet({
      ...sheet,
      ends: { ...sheet.ends, rear: { ...sheet.ends.rear, adjusters: {} } },
    });
    expect(changed(few, [clicks('rear.rebound.high', 1)])).toMatchObject({
      ok: false,
      refused: [{ why: 'it has no knob on this bike' }],
    });
  });

  it.each([
    ['psi', 10, 68_947.57],
    ['bar', 1, 1e5],
    ['kPa', 50, 5e4],
  ] as const)('of a tyre by %s adds that much pressure', (unit, by, pascal) => {
    const result = changed(bike, [{ setting: 'front.tyre', by, unit }]);
    if (!result.ok) throw new Error('refused');
    expect(result.bike.ends.front.tyre.pressure - bike.ends.front.tyre.pressure).toBeCloseTo(pascal, 1);
    expect(result.bike.ends.front.tyre.stiffness).toBeGreaterThan(bike.ends.front.tyre.stiffness);
  });

  it('of a coil moves its rate in N/mm and its preload in turns of a millimetre', () => {
    const coil = defaultBike('downhill');
    const before = coil.ends.rear.spring as { rate: number; preload: number };
    const result = changed(coil, [
      { setting: 'rear.spring', by: 5, unit: 'N/mm' },
      { setting: 'rear.spring', by: 2, unit: 'turns' },
    ]);
    if (!result.ok) throw new Error('refused');
    const after = result.bike.ends.rear.spring as { rate: number; preload: number };
    expect(after.rate - before.rate).toBeCloseTo(5000, 9);
    expect(after.preload - before.preload).toBeCloseTo(0.002, 12);
  });
});

describe('a prediction', () => {
  it('gives every metric of every scenario, with words, before and after', () => {
    const result = predict(bike, [clicks('front.rebound.low', -4), clicks('front.rebound.high', -2)]);
    if (!result.ok) throw new Error('refused');
    expect(result.metrics).toHaveLength(METRICS.reduce((sum, m) => sum + m.scenarios.length, 0));
    for (const m of result.metrics) {
      expect(Number.isFinite(m.before) && Number.isFinite(m.after), `${m.scenario} ${m.metric}`).toBe(true);
      expect(m.about).not.toContain('{end}');
    }
    const packed = result.metrics.find(
      (m) => m.scenario === 'row' && m.metric === 'travel-not-recovered.front',
    )!;
    expect(packed).toMatchObject({ end: 'front', unit: 'mm', effect: 'worse' });
    expect(packed.after).toBeGreaterThan(packed.before + 1);
  });

  it('calls it neither better nor worse how far above its sag an end meets the next bump', () => {
    const result = predict(bike, [clicks('rear.rebound.high', 4)], ['row']);
    if (!result.ok) throw new Error('refused');
    const met = result.metrics.find((m) => m.metric === 'travel-not-recovered.rear')!;
    expect(met.before).toBeLessThan(0);
    expect(met.after).toBeLessThan(met.before - 1);
    expect(met.effect).toBe('either');
  });

  it('has a width that holds the change of the bike itself, and is the same every time', () => {
    const ask = () => predict(bike, [clicks('front.rebound.high', -3)], ['row', 'berm']);
    const [once, again] = [ask(), ask()];
    if (!once.ok) throw new Error('refused');
    expect(again).toEqual(once);
    for (const m of once.metrics) {
      expect(m.least).toBeLessThanOrEqual(m.after - m.before);
      expect(m.most).toBeGreaterThanOrEqual(m.after - m.before);
    }
    const depth = once.metrics.find((m) => m.metric === 'travel-not-recovered.front')!;
    expect(depth.effect).toBe('worse');
    expect(depth.least).toBeGreaterThan(0);
    expect(depth.most).toBeGreaterThan(1.2 * depth.least);
  });

  it('calls nothing better or worse that a rider could not feel, or that goes either way', () => {
    for (const by of [1, 2, 4]) {
      const result = predict(bike, [clicks('rear.compression.high', -by)]);
      if (!result.ok) throw new Error('refused');
      for (const m of result.metrics) {
        if (m.effect === 'same') continue;
        const { floor, usual } = METRICS.find((x) => x.id === m.metric)!;
        const change = Math.abs(m.after - m.before);
        // Jones, Hunter & Lafontaine 1997: 0.19 of what is there.
        expect(change).toBeGreaterThanOrEqual(0.19 * Math.max(Math.abs(m.before), usual));
        expect(change).toBeGreaterThanOrEqual(floor);
        expect(m.least * m.most).toBeGreaterThan(0);
      }
    }
  });

  it('of no change at all says the same for every metric', () => {
    const result = predict(bike, []);
    if (!result.ok) throw new Error('refused');
    expect(new Set(result.metrics.map((m) => m.effect))).toEqual(new Set(['same']));
  });

  it('runs only the scenarios asked for', () => {
    const result = predict(bike, [clicks('rear.compression.low', 2)], ['berm']);
    if (!result.ok) throw new Error('refused');
    expect(new Set(result.metrics.map((m) => m.scenario))).toEqual(new Set(['berm']));
  });

  it('is the same whether the ground is shared or laid anew', () => {
    const ground = makeGround(bike);
    expect(measure(bike, ground, SCENARIO_IDS)).toEqual(measure(bike, makeGround(bike), SCENARIO_IDS));
  });
});

describe('the lists of names', () => {
  it('have no name twice, and every metric can be read in a scenario that exists', () => {
    expect(new Set(METRIC_IDS).size).toBe(METRIC_IDS.length);
    expect(SCENARIOS.map((s) => s.id)).toEqual(SCENARIO_IDS);
    for (const metric of METRICS) {
      expect(metric.scenarios.length).toBeGreaterThan(0);
      for (const id of metric.scenarios) expect(SCENARIO_IDS).toContain(id);
    }
  });

  it('say which causes the model can be put into', () => {
    expect(reaches('front.rebound.high', 'too-slow')).toBe(true);
    expect(reaches('rear.condition', 'worn')).toBe(true);
    expect(reaches('front.rebound.high', 'too-firm')).toBe(false);
    expect(reaches('bars', 'too-low')).toBe(false);
    expect(reaches('rider.technique', 'off')).toBe(false);
    for (const [path, physics] of Object.entries(SETTINGS))
      for (const [direction, off] of Object.entries(physics.off))
        expect(off(bike.ends.front), `${path}.${direction}`).not.toEqual(bike.ends.front);
  });
});

describe('a sweep', () => {
  const swept = sweep(bike, 'front', 'rebound.high', makeGround(bike), ['row', 'lone-hit']);
  if (!swept.ok) throw new Error(swept.why);
  const found = swept.sweep;
  const values = (metric: string): readonly number[] =>
    found.metrics.find((m) => m.metric === metric)!.values;

  it('reads every click, and now is what the bike itself reads', () => {
    expect(found.clicks).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    const now = measure(bike, makeGround(bike), ['row']).get('row/ride-depth.front')!;
    expect(values('ride-depth.front')[found.now]).toBeCloseTo(now, 9);
  });

  it('rides higher with every click opened', () => {
    const depths = values('ride-depth.front');
    for (let i = 1; i < depths.length; i++) expect(depths[i]!).toBeLessThan(depths[i - 1]!);
  });

  const limits = {
    packs: PACKING * bike.ends.front.linkage.travel * bike.ends.front.shownPerWheel * 1000,
    kicks: KICKING * restTravel(bike, 'front') * bike.ends.front.shownPerWheel * 1000,
  };
  const beyond = { packs: 'travel-not-recovered.front', kicks: 'overshoot.front' } as const;

  it('marks each click by itself: always beyond its limit at every pace, never at none', () => {
    for (const mark of ['packs', 'kicks'] as const) {
      const scenario = mark === 'packs' ? 'row' : 'lone-hit';
      found.clicks.forEach((click) => {
        const end = clicked(bike.ends.front, 'rebound.high', click - found.now);
        const times = PACES.filter(
          (pace) =>
            measure(withEnd(bike, 'front', end), makeGround(bike, pace), [scenario]).get(
              `${scenario}/${beyond[mark]}`,
            )! > limits[mark],
        ).length;
        expect(found[mark][click]).toBe(
          times === 0 ? 'never' : times === PACES.length ? 'always' : 'sometimes',
        );
      });
    }
  });

  it('packs when closed and kicks when open, and neither where it stands', () => {
    expect(found.packs[0]).not.toBe('never');
    expect(found.packs.at(-1)).toBe('never');
    expect(found.kicks[0]).toBe('never');
    expect(found.kicks.at(-1)).toBe('always');
    expect(found.kicks[found.now]).toBe('never');
  });

  it('of a compression knob marks no run from one end on its own account: more compression packs less', () => {
    const other = sweep(bike, 'rear', 'compression.high', makeGround(bike), ['row', 'lone-hit']);
    if (!other.ok) throw new Error(other.why);
    const { packs } = other.sweep;
    const rank = { never: 0, sometimes: 1, always: 2 } as const;
    for (let i = 1; i < packs.length; i++)
      expect(rank[packs[i]!]).toBeGreaterThanOrEqual(rank[packs[i - 1]!]);
  });

  it('of a knob that is not there says so', () => {
    const sheet = defaultSheet('trail');
    const few = bikeFromSheet({
      ...sheet,
      ends: { ...sheet.ends, front: { ...sheet.ends.front, adjusters: {} } },
    });
    expect(sweep(few, 'front', 'rebound.low')).toMatchObject({ ok: false });
  });
});

describe('what is plotted', () => {
  it('is the force of both circuits over shaft speed, rising throughout', () => {
    const { speeds, forces } = forceCurve(bike, 'rear', 1.5, 31);
    expect(speeds[0]).toBe(-1.5);
    expect(speeds.at(-1)).toBe(1.5);
    expect(forces[15]).toBeCloseTo(0, 9);
    for (let i = 1; i < forces.length; i++) expect(forces[i]!).toBeGreaterThan(forces[i - 1]!);
  });

  it('is the travel through the row in millimetres, from sag', () => {
    const curve = travelCurve(bike, 'front');
    expect(curve.travel[0]).toBeCloseTo(curve.sag, 9);
    expect(curve.sag / curve.full).toBeCloseTo(0.2, 3);
    expect(curve.full).toBeCloseTo(170, 6);
    expect(curve.hits).toHaveLength(9);
    expect(curve.times).toHaveLength(curve.travel.length);
  });
});
