import { readDeed } from '../../src/bike/deed.ts';
import { afterAll, describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import type { Case } from '../../src/casework/case.ts';
import { printChange } from '../../src/bike/change.ts';
import { consult } from '../../src/casework/consult.ts';
import { tellingOf } from '../../src/casework/what-if/telling.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { ladderOf, neighbours, nearestRung } from '../../src/evaluation/word-scale.ts';
import { caseSensitivity, checkSensitivity, withMoved } from '../../src/evaluation/sensitivity.ts';
import { strengthsOf, withValue } from '../../src/evaluation/strengths.ts';
import type { CompiledRules } from '../../src/rulebase/compiled.ts';
import type { Check } from '../../src/rulebase/compile-checks.ts';
import { baseRules, modelOfTwo } from '../support/base-rules.ts';

const { checks } = baseRules();
/** Of at most two causes at once: what is compared here is worked out both ways, and the plain way is dear. */
const model = modelOfTwo();
const { rules } = model;
const bench = prepareBike(model);
const STRENGTHS = strengthsOf(rules);
const quick = { next: false, explain: 0, fit: false };

const kase = (answers: Readonly<Record<string, string>>): Case => ({
  id: 'x',
  answers: Object.entries(answers).map(([question, answer]) => ({ question, answer, sure: 'sure' as const })),
  results: [],
  earlier: [],
});

/** The rules with one strength changed, compiled into a model from the start: the slow way. */
function rebuilt(strengthId: string, value: number): CompiledRules {
  const strength = STRENGTHS.find((s) => s.id === strengthId)!;
  return {
    ...rules,
    questions: rules.questions.map((q, i) =>
      withValue(
        q,
        strength.spots.filter((s) => s.question === i),
        value,
      ),
    ),
  };
}

describe('the ladder of words', () => {
  it('has each word that a rule uses once, rising', () => {
    const ladder = ladderOf(rules);
    const used = new Set(rules.questions.flatMap((q) => q.links.map(([, , s]) => s)));
    for (const value of used) expect(ladder.filter((r) => r.value === value)).toHaveLength(1);
    for (let i = 1; i < ladder.length; i++) expect(ladder[i]!.value).toBeGreaterThan(ladder[i - 1]!.value);
  });
  it('steps to the next word on either side, and stops at its ends', () => {
    const ladder = [0.1, 0.3, 0.8].map((value) => ({ word: String(value), value }));
    expect(neighbours(ladder, 0.3).map((r) => r.word)).toEqual(['0.1', '0.8']);
    expect(neighbours(ladder, 0.8).map((r) => r.word)).toEqual(['0.3']);
    expect(nearestRung(ladder, 0.54).word).toBe('0.3');
  });
});

describe('strengths', () => {
  it('of a rule for both ends are one, with a spot at each end', () => {
    const s = STRENGTHS.find((x) => x.id === 'repeated-hits.trend worse {end}.spring.too-soft')!;
    expect(s.spots.map((at) => [rules.questions[at.question]!.id, rules.causes[at.cause]!.id])).toEqual([
      ['repeated-hits.trend@front', 'front.spring.too-soft'],
      ['repeated-hits.trend@rear', 'rear.spring.too-soft'],
    ]);
  });
  it('cover every link and every base rate once', () => {
    const spots = STRENGTHS.flatMap((s) => s.spots);
    const there = rules.questions.reduce(
      (n, q) => n + q.links.length + q.base.filter((b) => b > 0).length,
      0,
    );
    expect(spots).toHaveLength(there);
    expect(new Set(spots.map((s) => `${s.question} ${s.answer} ${s.cause}`)).size).toBe(there);
  });
});

describe('a moved strength', () => {
  const given = kase({
    'hit-pattern': 'row',
    'repeated-hits.trend@front': 'worse',
    'repeated-hits.depth@front': 'deeper',
  });
  it.each([
    'repeated-hits.trend worse {end}.spring.too-soft',
    'repeated-hits.depth deeper usually',
    'hit-pattern row front.rebound.high.too-slow',
  ])('gives the same belief as rules built anew with it: %s', (id) => {
    const strength = STRENGTHS.find((s) => s.id === id)!;
    const cheap = consult(withMoved(model, strength, 0.5), bench, given, quick);
    const whole = buildModel(rebuilt(id, 0.5));
    const slow = consult(whole, prepareBike(whole), given, quick);
    const before = consult(model, bench, given, quick);
    cheap.belief.causes.forEach((p, c) => expect(p).toBeCloseTo(slow.belief.causes[c]!, 10));
    expect(cheap.belief.causes).not.toEqual(before.belief.causes);
  });
});

describe('sensitivity of a case', () => {
  it('names every word that tips the first adjustment, and only those', () => {
    // Little is known, so the advice still stands on an edge.
    const edge = [{ complaint: 'deep' }, { 'hit-pattern': 'row' }, { 'hit-pattern': 'both' }]
      .filter((given) =>
        Object.entries(given).every(([q, a]) =>
          rules.questions[model.questionIndex.get(q)!]!.answers.some((x) => x.id === a),
        ),
      )
      .map((given) => kase(given));
    expect(edge.length).toBeGreaterThan(0);
    const ladder = ladderOf(rules);
    for (const one of edge) {
      const { tried, tipping } = caseSensitivity(model, bench, one);
      const before = consult(model, bench, one, quick).advice;
      const named = new Set(tipping.map((t) => `${t.strength.id} ${t.to.word}`));
      const index = model.questionIndex.get(one.answers[0]!.question)!;
      const touched = STRENGTHS.filter((s) => s.spots.some((at) => at.question === index));
      expect(tried).toBe(touched.length);
      for (const s of touched.slice(0, 3)) {
        for (const to of neighbours(ladder, s.value)) {
          const whole = buildModel(rebuilt(s.id, to.value));
          const after = consult(whole, prepareBike(whole), one, quick).advice;
          const tips = after.first !== before.first || after.verdict !== before.verdict;
          expect(named.has(`${s.id} ${to.word}`), `${s.id} → ${to.word}`).toBe(tips);
        }
      }
    }
  });
  it('tries nothing when nothing was answered', () => {
    expect(caseSensitivity(model, bench, kase({}))).toEqual({ tried: 0, tipping: [] });
  });
});

describe('a case told again under other strengths', () => {
  const ladder = ladderOf(rules);
  /** The plain way is dear: every tenth strength is looked at, other ones for each case, and of those said to tip the first. */
  const tenth = (from: number): string[] => STRENGTHS.flatMap((s, i) => (i % 10 === from ? [s.id] : []));
  /** The plain way: the whole case anew, with a model whose tables were made anew. */
  const plain = (one: Case, looked: ReadonlySet<string>): string[] => {
    const before = consult(model, bench, one, quick);
    const answered = new Set(
      [...one.earlier, one].flatMap((r) => r.answers.map((a) => model.questionIndex.get(a.question)!)),
    );
    return STRENGTHS.filter(
      (s) => looked.has(s.id) && s.spots.some((at) => answered.has(at.question)),
    ).flatMap((s) =>
      neighbours(ladder, s.value).flatMap((to) => {
        const { advice } = consult(withMoved(model, s, to.value), bench, one, quick);
        return advice.first === before.advice.first && advice.verdict === before.advice.verdict
          ? []
          : [`${s.id} ${to.word} ${advice.first} ${advice.verdict}`];
      }),
    );
  };
  const ridden = (change: string, outcome: 'better' | 'same' | 'worse', kept: boolean) => ({
    change: readDeed(change),
    outcome,
    kept,
  });
  let tipped = 0;
  afterAll(() => expect(tipped).toBeGreaterThan(5));
  const story = { complaint: 'rows', 'hit-pattern': 'row', 'repeated-hits.trend@front': 'worse' };
  it.each([
    [
      0,
      'an advice that stands on an edge',
      kase({ complaint: 'rows', 'repeated-hits.trend@front': 'worse' }),
    ],
    [1, 'one round, several answers of one topic', kase({ ...story, 'repeated-hits.depth@front': 'deeper' })],
    [2, 'a guess', { ...kase(story), answers: kase(story).answers.map((a) => ({ ...a, sure: 'guess' })) }],
    [
      3,
      'a trial after the answers',
      {
        ...kase({ complaint: 'rows', 'sag@front': 'more' }),
        results: [ridden('front.rebound.high+2', 'worse', false)],
      },
    ],
    [
      4,
      'rounds with trials between them, the same question in both',
      {
        ...kase({ complaint: 'rows', 'repeated-hits.trend@front': 'worse' }),
        earlier: [
          { answers: kase(story).answers, results: [ridden('front.rebound.high+2', 'better', true)] },
          { answers: kase({ 'run-trend': 'section' }).answers, results: [] },
        ],
      },
    ],
  ] as [number, string, Case][])('%i tips where the case worked out anew tips: %s', (from, _, one) => {
    const { tipping } = caseSensitivity(model, bench, one);
    const looked = new Set([...tenth(from), ...tipping.slice(0, 3).map((t) => t.strength.id)]);
    const said = tipping
      .filter((t) => looked.has(t.strength.id))
      .map((t) => `${t.strength.id} ${t.to.word} ${t.first} ${t.verdict}`);
    expect(said).toEqual(plain(one, looked));
    tipped += said.length;
  });
  it.each([
    ['one round', kase(story)],
    [
      'two rounds about the bike as it stands',
      {
        ...kase({ complaint: 'rows', 'repeated-hits.trend@front': 'worse' }),
        earlier: [
          { answers: kase(story).answers, results: [ridden('front.rebound.high+2', 'worse', false)] },
        ],
      },
    ],
  ] as [string, Case][])(
    'weighs none of these and one impression as the case worked out anew does: %s',
    (_, one) => {
      const tips = [0.1, 0.4].flatMap((prior) => {
        const numbers = { ...rules.numbers, none: { prior, signs: 0.2 } };
        const wary = { ...model, rules: { ...rules, numbers } };
        const telling = tellingOf(wary, bench, one);
        const before = telling.own().verdict;
        expect(before).toBe(consult(wary, bench, one, quick).advice.verdict);
        const touched = STRENGTHS.filter((s) => s.id.startsWith('hit-pattern row'));
        return touched.flatMap((s) =>
          [0.05, 0.9].map((value) => {
            const moved = withMoved(wary, s, value);
            const changed = new Map(s.spots.map((at) => [at.question, moved.rules.questions[at.question]!]));
            const { verdict } = telling.moved(s)(value, () => changed);
            expect(verdict).toBe(consult(moved, bench, one, quick).advice.verdict);
            return verdict !== before;
          }),
        );
      });
      expect(tips).toContain(true);
    },
  );
  it('holds back what was ridden in vain as the case worked out anew does', () => {
    const one = kase({ ...story, 'repeated-hits.depth@front': 'deeper', 'trouble-end': 'front' });
    const first = consult(model, bench, one, quick).advice.first!;
    const can = bench.possible[first]!;
    const change = printChange([(can.can ? can.step : undefined)!]);
    const failed = { ...one, results: [{ ...ridden(change, 'same', false), points: 0, error: 0.3 }] };
    const { advice } = consult(model, bench, failed, quick);
    expect(advice.refused.map(({ adjustment }) => adjustment)).toContain(first);
    const told = tellingOf(model, bench, failed).own();
    expect([told.verdict, told.first, told.refused]).toEqual([advice.verdict, advice.first, advice.refused]);
  });
  const earlier = [
    {
      answers: kase({ complaint: 'hits', 'hit-pattern': 'row' }).answers,
      results: [ridden('front.rebound.high+2', 'better', true)],
    },
  ];
  const turned = { setting: 'front.rebound.low', direction: 'open', by: 2 };
  it.each([
    ['a round before', { ...kase(story), earlier }],
    [
      'a round before, and something tried since',
      { ...kase(story), tried: [{ ...turned, result: 'better', putBack: 'no' }], earlier },
    ],
  ] as [string, Case][])('weighs what to do as the case worked out anew does: %s', (_, one) => {
    const telling = tellingOf(model, bench, one);
    const ids = new Set(['complaint rows usually', 'hit-pattern row front.rebound.high.too-slow']);
    const wanted = STRENGTHS.filter((x) => ids.has(x.id));
    expect(wanted).toHaveLength(ids.size);
    for (const s of wanted) {
      const moved = withMoved(model, s, 0.5);
      const changed = new Map(s.spots.map((at) => [at.question, moved.rules.questions[at.question]!]));
      const want = consult(moved, bench, one, quick).advice.ranked;
      const got = telling.moved(s)(0.5, () => changed).ranked;
      expect(got.map((r) => r.adjustment)).toEqual(want.map((r) => r.adjustment));
      got.forEach((r, i) => expect(r.worth).toBeCloseTo(want[i]!.worth, 10));
      const own = consult(model, bench, one, quick).advice.ranked[0]!.worth;
      expect(got[0]!.worth).not.toBeCloseTo(own, 6);
    }
  });
  it('weighs what goes back as the case worked out anew does, however far a strength is moved', () => {
    const left = { ...turned, direction: 'open', result: 'worse', putBack: 'no' } as const;
    const one = { ...kase(story), tried: [left] };
    const telling = tellingOf(model, bench, one);
    const back = rules.adjustments.findIndex(({ kind }) => kind === 'put-back');
    const s = STRENGTHS.find(({ id }) => id === 'hit-pattern row front.rebound.high.too-slow')!;
    const own = consult(model, bench, one, quick).advice.ranked[1]!.worth;
    for (const value of [0.5, s.value + 0.4 * (0.5 - s.value)]) {
      const moved = withMoved(model, s, value);
      const changed = new Map(s.spots.map((at) => [at.question, moved.rules.questions[at.question]!]));
      const got = telling.moved(s)(value, () => changed);
      const { advice } = consult(moved, bench, one, quick);
      expect(got.ranked.map(({ adjustment }) => adjustment)).toEqual(
        advice.ranked.map(({ adjustment }) => adjustment),
      );
      got.ranked.forEach(({ worth }, i) => expect(worth).toBeCloseTo(advice.ranked[i]!.worth, 10));
      expect(got.ranked.map(({ adjustment }) => adjustment)).toContain(back);
      expect(got.ranked[1]!.worth).not.toBeCloseTo(own, 6);
    }
  });
});

describe('sensitivity of checks', () => {
  it('counts a check whose limit lies between a word and the next', () => {
    const some = checks.find(
      (c) => c.bike === undefined && Object.keys(c.given).includes('repeated-hits.depth@front'),
    )!;
    const given = kase(
      Object.fromEntries(
        Object.entries(some.given).map(([q, a]) => [q, typeof a === 'string' ? a : a.answer]),
      ),
    );
    const now = consult(model, bench, given, quick);
    const first = now.ranked[0]!;
    const limit = now.belief.causes[first]! - 1e-9;
    const check: Check = { ...some, expect: { atLeast: limit } };
    const told: number[] = [];
    const hanging = checkSensitivity(model, [{ check, bench }], (done) => told.push(done));
    expect(hanging.length).toBeGreaterThan(0);
    for (const h of hanging) expect(h).toMatchObject({ flips: 1, checks: 1 });
    const loose: Check = { ...some, expect: { atLeast: 0 } };
    expect(checkSensitivity(model, [{ check: loose, bench }], () => {})).toEqual([]);
    expect(told.at(-1)).toBe(STRENGTHS.length);
  });
});
