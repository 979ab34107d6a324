/**
 * What must come out of the physics and is put in nowhere: which way a setting moves what a rider feels. Each sign is a
 * fact of the trade (common practice, no source). Every one holds for nine in ten of several bikes, each at three paces.
 * The ones of the trade that do not come out are listed too, with what the model says instead.
 */
import { describe, expect, it } from 'vitest';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { audit, type Asked } from '../../src/physics/audit.ts';
import type { Bike } from '../../src/physics/bike/bike.ts';
import { compileBike } from '../../src/physics/ride/compile.ts';
import { defaultSheet } from '../../src/physics/usual-bikes.ts';
import { bikeFromSheet } from '../../src/physics/bike/from-sheet.ts';
import { makeGround, runScenario } from '../../src/physics/metrics/measure.ts';
import { METRICS } from '../../src/physics/metrics/metrics.ts';
import { clicked, withEnd } from '../../src/physics/settings.ts';
import { standingOn } from '../../src/physics/slope.ts';

const heavy: BikeSheet = { ...defaultSheet('enduro'), riderMass: 105 };
const light: BikeSheet = { ...defaultSheet('downhill'), riderMass: 62 };
const enduro = defaultSheet('enduro');
const coil: BikeSheet = {
  ...enduro,
  ends: { ...enduro.ends, rear: { ...enduro.ends.rear, spring: { kind: 'coil' } } },
};

const BIKES: readonly (readonly [string, BikeSheet])[] = [
  ['a trail bike', defaultSheet('trail')],
  ['an enduro bike', enduro],
  ['a downhill bike', defaultSheet('downhill')],
  ['an enduro bike with a heavy rider', heavy],
  ['a downhill bike with a light rider', light],
  ['an enduro bike with a rear coil', coil],
];

/** scenario, metric, sign, cause */
type Sign = readonly [string, string, 'up' | 'down', string, string];

const both = (make: (end: string) => readonly Sign[]): Sign[] =>
  ['front', 'rear'].flatMap((end) => [...make(end)]);

