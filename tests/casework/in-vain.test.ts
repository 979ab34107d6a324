/** Two steps that fail, told back after each: whatever the rules' own cases tell, on a bike with numbers and on a bare one. */
import { expect, it } from 'vitest';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { readDeed } from '../../src/bike/deed.ts';
import type { Case, CaseResult } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { think } from '../../src/casework/think.ts';
import { lastInVain, riddenInVain } from '../../src/casework/ridden-in-vain.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { exampleSheet } from '../bike/example.ts';
import { baseRules } from '../support/base-rules.ts';
import { answersOf, bench, model } from '../support/told.ts';

/** Every so many of the checks. */
const EVERY = 13;
const cases = baseRules().checks.flatMap(({ given, bike }, i): Case[] =>
  i % EVERY > 0 || bike !== undefined
    ? []
    : [
        {
          id: 'x',
          answers: Object.entries(given).map(([question, said]) =>
            typeof said === 'string'
              ? { question, answer: said, sure: 'sure' }
              : { question, answer: said.answer, sure: said.sure ?? 'sure' },
          ),
          results: [],
          earlier: [],
        },
      ],
);
const ROUNDS = 3;

/** What is told at first, and after each step that failed, with these steps. */
function failing(
  on: PreparedBike,
  start: Case,
  how: Partial<CaseResult>,
  anew: boolean,
): [Result[], string[]] {
  const told: Result[] = [];
  const steps: string[] = [];
  for (let kase = start; told.length < ROUNDS;) {
    const c = consult(model, on, kase, { next: false, explain: 0, fit: false });
    const result = toResult(model, kase, c);
    told.push(result);
    const [first] = result.adjustments;
    if (result.first === null || result.verdict === 'stop' || first?.change == null) break;
    steps.push(first.change);
    const failed = { change: readDeed(first.change), outcome: 'worse', kept: false, ...how } as const;
    kase = anew
      ? { ...kase, earlier: [...kase.earlier, { answers: kase.answers, results: [failed] }] }
      : { ...kase, results: [...kase.results, failed] };
  }
  return [told, steps];
}

const rated = { points: -1, error: 0.6 };
it.each([
  ['rated worse in the same case', {}, false],
  ['rated worse, and the same told anew', rated, true],
  ['rated no different, and that clearly', { outcome: 'same', points: 0, error: 0.4 }, true],
] as [string, Partial<CaseResult>, boolean][])(
  'a step that failed is not advised again, nor is half of it said to be untried: %s',
  (_, how, anew) => {
    let twice = 0;
    for (const on of [bench, prepareBike(model, exampleSheet('all-knobs'))])
      for (const kase of cases) {
        const [told, steps] = failing(on, kase, how, anew);
        told.slice(1).forEach((result, i) => {
          const done = steps.slice(0, i + 1);
          for (const { change } of result.adjustments) expect(done).not.toContain(change);
          for (const { less } of result.refused) expect(done).not.toContain(less);
          if (result.first !== null && result.adjustments[0]!.feelsBetter !== null)
            expect(result.cautions).not.toEqual([]);
        });
        if (steps.length > 1) twice++;
      }
    expect(twice).toBeGreaterThan(0);
  },
);

it('a step that the rider tried and found worse is named again only where much points to it', () => {
  const { rules } = model;
  const least = rules.numbers.advice['try-again'];
  let left = 0;
  // A kick and a bounce, and two signs that say otherwise: enough for a step, and too little to try it again.
  const little: Case = {
    id: 'little',
    answers: [
      { question: 'hit-pattern', answer: 'one', sure: 'sure' },
      { question: 'lone-hit.kick@front', answer: 'kicks', sure: 'sure' },
      { question: 'push-return@front', answer: 'springs', sure: 'sure' },
      { question: 'settles@front', answer: 'once', sure: 'sure' },
      { question: 'release', answer: 'right', sure: 'sure' },
    ],
    results: [],
    earlier: [],
  };
  for (const kase of [...cases, little]) {
    const before = consult(model, bench, kase, { next: false, explain: 0, fit: false });
    const { first } = before.advice;
    const step = first === undefined ? undefined : rules.adjustments[first]!;
    if (step?.change === undefined) continue;
    const tried = [{ change: { changes: [step.change] }, result: 'worse', putBack: 'yes' } as const];
    const after = consult(model, bench, { ...kase, tried }, { next: false, explain: 0, fit: false });
    const { cures } = bench.effect(first!);
    const cured = cures.reduce((sum, share, cause) => sum + share * after.belief.causes[cause]!, 0);
    const named = after.advice.ranked.some(({ adjustment }) => adjustment === first);
    expect(named && cured < least).toBe(false);
    if (cured < least) left++;
  }
  expect(left).toBeGreaterThan(0);
});

