/**
 * What is left of the diagnosis when riders, rules and bikes are not as assumed: a line a kind of rider.
 * node tests/bench/robust.mjs [riders] [seed]      (after npm run build)
 * right / said: of first causes given 0.8 or more, how many were off, and what was said of them on average.
 */
import { readFileSync } from 'node:fs';
import { prepareBike } from '../../dist/advice/prepared-bike.js';
import { buildModel } from '../../dist/diagnosis/model.js';
import { AS_THE_MODEL, drawTruth, makeRider, seeded } from '../../dist/evaluation/riders.js';
import { interviewRider } from '../../dist/evaluation/simulate.js';

const riders = Number(process.argv[2] ?? 300);
const seed = Number(process.argv[3] ?? 1);
const rules = JSON.parse(
  readFileSync(process.argv[4] ?? new URL('../../dist/rules/base.json', import.meta.url), 'utf8'),
);
Object.assign(rules.numbers, JSON.parse(process.argv[5] ?? '{}'));
Object.assign(rules.numbers.asking, JSON.parse(process.argv[6] ?? '{}'));
const { trust, slip } = rules.numbers;
const model = buildModel(rules);
const bench = prepareBike(model);

/** The rules with one fault more that they do not know: a sign of six questions, more or less plain. */
function unknownTo(random) {
  const own = structuredClone(rules);
  const cause = own.causes.length;
  own.settings.push({ ...own.settings[0], id: 'unknown', causes: [cause], sheet: undefined });
  own.causes.push({ ...own.causes[0], id: 'unknown.off', setting: own.settings.length - 1 });
  const asked = own.questions
    .map((_, i) => i)
    .filter(
      (i) =>
        own.questions[i].either === undefined && !own.questions[i].safety && own.questions[i].how !== 'stand',
    );
  const questions = new Set(asked.filter((i) => own.questions[i].id === 'complaint'));
  while (questions.size < 7) questions.add(asked[Math.floor(random() * asked.length)]);
  for (const i of questions) {
    const q = own.questions[i];
    let answer = q.default;
    while (answer === q.default) answer = Math.floor(random() * q.answers.length);
    q.links.push([cause, answer, 0.4 + 0.4 * random()]);
  }
  return { model: { ...model, rules: own }, truth: [cause] };
}

const usual = { topicWrong: trust.recall, misread: trust.stand, slips: slip.recall / 2 };
const harsh = new Set(rules.causes.flatMap((c, i) => (/too-firm|too-hard/.test(c.id) ? [i] : [])));
const KINDS = [
  ['as the links say', {}],
  ["with the model's own slips", usual],
  ['complains: base rates × 3', { ...usual, complains: 3 }],
  ['follows the first sign, 40 %', { ...usual, follows: 0.4 }],
  ['always "harsh"', { ...usual, fixed: harsh }],
  ['answers at random, 30 %', { ...usual, slips: 0.3 }],
  ['two causes that mask each other', { ...usual, masked: 0.3 }, 2],
  ['a fault the rules do not know', usual, 'unknown'],
  ['nothing off', usual, 0],
];
const mean = (list) => (list.length === 0 ? NaN : list.reduce((s, x) => s + x, 0) / list.length);
const pct = (x) => (Number.isNaN(x) ? '-' : `${(100 * x).toFixed(0)} %`);
console.log(`${riders} riders each, seed ${seed}`);
console.log(
  `${'riders'.padEnd(34)} first  top 3  said>=.8  right  said   over  leave  unknown  none  asked  minutes`,
);
for (const [name, manners, off] of KINDS) {
  const random = seeded(seed);
  const runs = Array.from({ length: riders }, (_, i) => {
    const own = seeded(random());
    const outside = off === 'unknown' ? unknownTo(own) : undefined;
    const truth = outside?.truth ?? drawTruth(model, bench.prior, own, off ?? [1, 1, 2, 3, 0][i % 5]);
    const rider = makeRider(outside?.model ?? model, truth, { ...AS_THE_MODEL, ...manners }, own);
    const run = interviewRider(model, bench, rider, 'gain', own, rules.numbers.asking['most-questions']);
    const { outcome } = run;
    const first = outcome.ranked[0];
    const stated = (1 - outcome.none) * outcome.belief.causes[first];
    const leads = outcome.none > Math.max(stated, (1 - outcome.none) * outcome.belief.nothing);
    return {
      truth,
      first,
      stated,
      right: truth.includes(first),
      top3: outcome.ranked.slice(0, 3).some((c) => truth.includes(c)),
      verdict: outcome.advice.verdict,
      leads,
      asked: run.asked,
      minutes: run.minutes ?? NaN,
    };
  });
  const faulty = runs.filter((r) => r.truth.length > 0);
  const sure = runs.filter((r) => r.stated >= 0.8);
  const over = mean(runs.map((r) => r.stated)) - mean(runs.map((r) => Number(r.right)));
  console.log(
    [
      name.padEnd(34),
      pct(mean(faulty.map((r) => Number(r.right)))).padStart(5),
      pct(mean(faulty.map((r) => Number(r.top3)))).padStart(6),
      pct(sure.length / runs.length).padStart(9),
      pct(mean(sure.map((r) => Number(r.right)))).padStart(6),
      pct(mean(sure.map((r) => r.stated))).padStart(6),
      `${over >= 0 ? '+' : ''}${(100 * over).toFixed(0)}`.padStart(5),
      pct(mean(runs.map((r) => Number(r.verdict === 'leave')))).padStart(6),
      pct(mean(runs.map((r) => Number(r.verdict === 'unknown')))).padStart(8),
      pct(mean(runs.map((r) => Number(r.leads)))).padStart(5),
      String(mean(runs.map((r) => r.asked)).toFixed(1)).padStart(6),
      mean(runs.map((r) => r.minutes))
        .toFixed(1)
        .padStart(8),
    ].join(' '),
  );
}
