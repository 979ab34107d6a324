/** `earshot rules simulate`: made-up riders, interviewed by the engine; how often it finds what is off, and how soon. */
import { makeBench } from '../advice/bench.ts';
import { buildModel } from '../diagnosis/model.ts';
import { confusion, type ConfusionRow } from '../evaluation/confusion.ts';
import { drawTruth, makeRider, seeded, type Manners } from '../evaluation/riders.ts';
import { score, type Score } from '../evaluation/score.ts';
import { interviewRider, ORDERS, type Interviewed, type Order } from '../evaluation/simulate.ts';
import { askedTwice, sameAgain } from '../evaluation/twice.ts';
import { simulateReport } from '../report/simulate-text.ts';
import { EXIT, type ExitCode, type Io } from './io.ts';
import { loadRules } from './load-rules.ts';

export interface SimulateOptions {
  readonly rules: readonly string[];
  readonly riders: number;
  readonly seed: number;
  readonly manners: Manners;
  /** compare the interview's order with a fixed and a random one */
  readonly compare: boolean;
  readonly most: number;
  /** every question from memory once more in other words, and answered the same again */
  readonly twice?: boolean;
  /** which cause is named first for which */
  readonly confusion: boolean;
  readonly format: 'text' | 'json';
}

export interface Simulated {
  readonly order: Order;
  /** how many causes are off together; 0 = nothing is off */
  readonly count: number | 'all';
  readonly score: Score;
}

export async function rulesSimulate(options: SimulateOptions, io: Io): Promise<ExitCode> {
  const once = await loadRules(io, options.rules);
  const rules = options.twice === true ? askedTwice(once) : once;
  const model = buildModel(rules);
  const bench = makeBench(model);
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
      const rider = options.twice === true ? sameAgain(rules, made) : made;
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
      `${JSON.stringify({ format: 1, options: { ...options, rules: undefined }, results, ...(matrix === undefined ? {} : { confusion: matrix }) }, null, 2)}\n`,
    );
  else await io.out(simulateReport(results, options, matrix));
  return EXIT.done;
}