it('what made no difference is not turned on to its stop, and is turned on short of it', () => {
  const sheet = (now: number) =>
    prepareBike(model, {
      ...exampleSheet('all-knobs'),
      ends: {
        ...exampleSheet('all-knobs').ends,
        rear: {
          ...exampleSheet('all-knobs').ends.rear,
          adjusters: {
            ...exampleSheet('all-knobs').ends.rear.adjusters,
            'rebound.low': { ...exampleSheet('all-knobs').ends.rear.adjusters['rebound.low']!, now },
          },
        },
      },
    });
  const step = model.rules.adjustments.findIndex(({ id }) => id === 'rear.rebound.low.close');
  const tried = [{ setting: 'rear.rebound.low', direction: 'close', result: 'same', putBack: 'no' } as const];
  const kase = { ...cases[0]!, tried };
  expect(riddenInVain(model, sheet(2), kase)?.get(step)?.why).toMatch(/no difference.*stop/);
  expect(riddenInVain(model, sheet(9), kase)?.get(step)).toBeUndefined();
  expect(riddenInVain(model, bench, kase)?.get(step)).toBeUndefined();
});

it('offers a larger step that was rated better again, where a smaller one made no difference', () => {
  const on = prepareBike(model, exampleSheet('all-knobs'));
  const kase: Case = { id: 'x', answers: [], results: [], earlier: [] };
  const stepOf = (results: readonly CaseResult[]) => {
    const thought = think(
      model,
      on,
      on.prior,
      { ...kase, results },
      { unplaced: [], stood: { said: [], seen: [] } },
    );
    const index = model.rules.adjustments.findIndex(({ id }) => id === 'front.rebound.low.open');
    const one = thought.cut.possible[index]!;
    if (!one.can || one.step === undefined) throw new Error('no step');
    return { by: one.step.by, note: one.note, barred: thought.ridden?.has(index) === true };
  };
  const result = (by: number, how: Partial<CaseResult>): CaseResult => ({
    change: readDeed(`front.rebound.low${by < 0 ? '' : '+'}${by}`),
    outcome: 'same',
    kept: false,
    ...how,
  });
  const own = stepOf([]).by;
  expect(own).toBeGreaterThan(0);
  const failed = result(own, { points: 0, error: 0.4 });
  const better = result(own + 2, { outcome: 'better', points: 1.8, error: 0.6 });
  expect(stepOf([failed])).toMatchObject({ by: own, barred: true });
  for (const results of [
    [better, failed],
    [failed, better],
  ]) {
    const offered = stepOf(results);
    expect(offered).toMatchObject({ by: own + 2, barred: false });
    expect(offered.note).toContain('rated better');
  }
  // Not where it was rated worse since, the other way was better, or the small step itself made it worse.
  expect(stepOf([better, failed, { ...better, outcome: 'worse', points: -1 }]).by).toBe(own);
  expect(stepOf([result(-2, { outcome: 'better', points: 2, error: 0.6 }), failed]).by).toBe(own);
  expect(stepOf([better, { ...failed, outcome: 'worse', points: -1 }])).toMatchObject({
    by: own,
    barred: true,
  });
});

it('prints that larger step, as far as the bike has room for it', () => {
  const sheet = exampleSheet('all-knobs');
  const knob = sheet.ends.front.adjusters['rebound.high']!;
  const [range, now] = [knob.range!, knob.now!];
  const at = (clicks: number) => {
    const adjusters = { ...sheet.ends.front.adjusters, 'rebound.high': { range, now: clicks } };
    const on = prepareBike(model, {
      ...sheet,
      ends: { ...sheet.ends, front: { ...sheet.ends.front, adjusters } },
    });
    const result = (by: number, how: Partial<CaseResult>): CaseResult => ({
      change: readDeed(`front.rebound.high+${by}`),
      outcome: 'same',
      kept: false,
      error: 0.4,
      ...how,
    });
    const kase: Case = {
      id: 'x',
      answers: answersOf({
        complaint: 'rows',
        'hit-pattern': 'row',
        'repeated-hits.trend@front': 'worse',
        'return-speed@front': 'deep',
        'run-trend': 'section',
      }),
      results: [result(4, { outcome: 'better', points: 1.5 }), result(2, { points: 0 })],
      earlier: [],
    };
    const c = consult(model, on, kase, { next: false, explain: 0, fit: false });
    const { adjustments, first } = toResult(model, kase, c, { most: 99 });
    const again = adjustments.find(({ id }) => id === 'front.rebound.high.open')!;
    return { first, by: again.by, to: again.to, note: again.note };
  };
  expect(at(now)).toMatchObject({ first: 'front.rebound.high.open', by: 4, to: now + 4 });
  expect(at(range - 3)).toMatchObject({ by: 3, to: range });
  expect(at(range - 3).note).toContain('only this much range is left');
});

