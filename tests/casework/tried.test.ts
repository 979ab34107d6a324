import { printDeed, readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { ENDS } from '../../src/bike/sheet.ts';
import { vocabularyOf, type Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { placeTried } from '../../src/casework/tried/place-tried.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { weighTried } from '../../src/casework/tried/weigh-tried.ts';
import { tellingOf } from '../../src/casework/what-if/telling.ts';
import { membersOf } from '../../src/diagnosis/hypotheses.ts';
import type { Link } from '../../src/rulebase/compiled.ts';
import { tabulateTried } from '../../src/diagnosis/tried.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { textReport } from '../../src/report/text.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { exampleSheet } from '../bike/example.ts';
import { bareBike, baseModel, baseRules } from '../support/base-rules.ts';

const model = baseModel();
const bare = bareBike();
const sheet = exampleSheet('all-knobs');
const bike = prepareBike(model, sheet);
const one = (rest: Partial<Tried>): Tried => ({ result: 'same', putBack: 'yes', ...rest });
const think = (tried: readonly Tried[], bench = bare) =>
  consult(
    model,
    bench,
    { id: 'x', tried, answers: [], results: [], earlier: [] },
    { next: false, explain: 0, fit: false },
  );
const p = (tried: readonly Tried[], cause: string, bench = bare): number =>
  think(tried, bench).belief.causes[model.causeIndex.get(cause)!]!;
const OPENED = { setting: 'front.rebound.low', direction: 'open', by: 2 };
const SLOW = 'front.rebound.low.too-slow';
const FAST = 'front.rebound.low.too-fast';

/** A bike of which only the kind of its front spring was told. */
const told = (spring: 'air' | 'coil') => {
  const read = readCase({ case: 1, id: 'x', has: { front: { spring } } }, vocabularyOf(model.rules), 'x');
  return prepareBike(model, undefined, undefined, undefined, read.value!.has!.bike);
};

describe('what was tried before', () => {
  it('speaks for a cause that it helped, against one that it did not, and for the opposite where it made it worse', () => {
    expect(p([one({ ...OPENED, result: 'better' })], SLOW)).toBeGreaterThan(p([], SLOW));
    expect(p([one(OPENED)], SLOW)).toBeLessThan(p([], SLOW));
    expect(p([one({ ...OPENED, result: 'worse' })], FAST)).toBeGreaterThan(p([], FAST));
  });

  it('is trusted less than a ridden trial, by hand: (1 − d)·P(report) + d/3 where it was put back', () => {
    const { results, tried } = model.rules.numbers;
    const d = tried.doubt;
    const told = (row: { better: number }): number => (1 - d) * row.better + d / 3;
    const placed = placeTried(model, bare, one({ ...OPENED, result: 'better' }));
    if (typeof placed === 'string') throw new Error(placed);
    let total = 0;
    let slow = 0;
    bare.prior.forEach((w, h) => {
      const set = membersOf(model.space, h);
      const cure = Math.max(0, ...set.map((c) => placed.effects[0]!.cures[c]!));
      const off = set.some((c) => placed.effects[0]!.brings[c]! > 0)
        ? Math.max(...set.map((c) => placed.effects[0]!.brings[c]!))
        : 0;
      const held = new Set(set.map((c) => model.rules.causes[c]!.setting));
      let upset = 0;
      placed.effects[0]!.brings.forEach((push, c) => {
        if (!held.has(model.rules.causes[c]!.setting) && cure === 0)
          upset = Math.max(upset, push * model.rules.numbers.advice['upset-when-right']);
      });
      const spoil = Math.max(off, upset);
      const help = cure * (1 - spoil);
      const harm = spoil * (1 - cure);
      const likelihood =
        help * told(results.helped) + harm * told(results.harmed) + (1 - help - harm) * told(results.nothing);
      total += w * likelihood;
      if (set.includes(model.causeIndex.get(SLOW)!)) slow += w * likelihood;
    });
    expect(p([one({ ...OPENED, result: 'better' })], SLOW)).toBeCloseTo(slow / total, 10);
  });

  it('still on the bike, takes out what it cured and brings in what it spoilt', () => {
    const better = (putBack: Tried['putBack']) => p([one({ ...OPENED, result: 'better', putBack })], SLOW);
    expect(better('no')).toBeLessThan(better('unknown'));
    expect(better('unknown')).toBeLessThan(better('yes'));
    const worse = (putBack: Tried['putBack']) => p([one({ ...OPENED, result: 'worse', putBack })], FAST);
    expect(worse('no')).toBeGreaterThan(worse('yes'));
    const all = think([one({ ...OPENED, result: 'worse', putBack: 'no' })]).belief.weights;
    expect(all.reduce((s, w) => s + w, 0)).toBeCloseTo(1, 12);
  });

  it('is no evidence where nobody is sure and it was put back', () => {
    think([one({ ...OPENED, result: 'not-sure' })]).belief.causes.forEach((x, c) =>
      expect(x).toBeCloseTo(think([]).belief.causes[c]!, 12),
    );
  });

  it('is told again under other strengths with the same result', () => {
    const kase = {
      id: 'x',
      tried: [one({ ...OPENED, result: 'worse', putBack: 'no' })],
      answers: [{ question: 'hit-pattern', answer: 'row', sure: 'sure' as const }],
      results: [],
      earlier: [],
    };
    const whole = consult(model, bare, kase, { next: false, explain: 0, fit: false }).advice;
    const again = tellingOf(model, bare, kase).own();
    expect(again.first).toBe(whole.first);
    again.ranked.forEach((r, i) => expect(r.worth).toBeCloseTo(whole.ranked[i]!.worth, 10));
  });
  it('is told again with another strength by looking at every set once, also where the way back weighs them all', () => {
    let looks = 0;
    class Counted extends Map<number, (typeof model.rules.questions)[number]> {
      override has(question: number) {
        looks++;
        return super.has(question);
      }
    }
    const kase = {
      id: 'x',
      tried: [one({ ...OPENED, result: 'worse', putBack: 'no' })],
      answers: [{ question: 'hit-pattern', answer: 'row', sure: 'sure' as const }],
      results: [],
      earlier: [],
    };
    const index = model.questionIndex.get('hit-pattern')!;
    const again = tellingOf(model, bare, kase);
    const own = model.rules.questions[index]!;
    const [[cause, answer, value], ...others] = own.links as readonly [Link, ...Link[]];
    const less = 0.99 * value;
    const changed = new Counted([[index, { ...own, links: [[cause, answer, less], ...others] }]]);
    const under = again.moved({ value, spots: [{ question: index, answer, cause }] });
    expect(under(less, () => changed).first).toBe(again.own().first);
    expect(looks).toBeGreaterThan(0);
    expect(looks).toBeLessThan(100);
  });
});

describe('what made it worse and is still on the bike', () => {
  const told = think([
    one({
      setting: 'compression.low',
      end: 'front',
      direction: 'open',
      by: 2,
      result: 'worse',
      putBack: 'no',
    }),
  ]);
  const kase = { id: 'x', answers: [], results: [], earlier: [] };

  it('is put back first, with its step the other way', () => {
    expect(told.advice.because).toBe('put-back');
    const [first] = toResult(model, kase, told).adjustments;
    expect(first).toMatchObject({ id: 'put-back', change: 'front.compression.low-2', by: -2 });
    expect(first!.do).toBe('Put back what made it worse: front low-speed compression');
    expect(first!.note).not.toMatch(/not counted/);
  });
  it('is said in words where nobody knows how far', () => {
    const c = think([
      one({ setting: 'compression.low', end: 'front', direction: 'open', result: 'worse', putBack: 'no' }),
    ]);
    const [first] = toResult(model, kase, c).adjustments;
    expect(first).toMatchObject({
      change: null,
      note: expect.stringMatching(/^not counted\? Go back a click/),
    });
    expect(first!.do).toBe(
      'Put back what made it worse: front low-speed compression, as far as it was turned (in)',
    );
  });
  it('is not where it was put back, nor where it is not known', () => {
    for (const putBack of ['yes', 'unknown'] as const)
      expect(think([one({ ...OPENED, result: 'worse', putBack })]).advice.because).not.toBe('put-back');
  });
});

describe('what did not help', () => {
  it('is not advised again without saying so', () => {
    const answers = [
      ['complaint', 'rows'],
      ['hit-pattern', 'row'],
      ['repeated-hits.trend@front', 'worse'],
      ['return-speed@front', 'deep'],
    ].map(([question, answer]) => ({ question: question!, answer: answer!, sure: 'sure' as const }));
    const kase = {
      id: 'x',
      tried: [one({ setting: 'front.rebound.high', direction: 'open' })],
      answers,
      results: [],
      earlier: [],
    };
    const c = consult(model, bare, kase, { next: false, explain: 0, fit: false });
    const result = toResult(model, kase, c);
    const again = result.adjustments.find((a) => a.id === 'front.rebound.high.open')!;
    expect(again.note).toContain(
      'this was tried before and made no difference; the answers still point to it',
    );
    expect(textReport(result)).toMatch(/[Tt]his was tried\s+before and made no difference/);
  });
});

describe('what cannot be used', () => {
  const rigid = readSheet({
    bike: 1,
    id: 'x',
    kind: 'hardtail',
    front: {
      travel: 120,
      spring: { kind: 'air', pressure: '80 psi' },
      rebound: { low: { clicks: 20, now: 9 } },
    },
  }).sheet!;
  const hardtail = prepareBike(model, rigid);
  it.each([
    [
      'an unknown setting',
      { setting: 'front.rebound.lo', direction: 'open' },
      bare,
      'There is no setting front.rebound.lo. Did you mean front.rebound.low?',
    ],
    [
      'a slip in the name of a kind',
      { setting: 'rebount', end: 'front', direction: 'open' },
      bare,
      'There is no setting front.rebount. Did you mean front.rebound?',
    ],
    [
      'both ways at once',
      { setting: 'front.rebound.low', direction: ['open', 'close'] },
      bare,
      'front.rebound.low was tried both ways; list each way with its own result.',
    ],
    [
      'both ways in one word',
      { setting: 'front.rebound.low', direction: 'open and close' },
      bare,
      'front.rebound.low was tried both ways; list each way with its own result.',
    ],
    [
      'no way at all',
      { setting: 'front.rebound.low' },
      bare,
      'front.rebound.low: which way it was turned is not said.',
    ],
    [
      'no end of the bike',
      { setting: 'rebound.low', end: 'middle', direction: 'open' },
      bare,
      'rebound.low: middle is not an end of the bike; use front, rear, both or either.',
    ],
    [
      'an end that is none, of a setting without ends',
      { setting: 'bars', end: 'frnt', direction: 'up' },
      bare,
      'bars: frnt is not an end of the bike; use front, rear, both or either.',
    ],
    [
      'an end beside another one',
      { setting: 'rear.rebound', end: 'front', direction: 'open' },
      bare,
      'rear.rebound is at the rear, and its end says front; leave one of them out.',
    ],
    [
      'sag, which more of is softer',
      { setting: 'sag', end: 'front', direction: 'more' },
      bare,
      /^There is no setting front\.sag\./,
    ],
    [
      'volume, which less of ramps up more',
      { setting: 'volume', end: 'rear', direction: 'less' },
      bare,
      /^There is no setting rear\.volume\./,
    ],
    [
      'more than the range',
      { setting: 'front.rebound.low', direction: 'open', by: 90 },
      bike,
      /^front\.rebound\.low: 90 clicks is more than there are; its whole range is \d+\.$/,
    ],
    [
      'an end that a hardtail lacks',
      { setting: 'rear.rebound.low', direction: 'open' },
      hardtail,
      'rear.rebound.low: the rear of this bike has no suspension.',
    ],
    [
      'a collar turned where there is air',
      { change: readDeed('front.spring+2turns'), result: 'worse', putBack: 'no' },
      bike,
      /^front\.spring: the front of this bike has an air spring; /,
    ],
    [
      'a collar told by its setting, where only the kind of spring was told',
      { setting: 'front.spring', direction: 'more', by: 2, unit: 'turns' },
      told('air'),
      /^front\.spring: the front of this bike has an air spring; /,
    ],
    [
      'a collar told by the adjustment',
      { change: readDeed('front.spring.preload-more') },
      bike,
      /^front\.spring: the front of this bike has an air spring; /,
    ],
    [
      'another coil fitted where there is air',
      { change: readDeed('front.spring.heavier-coil') },
      told('air'),
      'front.spring.heavier-coil: it needs the front spring to be coil, and on this bike it is air.',
    ],
    [
      'air let out of a coil',
      { setting: 'front.spring', direction: 'less', by: 5, unit: 'psi' },
      told('coil'),
      /^front\.spring: the front of this bike has a coil spring; /,
    ],
    [
      'a spacer in a coil',
      { change: readDeed('rear.ramp-up+1spacers') },
      prepareBike(model, exampleSheet('coil')),
      /^rear\.ramp-up: the rear of this bike has a coil spring; /,
    ],
    [
      'a change that is none',
      { change: readDeed('front.rebound.low+2,front.rebound.low-2') },
      bare,
      /changes what/,
    ],
  ] as const)('%s is left out with a line, and the rest is done', (_, tried, bench, why) => {
    const c = think(
      [one(tried as Partial<Tried>), one({ ...OPENED, setting: 'front.rebound.low', result: 'better' })],
      bench,
    );
    expect(c.tried.left).toEqual([typeof why === 'string' ? why : expect.stringMatching(why)]);
    expect(c.tried.effects).toHaveLength(1);
    const { warnings } = toResult(model, { id: 'x', answers: [], results: [], earlier: [] }, c);
    expect(warnings.filter((w) => w.startsWith('Something that was tried was left out: '))).toHaveLength(1);
  });
});

it.each([
  ['a collar of a coil', 'rear.spring+1turns', prepareBike(model, exampleSheet('coil'))],
  ['the pressure of an air spring', 'front.spring+5psi', bike],
  ['a collar of a spring that nobody told the kind of', 'front.spring+1turns', bare],
] as const)('%s is weighed as ever', (_, change, bench) => {
  const c = think([one({ change: readDeed(change) })], bench);
  expect([c.tried.left, c.tried.effects.length]).toEqual([[], 1]);
});

it('another coil, told by its rate, is the coil that is fitted', () => {
  const bench = prepareBike(model, exampleSheet('coil'));
  const softer = one({ setting: 'rear.spring', direction: 'less', by: 25, unit: 'lb/in', result: 'worse' });
  const placed = placeTried(model, bench, softer);
  expect(placed).toMatchObject({ change: { name: 'rear.spring.lighter-coil' } });
  const soft = 'rear.spring.too-soft';
  expect(p([softer], soft, bench)).toBeGreaterThan(p([], soft, bench));
});

describe('tried in a case file', () => {
  const read = (tried: unknown) =>
    readCase({ case: 1, id: 'x', answers: {}, tried }, vocabularyOf(model.rules), 'x');
  it('is read, with put-back yes and no however YAML took them', () => {
    expect(read([{ change: 'front.rebound.low+2', result: 'same', 'put-back': false }]).value?.tried).toEqual(
      [{ change: readDeed('front.rebound.low+2'), result: 'same', putBack: 'no' }],
    );
    expect(read([{ setting: 'bars', direction: 'up', result: 'worse' }]).value?.tried?.[0]?.putBack).toBe(
      'unknown',
    );
  });
  it('is told all its mistakes at once', () => {
    const told = read([
      { setting: 'bars', result: 'bad', 'put-back': 'maybe', by: -1, how: 1 },
      'opened it',
      { result: 'same' },
    ]).problems.map((x) => `${x.path.join('.')}: ${x.message}`);
    expect(told).toEqual([
      'tried.0.by: tried › entry 1 › by: found -1, expected more than 0.',
      'tried.0.result: tried › entry 1 › result: found "bad", expected one of better, same, worse, not-sure.',
      'tried.0.put-back: tried › entry 1 › put-back: found "maybe", expected one of yes, no, unknown, or true or false.',
      'tried.0: tried › entry 1: how is not known here.',
      'tried.1: tried › entry 2: found "opened it", expected a map.',
      'tried.2: It does not say what was tried.',
      'tried.0: bars: which way it was turned is not said.',
    ]);
  });
  it('is told a wrong end, a wrong way and a wrong result of one entry at once', () => {
    const told = read([{ setting: 'rebound', end: 'frnt', direction: 'sideways', result: 'bad' }]);
    expect(told.problems.map(({ message }) => message)).toEqual([
      'tried › entry 1 › result: found "bad", expected one of better, same, worse, not-sure.',
      'rebound: frnt is not an end of the bike; use front, rear, both or either. rebound: sideways is not a direction; use open or close.',
    ]);
  });
  it('is told nothing of a way that is no text but that', () => {
    const told = read([{ setting: 'rebound', end: 'front', direction: 3, result: 'same' }]);
    expect(told.problems).toHaveLength(1);
  });
});

describe('what riders call it', () => {
  const effectOf = (tried: Partial<Tried>): Float64Array => {
    const placed = placeTried(model, bare, one(tried));
    if (typeof placed === 'string') throw new Error(placed);
    expect(placed.effects).toHaveLength(1);
    return placed.effects[0]!.cures;
  };
  const cured = (tried: Partial<Tried>): string[] => {
    const cures = effectOf(tried);
    const most = Math.max(...cures);
    return model.rules.causes.filter((_, c) => cures[c] === most).map(({ id }) => id);
  };

  it.each<[Partial<Tried>, string]>([
    [{ setting: 'spring', end: 'front', direction: 'firmer' }, 'front.spring.too-soft'],
    [{ setting: 'pressure', end: 'rear', direction: 'less' }, 'rear.spring.too-firm'],
    [
      { setting: 'compression.low', end: 'front', direction: 'more-damping' },
      'front.compression.low.too-soft',
    ],
    [{ setting: 'compression.low', end: 'front', direction: 'more' }, 'front.compression.low.too-soft'],
    [{ setting: 'rebound.low', end: 'rear', direction: 'faster' }, 'rear.rebound.low.too-slow'],
    [{ setting: 'tyre', end: 'rear', direction: 'softer' }, 'rear.tyre.too-hard'],
    [{ setting: 'reach', direction: 'shorter' }, 'reach.too-long'],
    [{ setting: 'levers', direction: 'lower' }, 'controls.off'],
    [{ setting: 'headset', direction: 'tightened' }, 'headset.loose'],
    [{ setting: 'lever', end: 'front', direction: 'open' }, 'front.lever.closed'],
    [{ setting: 'seals', end: 'front', direction: 'cleaned and greased' }, 'front.condition.worn'],
    [{ setting: 'saddle', direction: 'lower' }, 'saddle.too-high'],
    [{ setting: 'dropper', direction: 'up' }, 'saddle.too-low'],
  ])('%o helps what it is done against: %s', (tried, cause) => {
    expect(cured(tried)).toContain(cause);
  });

  it('a name without a circuit is both of them', () => {
    const both = effectOf({ setting: 'front.rebound', direction: 'slower' });
    for (const circuit of ['low', 'high']) {
      const alone = effectOf({ setting: `front.rebound.${circuit}`, direction: 'close' });
      const cause = model.causeIndex.get(`front.rebound.${circuit}.too-fast`)!;
      expect(both[cause]).toBe(alone[cause]);
      expect(both[cause]).toBeGreaterThan(0);
    }
  });

  it('both ends of a setting without number are both of them', () => {
    const both = effectOf({ setting: 'seals', end: 'both' });
    for (const end of ENDS) {
      const alone = effectOf({ setting: 'seals', end });
      const cause = model.causeIndex.get(`${end}.condition.worn`)!;
      expect(both[cause]).toBe(alone[cause]);
      expect(both[cause]).toBeGreaterThan(0);
    }
  });

  it('what has no notation is named by its end, setting, ways, amount and unit', () => {
    const nameOf = (tried: Partial<Tried>): string => {
      const placed = placeTried(model, bare, one(tried));
      return typeof placed === 'string' ? placed : printDeed(placed.change);
    };
    const open = { setting: 'rebound', direction: 'open' };
    expect(nameOf({ ...open, end: 'front' })).toBe('front rebound open');
    expect(nameOf({ ...open, end: 'rear' })).toBe('rear rebound open');
    expect(nameOf({ ...open, end: 'front', by: 2, unit: 'clicks' })).toBe('front rebound open 2 clicks');
    expect(nameOf({ setting: 'seals' })).toBe('seals');
  });

  it('the same of the front and of the rear, each of one sign, are two changes', () => {
    const open = { setting: 'rebound', direction: 'open', result: 'better' as const };
    const front = one({ ...open, end: 'front', for: ['push-return'] });
    const rear = one({ ...open, end: 'rear', for: ['push-return'] });
    const slow = 'rear.rebound.low.too-slow';
    expect(p([front, rear], slow)).toBeGreaterThan(p([front], slow));
  });

  it.each(['either', 'unknown', undefined])('an end that is %s is each of them, half', (end) => {
    const loose = one({
      setting: 'spring',
      direction: 'firmer',
      result: 'better',
      ...(end === undefined ? {} : { end }),
    });
    const placed = placeTried(model, bare, loose);
    if (typeof placed === 'string') throw new Error(placed);
    expect(placed).toMatchObject({ changes: [], loose: true });
    const soft = (where: string): number => p([loose], `${where}.spring.too-soft`);
    expect(soft('front')).toBeGreaterThan(p([], 'front.spring.too-soft'));
    expect(soft('rear')).toBeGreaterThan(p([], 'rear.spring.too-soft'));
    const named = p([{ ...loose, end: 'front' }], 'front.spring.too-soft');
    expect(soft('front')).toBeLessThan(named);
  });

  it('the mean of the tables of two ends keeps every weight', () => {
    const loose = one({ setting: 'spring', direction: 'firmer', result: 'better', putBack: 'no' });
    const weights = weighTried(model, bare, bare.prior, { tried: [loose], answers: [], results: [] }).weights;
    expect(weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(1, 12);
    const turned = ENDS.map((end) =>
      weighTried(model, bare, bare.prior, { tried: [{ ...loose, end }], answers: [], results: [] }),
    );
    // By hand: each end's report in proportion to how likely it was.
    const likely = ENDS.map((end) => {
      const placed = placeTried(model, bare, { ...loose, end });
      if (typeof placed === 'string') throw new Error(placed);
      const { likelihood } = tabulateTried(model, placed.effects[0]!, [{ outcome: 'better' }], 1);
      return bare.prior.reduce((sum, w, h) => sum + w * likelihood[h]!, 0);
    });
    const total = likely[0]! + likely[1]!;
    weights.forEach((w, h) => {
      const hand = turned.reduce((sum, one, i) => sum + (likely[i]! / total) * one.weights[h]!, 0);
      expect(w).toBeCloseTo(hand, 12);
    });
  });
});

describe('what was tried, and what of the bike the result speaks of', () => {
  const CLOSED = { setting: 'front.compression.low', direction: 'close', by: 2 };
  const SOFT = 'front.compression.low.too-soft';

  it('counts only as far as a cause shows in that', () => {
    const whole = p([one({ ...CLOSED, result: 'better' })], SOFT);
    const dive = p([one({ ...CLOSED, result: 'better', for: ['brake-dive'] })], SOFT);
    expect(dive).toBeGreaterThan(p([], SOFT));
    expect(dive).toBeLessThan(whole);
    expect(p([one({ ...CLOSED, result: 'better', for: ['kickback'] })], SOFT)).toBeCloseTo(p([], SOFT), 12);
  });

  it('may be better in one thing and worse in another: one change, whichever is told first', () => {
    const opened = { ...CLOSED, direction: 'open', putBack: 'no' as const };
    const hands = one({ ...opened, result: 'better', for: ['hands'] });
    const dive = one({ ...opened, result: 'worse', for: ['brake-dive'] });
    const both = think([hands, dive]);
    const turned = think([dive, hands]);
    both.belief.weights.forEach((w, h) => expect(turned.belief.weights[h]).toBeCloseTo(w, 12));
    expect(p([hands, dive], SOFT)).toBeGreaterThan(p([hands], SOFT));
    expect(both.tried.effects.map((e) => e.tried.result)).toEqual(['better', 'worse']);
    // Put back whichever is told first, as worse alone is.
    for (const told of [[hands, dive], [dive, hands], [dive]]) expect(think(told).back?.tried).toEqual(dive);
  });

  it('is left out, in a line, where it names nothing the rules ask about', () => {
    expect(think([one({ ...CLOSED, for: ['brake-dife'] })]).tried.left).toEqual([
      'brake-dife: there is no question or topic of that name. Did you mean brake-dive?',
    ]);
    const { problems } = readCase(
      { case: 1, tried: [{ ...CLOSED, result: 'same', for: 3 }] },
      vocabularyOf(model.rules),
      'x',
    );
    expect(problems.map((x) => x.message)).toEqual([
      'tried › entry 1 › for: found 3, expected a text, or a list.',
    ]);
  });
});

it('is told with the other mistakes of its case, where its words alone tell that it cannot be placed', () => {
  const tried = { setting: 'compression.low', end: 'front', direction: 'opn', result: 'worse' };
  const { problems } = readCase(
    { case: 1, id: 'x', answers: { 'safety.fond': 'none' }, tried: [tried] },
    vocabularyOf(baseRules().rules),
    'x',
  );
  expect(problems.map(({ path, message }) => [path.join('.'), message])).toEqual([
    ['answers', expect.stringContaining('no question safety.fond')],
    ['tried.0', expect.stringContaining('opn is not a direction')],
  ]);
});