const SIGNS: readonly Sign[] = [
  // A row of bumps: slow rebound packs down and hits harder; fast rebound rides high.
  ...both((end) => [
    ['row', `travel-not-recovered.${end}`, 'up', `${end}.rebound.low`, 'too-slow'],
    ['row', `travel-not-recovered.${end}`, 'up', `${end}.rebound.high`, 'too-slow'],
    ['row', `ride-depth.${end}`, 'up', `${end}.rebound.low`, 'too-slow'],
    ['row', `ride-depth.${end}`, 'up', `${end}.rebound.high`, 'too-slow'],
    ['row', `ride-depth.${end}`, 'down', `${end}.rebound.low`, 'too-fast'],
    ['row', `ride-depth.${end}`, 'down', `${end}.rebound.high`, 'too-fast'],
    ['row', `ride-depth.${end}`, 'up', `${end}.spring`, 'too-soft'],
    ['row', `peak-force.${end}`, 'up', `${end}.rebound.high`, 'too-slow'],
  ]),
  // A lone hit kicks with fast rebound; high-speed compression and tyre make the spike of a square edge.
  ...both((end) => [
    ['lone-hit', `kick-velocity.${end}`, 'up', `${end}.rebound.high`, 'too-fast'],
    ['lone-hit', `kick-velocity.${end}`, 'up', `${end}.rebound.low`, 'too-fast'],
    ['landing', `kick-velocity.${end}`, 'up', `${end}.rebound.high`, 'too-fast'],
    ['square-edge', `peak-force.${end}`, 'up', `${end}.compression.high`, 'too-firm'],
    ['square-edge', `peak-force.${end}`, 'up', `${end}.tyre`, 'too-hard'],
    ['square-edge', `peak-force.${end}`, 'up', `${end}.spring`, 'too-firm'],
  ]),
  // Square edges one after another pack a slow fork; a lone kerb or roller lifts a fast or firm end off its tyre.
  ['edges', 'peak-force.front', 'up', 'front.rebound.high', 'too-slow'],
  ['edges', 'travel-not-recovered.front', 'up', 'front.rebound.low', 'too-slow'],
  ['edges', 'travel-not-recovered.front', 'up', 'front.rebound.high', 'too-slow'],
  ...both((end) => [
    ['edges', `peak-force.${end}`, 'up', `${end}.compression.high`, 'too-firm'],
    ['kerb', `lightest.${end}`, 'down', `${end}.rebound.low`, 'too-fast'],
    ['kerb', `lightest.${end}`, 'down', `${end}.spring`, 'too-firm'],
    ['lone-hit', `overshoot.${end}`, 'up', `${end}.rebound.high`, 'too-fast'],
  ]),
  ['rollers', 'tyre-load-variation.front', 'up', 'front.rebound.low', 'too-fast'],
  // What tires the hands.
  ['row', 'hand-force', 'up', 'front.rebound.high', 'too-slow'],
  ['row', 'hand-force', 'up', 'front.compression.high', 'too-firm'],
  ['row', 'hand-force', 'up', 'front.condition', 'worn'],
  ['chatter', 'hand-force', 'up', 'front.condition', 'worn'],
  // A hit that bottoms.
  ['big-hit', 'bottoming.front', 'up', 'front.spring', 'too-soft'],
  ['big-hit', 'bottoming.front', 'up', 'front.ramp-up', 'too-little'],
  ['big-hit', 'bottoming.front', 'up', 'front.compression.high', 'too-soft'],
  // Bottoming.
  ...both((end) => [
    ['landing', `bottoming.${end}`, 'up', `${end}.spring`, 'too-soft'],
    ['lip', `travel-used.${end}`, 'up', `${end}.spring`, 'too-soft'],
    ['landing', `travel-used.${end}`, 'up', `${end}.ramp-up`, 'too-little'],
    ['berm', `travel-used.${end}`, 'down', `${end}.spring`, 'too-firm'],
  ]),
  // The way out of a berm.
  ['berm', 'pitch-at-exit', 'up', 'front.rebound.low', 'too-fast'],
  ['berm', 'pitch-at-exit', 'down', 'rear.rebound.low', 'too-fast'],
  ['berm', 'front-load-at-exit', 'up', 'rear.rebound.low', 'too-fast'],
  ['berm', 'pitch-at-exit', 'up', 'front.rebound.high', 'too-fast'],
  ['berm', 'pitch-at-exit', 'down', 'rear.rebound.high', 'too-fast'],
  ...both((end) => [
    ['berm', `time-to-recover.${end}`, 'up', `${end}.rebound.low`, 'too-slow'],
    ['berm', `dive-depth.${end}`, 'up', `${end}.compression.low`, 'too-soft'],
    ['berm', `travel-used.${end}`, 'up', `${end}.spring`, 'too-soft'],
  ]),
  // A jump lip: a fast rear turns the bike nose-down, a slow one less; a slow front adds to it.
  ['lip', 'pitch-rate-at-lip', 'up', 'rear.rebound.high', 'too-fast'],
  ['lip', 'pitch-rate-at-lip', 'down', 'rear.rebound.high', 'too-slow'],
  ['lip', 'pitch-rate-at-lip', 'up', 'front.rebound.high', 'too-slow'],
  ['lip', 'pitch-rate-at-lip', 'up', 'front.rebound.low', 'too-slow'],
  // Braking.
  ['braking', 'dive-depth.front', 'up', 'front.compression.low', 'too-soft'],
  ['braking', 'dive-depth.front', 'up', 'front.spring', 'too-soft'],
  // A kerb: fast rebound bounces.
  ...both((end) => [['kerb', `overshoot.${end}`, 'up', `${end}.rebound.low`, 'too-fast']]),
  ['kerb', 'overshoot.rear', 'up', 'rear.rebound.high', 'too-fast'],
  ['steep', 'overshoot.rear', 'up', 'rear.rebound.high', 'too-fast'],
  // Chatter comes through with firm compression, hard tyres, firm springs, packed-down rebound and sticking seals.
  ...both((end) => [['chatter', `tyre-load-variation.${end}`, 'up', `${end}.tyre`, 'too-hard']]),
  ['chatter', 'tyre-load-variation.front', 'up', 'front.condition', 'worn'],
  ['chatter', 'tyre-load-variation.front', 'up', 'front.rebound.high', 'too-slow'],
  ['chatter', 'bar-vibration', 'up', 'front.compression.low', 'too-firm'],
  ['chatter', 'bar-vibration', 'up', 'front.tyre', 'too-hard'],
  ['chatter', 'bar-vibration', 'up', 'front.spring', 'too-firm'],
  ['chatter', 'bar-vibration', 'up', 'front.condition', 'worn'],
  ['chatter', 'bar-vibration', 'up', 'front.rebound.high', 'too-slow'],
  // Pedalling.
  ['pedalling', 'bob.rear', 'up', 'rear.compression.low', 'too-soft'],
];

