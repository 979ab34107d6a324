/**
 * Whether the printed chances that a first change feels better, and worse, hold on made-up bikes.
 * node tests/bench/chances.mjs [riders] [seed]      (after npm run build)
 * said: the mean of what was stated; real: the mean chance of that report on the bike as it is, by the pack's own rows of
 * what riders report after a trial; error: one standard error of the difference.
 */
import { readFileSync } from 'node:fs';
import { prepareBike } from '../../dist/advice/prepared-bike.js';
import { buildModel } from '../../dist/diagnosis/model.js';
import { feltOf, feltTable, summary } from './felt.mjs';
import { AS_THE_MODEL, drawTruth, makeRider, seeded } from '../../dist/evaluation/riders.js';
import { interviewRider } from '../../dist/evaluation/simulate.js';

const [riders = '400', seed = '1'] = process.argv.slice(2);
const rules = JSON.parse(readFileSync(new URL('../../dist/rules/base.json', import.meta.url), 'utf8'));
const { trust, slip, asking } = rules.numbers;
const model = buildModel(rules);
const bench = prepareBike(model);
const usual = { topicWrong: trust.recall, misread: trust.stand, slips: slip.recall / 2 };
const KINDS = [
  ["with the model's own slips, bikes as the prior has them", usual],
  ['as the links say, one to three causes', {}, [1, 1, 2, 3, 0]],
  ["with the model's own slips, one to three causes", usual, [1, 1, 2, 3, 0]],
  ['follows the first sign, 40 %, one to three causes', { ...usual, follows: 0.4 }, [1, 1, 2, 3, 0]],
];
const percent = (x) => `${(100 * x).toFixed(1)} %`.padStart(8);
console.log(`${riders} riders a kind, seed ${seed}; the first change, where one is made`);
for (const [name, manners, off] of KINDS) {
  const random = seeded(Number(seed));
  const runs = Array.from({ length: Number(riders) }, (_, i) => {
    const own = seeded(random());
    const truth = drawTruth(model, bench.prior, own, off?.[i % off.length]);
    const rider = makeRider(model, truth, { ...AS_THE_MODEL, ...manners }, own);
    return interviewRider(model, bench, rider, 'gain', own, asking['most-questions']);
  });
  console.log(`\n${name}`);
  for (const report of ['better', 'worse']) {
    const felt = feltOf(model, bench, runs, report);
    console.log(`  feels ${report.padEnd(8)}   said     real    error  changes`);
    for (const bin of [...feltTable(felt), summary(felt)]) {
      const label = bin.from === undefined ? 'all' : `${bin.from.toFixed(1)}-${bin.to.toFixed(1)}`;
      console.log(
        `  ${label.padEnd(12)} ${percent(bin.said)} ${percent(bin.real)} ${percent(bin.error)} ${String(bin.count).padStart(8)}`,
      );
    }
  }
}