it.each([
  ['once, and not clearly', [['same', 0.9]], false],
  ['once, and clearly', [['same', 0.5]], true],
  // Two of 0.8 are as clear as one of 0.8/√2, 0.57.
  [
    'twice, which together is clear',
    [
      ['same', 0.8],
      ['same', 0.8],
    ],
    true,
  ],
  [
    'without ratings',
    [
      ['same', undefined],
      ['same', undefined],
    ],
    false,
  ],
  [
    'worse the last time',
    [
      ['better', 0.5],
      ['worse', 0.5],
    ],
    true,
  ],
  [
    'better the last time',
    [
      ['worse', 0.5],
      ['better', 0.5],
    ],
    false,
  ],
] as const)('a step that was no different %s', (_, rated, vain) => {
  const step = readDeed('front.rebound.low+2');
  const since = rated.map(([outcome, error]): CaseResult => ({
    change: step,
    outcome,
    kept: false,
    ...(error === undefined ? {} : { points: 0, error }),
  }));
  expect(lastInVain(since, step)).toBe(vain ? since.at(-1) : undefined);
  expect(lastInVain(since, readDeed('front.rebound.low+1'))).toBeUndefined();
});

it('a step whose ratings scatter, and lie below those without it, was in vain as well', () => {
  const step = readDeed('front.rebound.low+2');
  const rated = (points: number): CaseResult[] => [
    { change: step, outcome: 'same', kept: false, points, error: 0.9 },
  ];
  expect(lastInVain(rated(-0.8), step)).toBeDefined();
  expect(lastInVain(rated(0), step)).toBeUndefined();
  expect(lastInVain(rated(0.8), step)).toBeUndefined();
});

it('frees the front from waiting for the rear once slowing the rear was tested in vain', () => {
  const sheet = exampleSheet('all-knobs');
  const on = prepareBike(model, sheet);
  const said = {
    'safety.found': 'none',
    'safety.brakes': 'good',
    complaint: 'air',
    'return-speed@front': 'shallow',
    'push-return@front': 'creeps',
    'landing@rear': 'bounced',
    'push-return@rear': 'springs',
    'kerb-drop@rear': 'bounces',
  };
  const after = (...tested: string[]): Result => {
    const results = tested.map((change) => ({
      change: readDeed(change),
      outcome: 'worse' as const,
      kept: false,
    }));
    const kase: Case = { id: 'x', answers: answersOf(said), results, earlier: [] };
    return toResult(model, kase, consult(model, on, kase, { next: false, explain: 0, fit: false }));
  };
  const waits = ({ refused }: Result): boolean =>
    refused.some(({ why }) => why.includes('slow that end first'));
  expect(after().first).toBe('rear.rebound.low.close');
  const freed = after('rear.rebound.low-2', 'rear.rebound.high-2');
  expect(waits(freed)).toBe(false);
  expect(freed.first).toBe('front.rebound.low.open');
  // The rear is as likely too fast as before, so that is still warned of.
  expect(freed.cautions.map(({ id }) => id)).toContain('rear.fast-return');
});

it.each([
  ['a smaller step that was rated worse', [['front.rebound.low+1', 'worse']], true],
  [
    'the same, as a part of a larger that was better',
    [
      ['front.rebound.low+1', 'worse'],
      ['front.rebound.low+3', 'better'],
    ],
    false,
  ],
  ['a smaller step that made no difference', [['front.rebound.low+1', 'same']], false],
  ['a larger step that was rated worse', [['front.rebound.low+6', 'worse']], false],
  ['the other way, rated worse', [['front.rebound.low-1', 'worse']], false],
] as const)('%s holds back a step of its own size or not', (_, rated, vain) => {
  const on = prepareBike(model, exampleSheet('all-knobs'));
  const index = on.possible.findIndex(
    (one) => one.can && one.step?.setting === 'front.rebound.low' && one.step.by === 2,
  );
  expect(index).toBeGreaterThanOrEqual(0);
  const results = rated.map(([change, outcome]): CaseResult => ({
    change: readDeed(change),
    outcome,
    kept: false,
    points: outcome === 'better' ? 1 : outcome === 'worse' ? -1 : 0,
    error: 0.4,
  }));
  const found = riddenInVain(model, on, { answers: [], results, earlier: [] });
  expect(found?.has(index) === true).toBe(vain);
});
