/** `earshot rules simulate`: made-up riders, interviewed by the engine; how often it finds what is off, and how soon. */
import { json } from '../../../form/text.ts';
import { command, flag, format, type Given } from '../../takes.ts';
import { count, probability } from '../../values.ts';
import { prepareBike } from '../../../advice/prepared-bike.ts';
import { buildModel } from '../../../diagnosis/model.ts';
import { confusion, type ConfusionRow, score, type Score } from '../../../evaluation/score.ts';
import { drawTruth, makeRider, seeded, type Manners } from '../../../evaluation/riders.ts';
import {
  interviewRider,
  ORDERS,
  type Interviewed,
  type Order,
  askedTwice,
  sameAgain,
} from '../../../evaluation/simulate.ts';
import { simulateReport } from '../../../report/rules/simulate-text.ts';
import { EXIT, type ExitCode, type Io } from '../../../host/io.ts';
import { loadRules } from '../../../workspace/rules/load-rules.ts';
import { keptNumbers } from '../../../workspace/rules/precomputed.ts';

/** How riders answer otherwise than the model says, as shares. */
const manners = {
  slips: probability('share of answers replaced by another', 0.05),
  misread: probability('share of checks on the bike that are misread', 0.01),
  cannotTell: probability("share of answers that are can't tell", 0.05),
  topicWrong: probability('share of topics misremembered as a whole', 0.05),
  endMixedUp: probability('share of riders who mix up front and rear', 0),
  echoes: probability('share of answers coloured by an earlier sign of any topic', 0),
};

const takes = {
  riders: count('n', 'how many', 500),
  seed: count('n', 'same seed, same riders', 1),
  most: count('n', 'questions at most', 20),
  ...manners,
  twice: flag('every question from memory a second time, in other words, answered the same'),
  compare: flag('against a fixed and a random order of questions'),
  confusion: flag('which cause is named first for which'),
  format: format('text', 'json'),
};

export const rulesSimulate = command({
  about: 'made-up riders, interviewed by the engine: how often it finds what is off, and how soon',
  options: takes,
  examples: [
    ['earshot rules simulate --riders 200 --seed 7', 'two hundred made-up riders'],
    ['earshot rules simulate --slips 0.2 --compare', 'careless riders, and other orders of questions'],
  ],
  run: async ({ slips, misread, cannotTell, topicWrong, endMixedUp, echoes, ...given }, { io, rules }) =>
    simulate(
      { ...given, manners: { slips, misread, cannotTell, topicWrong, endMixedUp, echoes } },
      rules,
      io,
    ),
});

/** What one order came to with riders with so many causes off together; 0 = nothing is off. */
interface Simulated {
  readonly order: Order;
  readonly count: number | 'all';
  readonly score: Score;
}

async function simulate(
  options: Omit<Given<typeof takes>, keyof typeof manners> & { readonly manners: Manners },
  packs: readonly string[],
  io: Io,
): Promise<ExitCode> {
  const once = await loadRules(io, packs);
  const rules = options.twice ? askedTwice(once) : once;
  // Of questions told twice nothing was worked out ahead.
  const keep = options.twice ? undefined : keptNumbers(io, once);
  const model = buildModel(rules, undefined, keep);
  const bench = prepareBike(model);
  const orders = options.compare ? ORDERS : (['gain'] as const);
  const results: Simulated[] = [];
  let matrix: readonly ConfusionRow[] | undefined;
  for (const order of orders) {
    const byCount = new Map<number, Interviewed[]>();
    // The same riders for every order: their seed does not depend on it.
    const random = seeded(options.seed);
    for (let i = 0; i < options.riders; i++) {
      // Nothing, one, two and three causes in turn, so that each table stands on as many riders.
      const count = [1, 1, 2, 3, 0][i % 5]!;
      const own = seeded(random());
      const made = makeRider(model, drawTruth(model, bench.prior, own, count), options.manners, own);
      const rider = options.twice ? sameAgain(rules, made) : made;
      const done = interviewRider(model, bench, rider, order, own, options.most);
      byCount.set(count, [...(byCount.get(count) ?? []), done]);
      if (io.stderrIsTty && i % 10 === 9) io.err(`\r${order}: ${i + 1} of ${options.riders} riders `);
    }
    if (io.stderrIsTty) io.err('\r\u001b[K');
    for (const [count, runs] of [...byCount].sort(([a], [b]) => a - b))
      results.push({ order, count, score: score(model, runs) });
    if (options.confusion && order === 'gain') matrix = confusion(model, [...byCount.values()].flat());
    results.push({ order, count: 'all', score: score(model, [...byCount.values()].flat()) });
  }
  if (options.format === 'json')
    await io.out(
      json({ format: 1, options: options, results, ...(matrix === undefined ? {} : { confusion: matrix }) }),
    );
  else await io.out(simulateReport(results, options, matrix));
  return EXIT.done;
}
