/**
 * What the log of one rider is worth: interviews before, what is learned of how readily he names signs, and the next one.
 * node tests/bench/rider-log.mjs [riders] [interviews before] [seed]      (after npm run build)
 * Each interview is about a bike with other things off: a fifth with nothing, two fifths one cause, a fifth two, a fifth three.
 */
import { readFileSync } from 'node:fs';
import { prepareBike } from '../../dist/advice/prepared-bike.js';
import { shiftOf } from '../../dist/casework/rider.js';
import { buildModel } from '../../dist/diagnosis/model.js';
import { AS_THE_MODEL, drawTruth, makeRider, seeded } from '../../dist/evaluation/riders.js';
import { interviewRider } from '../../dist/evaluation/simulate.js';

const riders = Number(process.argv[2] ?? 100);
const before = Number(process.argv[3] ?? 10);
const seed = Number(process.argv[4] ?? 1);
/** interviews of each rider after them, each without and with what was learned; errors are over riders */
const AFTER = 4;
const only = process.argv[5]?.split(',').map(Number);
const rules = JSON.parse(readFileSync(new URL('../../dist/rules/base.json', import.meta.url), 'utf8'));
const { trust, slip, asking } = rules.numbers;
const model = buildModel(rules);
const bench = prepareBike(model);
const usual = { topicWrong: trust.recall, misread: trust.stand, slips: slip.recall / 2 };
const KINDS = [
  ["with the model's own slips", usual],
  ['complains: base rates × 3', { ...usual, complains: 3 }],
  ['understates: base rates × 1/3', { ...usual, complains: 1 / 3 }],
  ["the model's own slips, the same things off throughout", usual, 'same'],
];

/** Interviews of a rider whose manners stay, about what is off now; always counted over all of them. */
function interviewsOf(manners, random, count, start, same) {
  return Array.from({ length: count }, (_, i) => {
    const truth = same ?? drawTruth(model, bench.prior, random, [1, 1, 2, 3, 0][(start + i) % 5]);
    const rider = makeRider(model, truth, { ...AS_THE_MODEL, ...manners }, random);
    const answers = [];
    const noting = {
      truth,
      answer: (question) => {
        const answer = rider.answer(question);
        answers.push({ question: rules.questions[question].id, answer, sure: 'sure' });
        return answer;
      },
    };
    const run = interviewRider(model, bench, noting, 'gain', random, asking['most-questions']);
    return { rider, answers, run };
  });
}

const { atReadiness } = await import('../../dist/diagnosis/readiness.js');
const stated = ({ outcome }) => (1 - outcome.none) * outcome.belief.causes[outcome.ranked[0]];
const right = ({ truth, outcome }) => Number(truth.includes(outcome.ranked[0]));
const mean = (list) => list.reduce((s, x) => s + x, 0) / list.length;
const error = (list) => Math.sqrt(mean(list.map((x) => (x - mean(list)) ** 2)) / (list.length - 1));
const points = (list) => `${(100 * mean(list)).toFixed(1)} ± ${(100 * error(list)).toFixed(1)}`;
console.log(`${riders} riders each, ${before} interviews before, seed ${seed}`);
console.log(
  'riders | shift | counted | overstated before, after, difference | first right | Brier × 100 | time',
);
for (const [name, manners, off] of KINDS.filter((_, k) => only?.includes(k) ?? true)) {
  const random = seeded(seed);
  const rows = Array.from({ length: riders }, (_, i) => {
    const own = seeded(random());
    const same = off === 'same' ? drawTruth(model, bench.prior, own, [1, 1, 2, 3, 0][i % 5]) : undefined;
    const past = interviewsOf(manners, own, before, i, same);
    // Something was changed for good in between, so that nothing is taken for told twice of one bike.
    const results = [{ change: { name: 'changed' }, outcome: 'same', kept: true }];
    const earlier = past.map(({ answers }) => ({ answers, results }));
    const t = performance.now();
    const shift = shiftOf(model, bench, { earlier });
    const took = performance.now() - t;
    const next = interviewsOf(manners, own, AFTER, i, same).map(({ rider, run: plain }) => ({
      plain,
      known:
        shift === 0
          ? plain
          : interviewRider(atReadiness(model, shift), bench, rider, 'gain', own, asking['most-questions']),
    }));
    const of = (what) => mean(next.map(what));
    return {
      shift,
      took,
      over: [of((n) => stated(n.plain) - right(n.plain)), of((n) => stated(n.known) - right(n.known))],
      first: [of((n) => right(n.plain)), of((n) => right(n.known))],
      brier: [
        of((n) => (stated(n.plain) - right(n.plain)) ** 2),
        of((n) => (stated(n.known) - right(n.known)) ** 2),
      ],
    };
  });
  const both = (key) => [
    points(rows.map((r) => r[key][0])),
    points(rows.map((r) => r[key][1])),
    points(rows.map((r) => r[key][1] - r[key][0])),
  ];
  console.log(
    [
      name,
      `${mean(rows.map((r) => r.shift)).toFixed(2)} ± ${error(rows.map((r) => r.shift)).toFixed(2)}`,
      `${Math.round(100 * mean(rows.map((r) => Number(r.shift !== 0))))} %`,
      ...both('over'),
      ...both('first'),
      ...both('brier'),
      `${mean(rows.map((r) => r.took)).toFixed(1)} ms a log`,
    ].join(' | '),
  );
}
