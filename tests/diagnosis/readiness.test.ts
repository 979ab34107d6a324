import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priorOf, update, type Evidence } from '../../src/diagnosis/belief.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { atReadiness, readinessOf, type Interview } from '../../src/diagnosis/readiness.ts';
import { network, yesNo } from '../support/network.ts';

const net = network({
  priors: [0.2, 0.1],
  questions: [yesNo('a', 0.2, {}), yesNo('b', 0.1, { 0: 0.6 }), yesNo('c', 0.3, { 0: 0.3, 1: 0.8 })],
});
const rules = {
  ...net,
  numbers: {
    ...net.numbers,
    slip: { recall: 0, ride: 0, stand: 0 },
    'one-story': { recall: 0, ride: 0, stand: 0 },
  },
};
const model = buildModel(rules, 0);
const prior = priorOf(model);
const say = (question: number, answer: number, sure = 1): Evidence => ({ question, answer, sure });
const interview = (...evidence: Evidence[]): Interview => ({ evidence, prior });

/** Odds of 0.25, of which each shift makes e^shift times as much. */
const yes = (shift: number): number => (0.25 * Math.exp(shift)) / (1 + 0.25 * Math.exp(shift));

describe('how readily a rider names signs', () => {
  it('multiplies the odds of every sign that is remembered, and of none that the stand shows', () => {
    const stand = { ...rules, questions: rules.questions.map((q) => ({ ...q, how: 'stand' as const })) };
    const chance = (m: typeof model): number => Math.exp(update(m, prior, [say(0, 1)]).logEvidence);
    expect(chance(atReadiness(model, Math.log(3)))).toBeCloseTo(0.75 / 1.75, 12);
    expect(chance(atReadiness(buildModel(stand, 0), Math.log(3)))).toBeCloseTo(0.2, 12);
    expect(atReadiness(model, 0)).toBe(model);
  });
  it.each([
    [8, 10],
    [3, 10],
    [0, 10],
    [12, 30],
    [2, 3],
  ])('by another road: after %i of %i signs, by integrating over a fine grid', (signs, count) => {
    const spread = 0.5;
    const told = Array.from({ length: count }, (_, i) => interview(say(0, i < signs ? 1 : 0)));
    let [mass, mean, square] = [0, 0, 0];
    for (let x = -6; x <= 6; x += 0.001) {
      const w = yes(x) ** signs * (1 - yes(x)) ** (count - signs) * Math.exp(-((x / spread) ** 2) / 2);
      mass += w;
      mean += w * x;
      square += w * x * x;
    }
    const { shift, error } = readinessOf(model, told, spread);
    // Rounded to a twentieth.
    expect(Math.abs(shift - mean / mass)).toBeLessThan(0.03);
    expect(error).toBeCloseTo(Math.sqrt(square / mass - (mean / mass) ** 2), 1);
  });
  it('is nothing without interviews, and where riders do not differ', () => {
    expect(readinessOf(model, [], 0.5)).toEqual({ shift: 0, error: 0.5 });
    expect(readinessOf(model, [interview(say(0, 1)), interview(say(1, 1))], 0).shift).toBe(0);
  });
  it.each([0, 0.5, 1])('by another road: where the bike stays as it was in %d of the interviews', (stays) => {
    // Each way to part four interviews into runs about one bike: in a run the causes are summed out once.
    const spread = 0.5;
    const told = Array.from({ length: 4 }, () => interview(say(1, 1)));
    const base = (x: number): number => ((1 / 9) * Math.exp(x)) / (1 + (1 / 9) * Math.exp(x));
    const run = (x: number, n: number): number => 0.8 * base(x) ** n + 0.2 * (1 - 0.4 * (1 - base(x))) ** n;
    let [mass, mean] = [0, 0];
    for (let x = -6; x <= 6; x += 0.001) {
      let w = 0;
      for (let cut = 0; cut < 8; cut++) {
        let [p, length] = [1, 1];
        for (let i = 0; i < 3; i++) {
          const stayed = (cut >> i) & 1;
          p *= stayed ? stays : 1 - stays;
          if (stayed) length++;
          else [p, length] = [p * run(x, length), 1];
        }
        w += p * run(x, length);
      }
      w *= Math.exp(-((x / spread) ** 2) / 2);
      mass += w;
      mean += w * x;
    }
    expect(Math.abs(readinessOf(model, told, spread, stays).shift - mean / mass)).toBeLessThan(0.03);
  });
  it('by hand: what a trial came to and cured is told once, and the next interview is about what it left', () => {
    // The trial says that cause 0 was there, then cures it: as certain as a bike without it.
    const outcomes = Float64Array.from(prior, (_, h) => (model.space.last[h] === 0 ? 1 : 1e-9));
    const sound = Float64Array.from(prior, (_, h) => (h === 0 ? 1 : 0));
    let told: Float64Array | undefined;
    const left = (weights: Float64Array): Float64Array => {
      told = weights;
      return sound;
    };
    const cured = { ...interview(say(1, 1)), outcomes, left };
    const alone = readinessOf(model, [cured, { ...interview(say(1, 1)), prior: sound }], 0.5, 0);
    expect(readinessOf(model, [cured, interview(say(1, 1))], 0.5, 1)).toEqual(alone);
    expect(alone.shift).toBeGreaterThan(readinessOf(model, [interview(say(1, 1))], 0.5, 1).shift);
    // The trial is told what the answers alone say, here of the last shift that is looked at.
    const answered = update(atReadiness(model, 2), prior, [say(1, 1)]).weights;
    told!.forEach((w, h) => expect(w / told![0]!).toBeCloseTo(answered[h]! / answered[0]!, 9));
  });
  it('does not depend on the order of the interviews, to the last bit', () => {
    const answer = fc.record({
      question: fc.nat({ max: 2 }),
      answer: fc.nat({ max: 1 }),
      sure: fc.constantFrom(1, 0.9, 0.5),
    });
    const one = fc
      .uniqueArray(answer, { selector: (e) => e.question, minLength: 1 })
      .map((evidence) => interview(...evidence));
    const shuffled = fc
      .array(one, { minLength: 2, maxLength: 8 })
      .chain((all) =>
        fc.tuple(
          fc.constant(all),
          fc.shuffledSubarray(all, { minLength: all.length, maxLength: all.length }),
        ),
      );
    fc.assert(
      fc.property(shuffled, ([told, otherwise]) => {
        expect(readinessOf(model, otherwise, 0.5)).toEqual(readinessOf(model, told, 0.5));
      }),
    );
  });
  it('a sign more, of one that no cause brings, never makes it less', () => {
    const shifts = Array.from(
      { length: 9 },
      (_, signs) =>
        readinessOf(
          model,
          Array.from({ length: 8 }, (_, i) => interview(say(0, i < signs ? 1 : 0))),
          0.5,
        ).shift,
    );
    expect(shifts).toEqual([...shifts].sort((a, b) => a - b));
    expect(shifts[0]).toBeLessThan(0);
    expect(shifts[8]).toBeGreaterThan(0.3);
  });
  it('lays less on the rider where a cause explains the sign', () => {
    const eight = (question: number): number =>
      readinessOf(
        model,
        Array.from({ length: 8 }, (_, i) => interview(say(question, i < 4 ? 1 : 0))),
        0.5,
      ).shift;
    const bare = { ...rules, questions: rules.questions.map((q) => ({ ...q, links: [] })) };
    const alone = readinessOf(
      buildModel(bare, 0),
      Array.from({ length: 8 }, (_, i) => interview(say(1, i < 4 ? 1 : 0))),
      0.5,
    ).shift;
    expect(eight(1)).toBeLessThan(alone);
  });
});
