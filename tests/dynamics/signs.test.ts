/**
 * What must come out of the physics and is put in nowhere: which way a setting moves what a rider feels. Each sign is a
 * fact of the trade (common practice, no source). Every one holds for several bikes, each at three speeds.
 */
import { describe, expect, it } from 'vitest';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { makeAuditor } from '../../src/dynamics/audit.ts';
import type { Bike } from '../../src/dynamics/bike.ts';
import { compileBike } from '../../src/dynamics/compile.ts';
import { defaultSheet } from '../../src/dynamics/defaults.ts';
import { bikeFromSheet } from '../../src/dynamics/from-sheet.ts';
import { makeGround, runScenario } from '../../src/dynamics/measure.ts';
import { METRICS } from '../../src/dynamics/metrics.ts';
import { clicked, withEnd } from '../../src/dynamics/settings.ts';
import { standingOn } from '../../src/dynamics/slope.ts';

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
  // A row of bumps: slow rebound packs down, kicks harder and loses the ground; fast rebound rides high.
  ...both((end) => [
    ['row', `travel-not-recovered.${end}`, 'up', `${end}.rebound.low`, 'too-slow'],
    ['row', `travel-not-recovered.${end}`, 'up', `${end}.rebound.high`, 'too-slow'],
    ['row', `ride-depth.${end}`, 'up', `${end}.rebound.low`, 'too-slow'],
    ['row', `ride-depth.${end}`, 'up', `${end}.rebound.high`, 'too-slow'],
    ['row', `ride-depth.${end}`, 'down', `${end}.rebound.low`, 'too-fast'],
    ['row', `ride-depth.${end}`, 'down', `${end}.rebound.high`, 'too-fast'],
    ['row', `ride-depth.${end}`, 'up', `${end}.spring`, 'too-soft'],
    ['row', `time-off-ground.${end}`, 'up', `${end}.rebound.high`, 'too-slow'],
    ['row', `time-off-ground.${end}`, 'up', `${end}.tyre`, 'too-hard'],
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
  // Bottoming.
  ...both((end) => [
    ['landing', `bottoming.${end}`, 'up', `${end}.spring`, 'too-soft'],
    ['lip', `travel-used.${end}`, 'up', `${end}.spring`, 'too-soft'],
    ['landing', `bottoming.${end}`, 'up', `${end}.compression.high`, 'too-soft'],
    ['landing', `travel-used.${end}`, 'up', `${end}.ramp-up`, 'too-little'],
    ['berm', `travel-used.${end}`, 'down', `${end}.spring`, 'too-firm'],
  ]),
  // The way out of a berm.
  ['berm', 'pitch-at-exit', 'up', 'front.rebound.low', 'too-fast'],
  ['berm', 'front-load-at-exit', 'down', 'front.rebound.low', 'too-fast'],
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
  ['braking', 'nose-dive', 'up', 'rear.rebound.low', 'too-fast'],
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

describe.each(BIKES)('%s', (_name, sheet) => {
  const auditor = makeAuditor(bikeFromSheet(sheet));

  // A coil takes no spacers: it has little ramp-up to lose.
  const reached = SIGNS.filter(
    ([, , , setting]) =>
      !setting.endsWith('ramp-up') ||
      sheet.ends[setting.split('.')[0] as 'front' | 'rear'].spring.kind === 'air',
  );

  it.each(reached)('%s: %s goes %s with %s %s', (scenario, metric, sign, setting, direction) => {
    const dot = setting.indexOf('.');
    const cause = {
      end: setting.slice(0, dot) as 'front' | 'rear',
      setting: setting.slice(dot + 1),
      direction,
    };
    const finding = auditor.audit({ scenario, metric, sign }, cause);
    expect(finding).toMatchObject({ verdict: 'agree' });
  });
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
    'on %s: slower sits deeper, hits harder and leaves the ground longer; faster rides higher',
    (_name, sheet) => {
      const [slow, now, fast] = readings(bikeFromSheet(sheet));
      for (const id of ['travel-not-recovered.front', 'peak-force.front', 'time-off-ground.front'])
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

  it.each(BIKES)('on %s: more overshoot after the same landing and the same edge', (_name, sheet) => {
    const light = bikeFromSheet(sheet);
    const { toFront, toRear } = light.body;
    const base = toFront + toRear;
    // The rider's weight moved forward by a tenth of the wheelbase; springs and clicks as they were.
    const loaded: Bike = {
      ...light,
      body: { ...light.body, toFront: toFront - 0.1 * base, toRear: toRear + 0.1 * base },
    };
    const overshoot = (bike: Bike, scenario: 'landing' | 'steep'): number => {
      const run = runScenario(compileBike(bike), makeGround(bike), scenario);
      return METRICS.find((m) => m.id === 'overshoot.front')!.read(run);
    };
    for (const scenario of ['landing', 'steep'] as const)
      expect(overshoot(loaded, scenario)).toBeGreaterThan(overshoot(light, scenario));
  });
});
