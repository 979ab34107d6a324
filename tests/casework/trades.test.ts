/** A change that made one thing better and another worse: it is weighed at both, called a trade, and what lies between is named. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { saidOf } from '../../src/bike/form/said.ts';
import type { Tried } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { feltOpenings, feltTopics, feltWords } from '../../src/casework/tried/felt-at.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { textReport } from '../../src/report/text.ts';
import { caseOf, model, rules, SOUND } from '../support/told.ts';

const bike = prepareBike(
  model,
  undefined,
  undefined,
  undefined,
  saidOf({ front: { spring: 'air', rebound: 'one', compression: 'two' } }, rules.adjusters).bike!,
);
const CLOSED: Omit<Tried, 'result'> = {
  setting: 'front.compression.low',
  direction: 'close',
  by: 4,
  unit: 'clicks',
  putBack: 'no',
};
const BOTH: Tried[] = [
  { ...CLOSED, result: 'better', for: ['braking', 'ride-height'] },
  { ...CLOSED, result: 'worse', for: ['pattern', 'repeated-hits'] },
];

function told(tried: readonly Tried[], answers: Readonly<Record<string, string>> = {}) {
  const kase = caseOf({ ...SOUND, ...answers }, { tried });
  const c = consult(model, bike, kase, { next: false, explain: 5, fit: false });
  return { c, result: toResult(model, kase, c) };
}

describe('a change that was a trade', () => {
  it('is said to be one, with the half that lies between', () => {
    const { result } = told(BOTH);
    expect(result.trades).toEqual([
      expect.stringMatching(
        /^Front low-speed compression 4 clicks in is a trade: better at .*braking.*, worse at .*rows.*: front low-speed compression 2 clicks in, from where it was before\. Ride that by itself;/,
      ),
    ]);
    expect(textReport(result, { rules }).replaceAll(/\s+/g, ' ')).toContain(result.trades![0]);
  });

  it.each([
    ['one click, below which there is none', { by: 1 }, /No smaller step/],
    ['nobody knows how many', { by: undefined }, /Half as far/],
  ])('names no half of %s', (_, size, says) => {
    const own = BOTH.map((one) => ({ ...one, ...size }) as Tried);
    expect(told(own).result.trades).toEqual([expect.stringMatching(says)]);
  });

  it('names nothing between where the rules refuse to go that way at all', () => {
    const turned = {
      setting: 'rear.spring',
      direction: 'more',
      by: 4,
      unit: 'turns',
      putBack: 'no',
    } as const;
    const tried: Tried[] = [
      { ...turned, result: 'better', for: ['ride-height'] },
      { ...turned, result: 'worse', for: ['pattern'] },
    ];
    const coil = prepareBike(
      model,
      undefined,
      undefined,
      undefined,
      saidOf({ rear: { spring: 'coil' } }, rules.adjusters).bike!,
    );
    const tradesWith = (answers: Readonly<Record<string, string>>) => {
      const kase = caseOf({ ...SOUND, 'sag@rear': 'more', 'ride-height@rear': 'low', ...answers }, { tried });
      const c = consult(model, coil, kase, { next: false, explain: 5, fit: false });
      return toResult(model, kase, c);
    };
    expect(tradesWith({}).trades).toEqual([expect.stringContaining('2 turns more')]);
    const many = tradesWith({ 'preload-wound@rear': 'many' });
    expect(many.refused.map(({ id }) => id)).toContain('rear.spring.preload-more');
    expect(many.trades).toBeUndefined();
  });

  it('is none where it did good alone, or where riding is stopped', () => {
    expect(told(BOTH.slice(0, 1)).result.trades).toBeUndefined();
    const kase = caseOf({ 'safety.found': 'crack' }, { tried: BOTH });
    const c = consult(model, bike, kase, { next: false, explain: 0, fit: false });
    expect(toResult(model, kase, c)).toMatchObject({ verdict: 'stop' });
    expect(toResult(model, kase, c).trades).toBeUndefined();
  });

  it('counts for what it cured and for what it brought', () => {
    const { effects } = told(BOTH).c.tried;
    const [better, worse] = effects.map(
      ({ decibans }) =>
        (id: string): number =>
          decibans[rules.causes.findIndex((one) => one.id === id)]!,
    );
    expect(better!('front.compression.low.too-soft')).toBeGreaterThan(1);
    expect(worse!('front.compression.low.too-firm')).toBeGreaterThan(1);
  });

  it('does not go back where that would rather spoil what it made better', () => {
    const { result } = told(BOTH, { complaint: 'braking', 'brake-dive': 'dives', 'when-loaded': 'braking' });
    expect(result.because).not.toBe('put-back');
  });
});

describe('where a change can be felt', () => {
  it('is told by the openings, without what only a gauge reads', () => {
    for (const one of feltOpenings(rules)) {
      const topics = feltTopics(rules, one);
      expect(topics.length).toBeGreaterThan(0);
      expect(topics).not.toContain('sag');
      // What was picked is what the card calls it.
      expect(feltWords(rules, topics)).toBe(one.say);
    }
  });

  it('has no words for what no opening speaks of', () => {
    expect(feltWords(rules, ['sag'])).toBeUndefined();
  });
});
