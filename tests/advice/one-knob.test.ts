/** One rebound knob acts on slow and on fast movements: it is called the rebound knob, and is worth turning for both. */
import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/advise.ts';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { expectedCure, expectedWorth } from '../../src/advice/payoff.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { settingWords } from '../../src/bike/setting-words.ts';
import { priorOf, update } from '../../src/diagnosis/belief.ts';
import { baseModel, baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const model = baseModel();
const sheetWith = (rebound: object) =>
  readSheet(
    {
      bike: 1,
      id: 'one',
      kind: 'trail',
      front: { travel: 140, spring: { kind: 'air' }, rebound },
      rear: { travel: 130, spring: { kind: 'air' } },
    },
    rules.adjusters,
  ).sheet!;
const ONE = sheetWith({ clicks: 20, now: 9 });
const bench = prepareBike(model, ONE);
const indexOf = (id: string): number => rules.adjustments.findIndex((a) => a.id === id);

/** What an adjustment cures, and is worth, when one cause is sure. */
function when(cause: string) {
  const causes = new Float64Array(rules.causes.length);
  causes[model.causeIndex.get(cause)!] = 1;
  const cure = expectedCure(bench.payoff, causes);
  const worth = expectedWorth(bench.payoff, causes);
  const at = (id: string): number => bench.payoff.adjustments.indexOf(indexOf(id));
  return { cure: (id: string) => cure[at(id)]!, worth: (id: string) => worth[at(id)]! };
}

describe('an end with one rebound knob', () => {
  it('may be written as a knob alone, or as the low-speed one without the other', () => {
    expect(ONE.ends.front.adjusters).toEqual({ 'rebound.low': { range: 20, now: 9 } });
    expect(sheetWith({ low: { clicks: 20, now: 9 }, high: 'none' }).ends.front).toEqual(ONE.ends.front);
  });
  it.each([
    ['slow', 'open'],
    ['fast', 'close'],
  ])(
    'is nearly cured by that knob whichever circuit is too %s, and no rebuild ranks above it',
    (way, turn) => {
      const knob = `front.rebound.low.${turn}`;
      const rebuild = `front.rebuild.rebound-${turn === 'open' ? 'lighter' : 'firmer'}`;
      for (const speed of ['low', 'high']) {
        const { cure, worth } = when(`front.rebound.${speed}.too-${way}`);
        expect(cure(knob)).toBe(speed === 'low' ? 1 : rules.numbers.advice['one-knob']);
        expect(worth(knob)).toBeGreaterThan(worth(rebuild));
      }
    },
  );
  it('has no other rebound knob to speak of: nothing is blocked, nothing is asked for it', () => {
    expect(bench.possible[indexOf('front.rebound.high.open')]).toEqual({
      can: false,
      why: 'the front has one rebound knob, which acts on slow and on fast movements',
      unfit: true,
    });
    const belief = update(model, priorOf(model, model.odds), []);
    expect(advise(model, bench, belief, { dangerous: false }).because).not.toBe('next-rung');
  });
  it('is called by no circuit in any text about its rebound', () => {
    expect(settingWords('front.rebound.low', ONE)).toBe('front rebound');
    const texts = [
      ...bench.rules.causes
        .filter((c) => c.id.startsWith('front.rebound.'))
        .flatMap((c) => [c.name, c.plain]),
      ...bench.rules.adjustments
        .filter((a) => a.id.startsWith('front.rebound.low.'))
        .flatMap((a) => [a.do, a.plain, a.feel, a.wayBack, a.knockOn ?? '']),
      ...bench.rules.settings.filter((s) => s.id.startsWith('front.rebound.')).map((s) => s.name),
    ];
    expect(texts).toHaveLength(4 * 2 + 2 * 5 + 2);
    for (const text of texts) expect(text).not.toMatch(/low-speed|high-speed/);
    expect(new Set(bench.rules.causes.map((c) => c.name)).size).toBe(rules.causes.length);
  });
  it('leaves the words of an end with two knobs, or of no bike at all, as they are', () => {
    const two = prepareBike(model, sheetWith({ low: { clicks: 20 }, high: { clicks: 8 } }));
    expect(two.rules).toBe(rules);
    expect(prepareBike(model).rules).toBe(rules);
  });
});

it('is asked about as the rebound knob', () => {
  const asked = bench.rules.questions.find(({ id }) => id === 'knob-place@front')!;
  expect(asked.ask).toBe('Front rebound knob: where is it set?');
  expect(prepareBike(model).rules.questions.find(({ id }) => id === 'knob-place@front')!.ask).toBe(
    'Front low-speed rebound knob: where is it set?',
  );
});
