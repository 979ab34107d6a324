/** How often learned intervals hold the strength that riders really followed, over many made-up logs. */
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { learn, PACK_WEIGHT, type Learned } from '../../src/evaluation/learn.ts';
import { seeded } from '../../src/evaluation/riders.ts';
import { rulesOf } from '../support/compile-text.ts';
import { WORKSHOP } from '../support/workshop-rules.ts';
import { drawnRules, madeLogs } from './made-logs.ts';

export interface Coverage {
  /** intervals of strengths, and those that held the real one */
  readonly all: number;
  readonly within: number;
  /** logs of riders who follow the pack's own words, and those by which any word moved */
  readonly plain: number;
  readonly moved: number;
}

/** Riders who mistake whole topics and slip far more often than the pack takes them to. */
const CARELESS = {
  trust: { recall: 0.2, ride: 0.2, stand: 0.02 },
  slip: { recall: 0.15, ride: 0.15, stand: 0 },
};

/**
 * @param cases in each log; a fifth of the bikes are left as they were
 * @param careless riders unlike the pack: see `CARELESS`
 */
export function coverage(cases: number, logs: number, careless = false): Coverage {
  const rules = rulesOf({ 'rules.yaml': WORKSHOP });
  const model = buildModel(rules);
  const bench = prepareBike(model);
  const study = (truth: typeof rules, seed: number): Learned =>
    learn(
      model,
      madeLogs(
        careless ? { ...truth, numbers: { ...truth.numbers, ...CARELESS } } : truth,
        { bench },
        cases,
        seeded(seed),
        0.8,
        0.2,
      ),
      {
        weight: PACK_WEIGHT,
        mostRounds: 200,
        progress: () => {},
      },
    );
  let all = 0;
  let within = 0;
  let moved = 0;
  for (let log = 1; log <= logs; log++) {
    const { rules: truth, values } = drawnRules(rules, PACK_WEIGHT, seeded(log / (2 * logs + 1)));
    for (const { strength, low, high } of study(truth, log / (2 * logs + 2)).strengths) {
      const real = values.get(strength.id)!;
      all++;
      if (low <= real && real <= high) within++;
    }
    const { strengths, priors } = study(rules, log / (2 * logs + 3));
    if ([...strengths, ...priors].some((e) => e.firm)) moved++;
  }
  return { all, within, plain: logs, moved };
}
