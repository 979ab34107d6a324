/**
 * The whole loop, on made-up bikes: interview, the first adjustment, its trial, the verdict, the next interview, until the
 * bike is right, nothing more is advised or four trials are ridden. It prices when to stop asking (`enough`) in minutes.
 * node tests/bench/loop.mjs [bikes] [seed] [enough,enough,...] [rules.json]     (after npm run build)
 *
 * A question costs the minutes its rule says; an adjustment its own minutes, and, unless it is a repair or a habit, a
 * trial of six runs. A trial that helped is kept. What it cures is gone with the pack's own chance that one step is enough.
 */
import { readFileSync } from 'node:fs';
import { prepareBike } from '../../dist/advice/prepared-bike.js';
import { consult } from '../../dist/casework/consult.js';
import { buildModel } from '../../dist/diagnosis/model.js';
import { outcomeProbability } from '../../dist/diagnosis/results.js';
import { AS_THE_MODEL, drawTruth, makeRider, seeded } from '../../dist/evaluation/riders.js';

const [bikes = '150', seed = '1', levels = '0.25,0.15,0.1,0.05', file] = process.argv.slice(2);
const base = JSON.parse(readFileSync(file ?? new URL('../../dist/rules/base.json', import.meta.url), 'utf8'));
const RUNS = 6;
const MINUTES_A_RUN = 10;
const MOST_TRIALS = 4;
const manners = {
  ...AS_THE_MODEL,
  topicWrong: base.numbers.trust.recall,
  misread: base.numbers.trust.stand,
  slips: base.numbers.slip.recall / 2,
};

function oneBike(model, bench, random, off) {
  const { rules } = model;
  let truth = drawTruth(model, bench.prior, random, off);
  const faulty = truth.length > 0;
  const earlier = [];
  const sum = {
    faulty,
    right: !faulty,
    visits: 0,
    asked: 0,
    minutes: 0,
    talk: 0,
    trials: 0,
    wrongWay: 0,
    spoilt: false,
  };
  while (sum.trials < MOST_TRIALS) {
    const rider = makeRider(model, truth, manners, random);
    const answers = [];
    let lastTopic;
    let c;
    for (;;) {
      c = consult(
        model,
        bench,
        { id: 'x', answers, results: [], earlier },
        { next: true, explain: 0, fit: false, lastTopic },
      );
      if (c.stop !== undefined || c.open.length === 0) break;
      const { question } = c.open[0];
      const q = rules.questions[question];
      answers.push({ question: q.id, answer: rider.answer(question), sure: 'sure' });
      sum.talk += q.minutes;
      lastTopic = q.topic;
    }
    sum.visits++;
    sum.asked += answers.length;
    const index = c.advice.first;
    if (c.advice.verdict !== 'change' || index === undefined) break;
    const a = rules.adjustments[index];
    const effect = bench.effect(index);
    if (truth.some((t) => effect.brings[t] > 0)) sum.wrongWay++;
    const ridden = a.kind !== 'repair' && a.kind !== 'habit';
    sum.minutes += a.minutes + (ridden ? RUNS * MINUTES_A_RUN : 0);
    if (ridden) sum.trials++;
    else sum.trials += 0.5;
    let left = random();
    const outcome =
      ['better', 'same', 'worse'].find((o) => (left -= outcomeProbability(model, effect, truth, o)) < 0) ??
      'worse';
    const kept = outcome === 'better';
    if (kept) {
      const lasts = a.change === undefined ? 1 : rules.numbers.results['one-step'];
      const held = new Set(truth.map((t) => rules.causes[t].setting));
      truth = truth.filter((t) => random() >= effect.cures[t] * lasts);
      effect.brings.forEach((push, cause) => {
        if (
          held.has(rules.causes[cause].setting) ||
          random() >= push * rules.numbers.advice['upset-when-right'] * 0.5
        )
          return;
        if (effect.cures.some((x, t) => x > 0 && held.has(rules.causes[t].setting))) return;
        truth = [...truth, cause].sort((x, y) => x - y).slice(0, 3);
      });
    }
    earlier.push({ answers, results: [{ change: { name: a.id }, outcome, kept }] });
    if (truth.length === 0) {
      sum.right = true;
      break;
    }
  }
  if (truth.length > 0) sum.right = false;
  sum.minutes += sum.talk;
  sum.spoilt = !faulty && truth.length > 0;
  return sum;
}

const mean = (list) => list.reduce((s, x) => s + x, 0) / Math.max(1, list.length);
console.log(
  `${bikes} bikes, seed ${seed}: a fifth with nothing off, two fifths one cause, two fifths two; a trial is ${RUNS} runs of ${MINUTES_A_RUN} min`,
);
console.log(
  'enough  right in the end  questions a visit  min of talk a visit  visits  wrong-way visits  min per bike put right  spoilt',
);
for (const enough of levels.split(',').map(Number)) {
  const rules = { ...base, numbers: { ...base.numbers, asking: { ...base.numbers.asking, enough } } };
  const model = buildModel(rules);
  const bench = prepareBike(model);
  const random = seeded(Number(seed));
  const all = Array.from({ length: Number(bikes) }, (_, i) =>
    oneBike(model, bench, seeded(random()), [1, 2, 1, 2, 0][i % 5]),
  );
  const faulty = all.filter((b) => b.faulty);
  const visits = all.reduce((s, b) => s + b.visits, 0);
  const put = faulty.filter((b) => b.right).length;
  console.log(
    [
      enough.toFixed(2).padEnd(6),
      `${((100 * put) / faulty.length).toFixed(1)} %`.padStart(17),
      (all.reduce((s, b) => s + b.asked, 0) / visits).toFixed(1).padStart(18),
      (all.reduce((s, b) => s + b.talk, 0) / visits).toFixed(1).padStart(20),
      mean(all.map((b) => b.visits))
        .toFixed(2)
        .padStart(7),
      (all.reduce((s, b) => s + b.wrongWay, 0) / visits).toFixed(3).padStart(17),
      (faulty.reduce((s, b) => s + b.minutes, 0) / Math.max(1, put)).toFixed(0).padStart(23),
      `${(100 * mean(all.filter((b) => !b.faulty).map((b) => Number(b.spoilt)))).toFixed(0)} %`.padStart(7),
    ].join(' '),
  );
}
