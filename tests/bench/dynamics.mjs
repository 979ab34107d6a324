/** Prints how long the physics takes, beside an adaptive solver on the same case. node tests/bench/dynamics.mjs (after a build) */
import { defaultBike } from '../../dist/physics/bike/from-sheet.js';
import { compileBike } from '../../dist/physics/ride/compile.js';
import { makeDrive } from '../../dist/physics/ride/drive.js';
import { restState, staticLoads } from '../../dist/physics/bike/equilibrium.js';
import { makeGround, runScenario } from '../../dist/physics/metrics/measure.js';
import { audit } from '../../dist/physics/audit.js';
import { plausibleBikes } from '../../dist/physics/draws.js';
import { predict } from '../../dist/physics/predict.js';
import { METRICS } from '../../dist/physics/metrics/metrics.js';
import { bumps } from '../../dist/physics/ride/roads.js';
import { SCENARIO_IDS } from '../../dist/physics/ride/scenario.js';
import { SETTINGS } from '../../dist/physics/settings.js';
import { simulate } from '../../dist/physics/ride/simulate.js';
import { sweep } from '../../dist/physics/sweep.js';
import { solveWithOdex } from '../support/odex.mjs';
import { referenceRates } from '../support/reference-bike.mjs';

const bike = defaultBike('enduro');
const compiled = compileBike(bike);
const ground = makeGround(bike);

console.log('one scenario, ms for 2 s of it (60 runs)    simulated  median   least   bar 1');
for (const id of SCENARIO_IDS) {
  const { drive } = ground.stage(id, compiled.step);
  const seconds = drive.step * drive.steps;
  const [ms, least] = timed(60, () => runScenario(compiled, ground, id)).map((t) => (2 * t) / seconds);
  console.log(
    `  ${id.padEnd(42)}${seconds.toFixed(2).padStart(7)} s${ms.toFixed(2).padStart(8)}${least.toFixed(2).padStart(8)}`,
  );
}

const change = [{ setting: 'front.rebound.low', by: 2, unit: 'clicks' }];
const asked = [
  ['a prediction, all scenarios before and after, with its width', 100, () => predict(bike, change)],
  ['  the same of one bike alone', 0, () => predict(bike, change, SCENARIO_IDS, 1)],
  [
    'a sweep of 17 clicks, row and lone hit',
    0,
    () => sweep(bike, 'front', 'rebound.low', ground, ['row', 'lone-hit']),
  ],
  ['a bike compiled', 0, () => compileBike(bike)],
];
console.log('\nms (9 runs)                                                       median   least');
for (const [name, bar, run] of asked) {
  const [ms, least] = timed(9, run);
  const cells = [ms, least].map((t) => t.toFixed(1).padStart(8)).join('');
  console.log(`  ${name.padEnd(63)}${cells}${bar > 0 ? `   bar ${bar}` : ''}`);
}

const started = process.cpuUsage();
const claims = ['front', 'rear'].flatMap((end) =>
  Object.entries(SETTINGS).flatMap(([setting, { off }]) =>
    Object.keys(off).flatMap((direction) =>
      METRICS.flatMap((metric) =>
        metric.scenarios.map((scenario) => ({
          claim: { scenario, metric: metric.id, sign: 'up' },
          cause: { end, setting, direction },
        })),
      ),
    ),
  ),
);
audit(plausibleBikes(3), claims);
const spent = process.cpuUsage(started);
console.log(
  `\nevery cause against every metric on 3 bikes: ${claims.length} claims in ${((spent.user + spent.system) / 1e6).toFixed(1)} s of processor time`,
);

const road = bumps(0.3, 4, 1.1, 0.05, 0.7);
const parts = { road, speed: 7, wheelbase: bike.body.toFront + bike.body.toRear };
const drive = makeDrive({ ...parts, seconds: 2 });
const start = restState(compiled);
const flat = { gravity: () => 9.80665, braking: () => 0 };
const rates = referenceRates(bike, staticLoads(bike.body), [...start], { ...road, speed: 7, ...flat });
let ours;
let theirs;
const [own] = timed(20, () => {
  ours = simulate(compiled, drive).last;
});
console.log('\n2 s over four bumps, ms');
console.log(`  this model, fixed step 0.5 ms           ${own.toFixed(1).padStart(8)}`);
for (const tolerance of [1e-6, 1e-9]) {
  const [ms] = timed(3, () => {
    theirs = solveWithOdex(rates, [...start], [0, 0.5, 1, 1.5, 2], tolerance).at(-1);
  });
  const apart = Math.max(...theirs.slice(0, 4).map((v, i) => Math.abs(v - ours[i])));
  console.log(
    `  odex at tolerance ${tolerance.toExponential(0).padEnd(20)}  ${ms.toFixed(1).padStart(8)}   ${(ms / own).toFixed(0)} times as long; ends ${(1e6 * apart).toFixed(3)} µm apart`,
  );
}

/** Median and least wall time, ms. Run it on a quiet machine: a busy one shows in the median, not in the least. */
function timed(times, run) {
  for (let i = 0; i < Math.min(times, 5); i++) run();
  const taken = Array.from({ length: times }, () => {
    const from = performance.now();
    run();
    return performance.now() - from;
  }).sort((a, b) => a - b);
  return [taken[times >> 1], taken[0]];
}
