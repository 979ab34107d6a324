/**
 * How the interview stands up to riders who answer otherwise than the model says: a line a kind of rider.
 * node tests/bench/evaluate.mjs [riders] [seed]      (after npm run build)
 */
import { readFileSync } from 'node:fs';
import { prepareBike } from '../../dist/advice/prepared-bike.js';
import { buildModel } from '../../dist/diagnosis/model.js';
import { AS_THE_MODEL, drawTruth, makeRider, seeded } from '../../dist/evaluation/riders.js';
import { score } from '../../dist/evaluation/score.js';
import { interviewRider } from '../../dist/evaluation/simulate.js';
import { askedTwice, sameAgain } from '../../dist/evaluation/simulate.js';

const riders = Number(process.argv[2] ?? 600);
const seed = Number(process.argv[3] ?? 1);
const base = JSON.parse(readFileSync(new URL('../../dist/rules/base.json', import.meta.url), 'utf8'));
const { trust, slip } = base.numbers;

// A slip of the model may hit the right answer again; a rider's is always another. With two answers that is half.
const MANNERS = [
  ['exactly as the links say', {}],
  ["with the model's own slips", { topicWrong: trust.recall, misread: trust.stand, slips: slip.recall / 2 }],
  ['slips in 5 %', { slips: 0.05 }],
  ['slips in 10 %', { slips: 0.1 }],
  ['slips in 20 %', { slips: 0.2 }],
  ['ends mixed up by 10 %', { endMixedUp: 0.1 }],
  ['20 % coloured by an earlier', { echoes: 0.2 }],
  ['all asked and told twice', {}, true],
];

console.log(
  `${riders} riders each, seed ${seed}: a fifth with nothing off, two fifths one cause, a fifth two, a fifth three`,
);
console.log('riders                        first  top 3  overstated  Brier  log loss  asked');
for (const [name, manners, twice = false] of MANNERS) {
  const rules = twice ? askedTwice(base) : base;
  const model = buildModel(rules);
  const bench = prepareBike(model);
  const random = seeded(seed);
  const runs = Array.from({ length: riders }, (_, i) => {
    const own = seeded(random());
    const truth = drawTruth(model, bench.prior, own, [1, 1, 2, 3, 0][i % 5]);
    const made = makeRider(model, truth, { ...AS_THE_MODEL, ...manners }, own);
    const rider = twice ? sameAgain(rules, made) : made;
    return interviewRider(model, bench, rider, 'gain', own, rules.numbers.asking['most-questions']);
  });
  const s = score(model, runs);
  const c = s.calibration;
  console.log(
    [
      name.padEnd(28),
      `${(100 * s.top1).toFixed(0)} %`.padStart(6),
      `${(100 * s.top3).toFixed(0)} %`.padStart(6),
      `${c.overstated >= 0 ? '+' : ''}${c.overstated.toFixed(1)} pts`.padStart(11),
      c.brier.toFixed(3).padStart(6),
      c.logLoss.toFixed(3).padStart(9),
      String(s.median).padStart(6),
    ].join(' '),
  );
}