/** verdict instead, and the sign as the trade tells it */
type Against = readonly ['disagree' | 'weak' | 'too-small', ...Sign];
const AGAINST: readonly Against[] = [
  // A fast end is called nervous in rough ground: the model keeps it on the ground longer; it is nervous after a lone kerb.
  ['weak', 'row', 'time-off-ground.rear', 'up', 'rear.rebound.high', 'too-fast'],
  // A softer spring throws back less, even from a hit that bottoms: the bumper eats what the spring did not take.
  ['disagree', 'landing', 'kick-velocity.rear', 'up', 'rear.spring', 'too-soft'],
  ['disagree', 'lone-hit', 'kick-velocity.rear', 'up', 'rear.compression.high', 'too-soft'],
  // One edge packs nothing.
  ['too-small', 'square-edge', 'peak-force.front', 'up', 'front.rebound.high', 'too-slow'],
  // The rider's weight comes through the legs later than the bike's own: not every bike then bottoms harder.
  ['weak', 'landing', 'bottoming.front', 'up', 'front.compression.high', 'too-soft'],
  // The rear of a bike on its brakes hardly moves, so its rebound hardly counts.
  ['weak', 'braking', 'nose-dive', 'up', 'rear.rebound.low', 'too-fast'],
  ['too-small', 'braking', 'nose-dive', 'up', 'rear.rebound.high', 'too-fast'],
];

const DRAWS = BIKES.flatMap(([, sheet]) => {
  const bike = bikeFromSheet(sheet);
  return [0.85, 1, 1.15].map((pace) => ({ bike, pace }));
});

const asked = ([scenario, metric, sign, setting, direction]: Sign): Asked => {
  const dot = setting.indexOf('.');
  return {
    claim: { scenario, metric, sign },
    cause: { end: setting.slice(0, dot) as 'front' | 'rear', setting: setting.slice(dot + 1), direction },
  };
};

describe('with the trade', () => {
  const findings = audit(DRAWS, SIGNS.map(asked));
  it.each(SIGNS.map((sign, i) => [...sign, i] as const))(
    '%s: %s goes %s with %s %s',
    (_scenario, _metric, _sign, _setting, _direction, i) => {
      expect(findings[i]).toMatchObject({ verdict: 'agree' });
    },
  );
});

describe('against the trade', () => {
  const findings = audit(
    DRAWS,
    AGAINST.map(([, ...sign]) => asked(sign)),
  );
  it.each(AGAINST.map((sign, i) => [...sign, i] as const))(
    'is %s: %s: %s goes %s with %s %s',
    (verdict, _scenario, _metric, _sign, _setting, _direction, i) => {
      expect(findings[i]).toMatchObject({ verdict });
    },
  );
});

describe('four clicks of both front rebound knobs', () => {
  const readings = (bike: Bike) => {
    const ground = makeGround(bike);
    const read = (by: number): ReadonlyMap<string, number> => {
      const front = clicked(clicked(bike.ends.front, 'rebound.low', by), 'rebound.high', by);
      const run = runScenario(compileBike(withEnd(bike, 'front', front)), ground, 'row');
      return new Map(METRICS.filter((m) => m.scenarios.includes('row')).map((m) => [m.id, m.read(run)]));
    };
    return [read(-4), read(0), read(4)] as const;
  };

  it.each(BIKES)(
    'on %s: slower sits deeper, hits harder and tires the hands; faster rides higher',
    (_name, sheet) => {
      const [slow, now, fast] = readings(bikeFromSheet(sheet));
      for (const id of ['travel-not-recovered.front', 'peak-force.front', 'hand-force'])
        expect(slow.get(id)!).toBeGreaterThan(now.get(id)!);
      expect(fast.get('ride-depth.front')!).toBeLessThan(now.get('ride-depth.front')!);
    },
  );
});

describe('the same clicks with more load on the front', () => {
  it.each(BIKES)('on %s: less damped, standing on a slope', (_name, sheet) => {
    const bike = bikeFromSheet(sheet);
    expect(standingOn(bike, 20).front.damping).toBeLessThan(standingOn(bike, 0).front.damping);
  });
});
