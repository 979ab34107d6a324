/** A spring goes as far as the sag that was told asks for, where no sheet says more of the bike. */
import { describe, expect, it } from 'vitest';
import { bySagTold, type ToldNumber } from '../../../src/advice/step/told-sag-step.ts';
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import { readSheet } from '../../../src/bike/form/read.ts';
import { consult } from '../../../src/casework/consult.ts';
import type { CaseAnswer } from '../../../src/casework/case.ts';
import { withToldSprings } from '../../../src/casework/told-spring.ts';
import { coilShare, pressureShare } from '../../../src/physics/told-sag.ts';
import { toResult } from '../../../src/report/result/to-result.ts';
import { textReport } from '../../../src/report/text.ts';
import { exampleData } from '../../bike/example.ts';
import { bench, caseOf, model, rules } from '../../support/told.ts';

const PSI = 6894.757;
const TARGET = { front: [0.13, 0.22], rear: [0.23, 0.32] } as const;
const sag = (end: 'front' | 'rear', value: number, psi?: number, whole?: number): CaseAnswer => ({
  question: `sag@${end}`,
  answer: value < TARGET[end][0] ? 'less' : 'more',
  sure: 'sure',
  measured: {
    value,
    unit: '%',
    band: TARGET[end],
    ...(whole === undefined ? {} : { length: { whole, unit: 'mm' } }),
    ...(psi === undefined ? {} : { at: { pressure: psi * PSI, unit: 'psi' } }),
  },
});
const step = (id: string, ...answers: readonly ToldNumber[]) => {
  const can = bySagTold(rules, bench, answers).possible[rules.adjustments.findIndex((a) => a.id === id)]!;
  return can.can ? can : undefined;
};
const air = rules.numbers.advice['air-at-once'];

describe('an air spring', () => {
  it('goes by a part of what the model asks for, from the pressure that was told, in its unit', () => {
    // 10 to 12 psi of 102 bring a fork from 13 % to its usual sag: common practice, no source.
    const { by, from, to, unit } = step('front.spring.softer', sag('front', 0.129, 102, 0.17))!.step!;
    expect(-by).toBeGreaterThanOrEqual(9);
    expect(-by).toBeLessThanOrEqual(14);
    expect([from, unit]).toEqual([expect.closeTo(102, 2), 'psi']);
    expect(to).toBeCloseTo(102 + by, 2);
  });
  it('goes no further at once than the pack allows, and says that it is far off', () => {
    for (const psi of [40, 85, 150]) {
      const far = step('front.spring.softer', sag('front', 0.058, psi, 0.12))!;
      expect(-far.step!.by).toBeLessThanOrEqual(Math.min(air * psi, 20) + 1e-6);
      expect(-far.step!.by).toBeGreaterThan(Math.min(air * psi, 20) - 1.5);
      expect(far.note).toContain('two or three');
    }
    expect(step('front.spring.softer', sag('front', 0.125, 80))!.note ?? '').not.toContain('two or three');
  });
  it('arrives at the target in a few such steps of its own model, and never past it', () => {
    const [wanted, whole, end] = [0.175, 0.12, 'front'] as const;
    // What the end carries stays: the sag at another pressure is where the model asks for nothing more.
    const sagAt = (psi: number, ofSag: number, ofPsi: number): number => {
      let [low, high] = [0.05, 0.6];
      for (let i = 0; i < 40; i++) {
        const middle = (low + high) / 2;
        const told = { end, kind: 'trail', whole, measured: ofSag, wanted: middle } as const;
        if (pressureShare(told, ofPsi * PSI) * ofPsi > psi) low = middle;
        else high = middle;
      }
      return low;
    };
    let [psi, now, steps] = [85, 0.09, 0];
    while (Math.abs(now - wanted) > 0.045 && steps < 6) {
      const { to } = step('front.spring.softer', sag(end, now, psi, whole))!.step!;
      [now, psi] = [sagAt(to!, now, psi), to!];
      steps++;
      expect(now).toBeLessThan(wanted + 0.01);
    }
    expect(steps).toBeLessThanOrEqual(3);
  });
  it('is told as a share of what the gauge reads where nobody told that', () => {
    const { step: one } = step('rear.spring.firmer', sag('rear', 0.4))!;
    expect(one!.share).toBeGreaterThan(0.1);
    expect(one!.share).toBeLessThanOrEqual(air);
    expect(one!.by).toBe(10);
  });
  it('takes a pressure that was read by itself as well', () => {
    const read: CaseAnswer = {
      question: 'preload-place@rear',
      answer: 'under',
      sure: 'sure',
      measured: { value: 10e5, unit: 'bar', band: [11e5, 12e5] },
    };
    expect(step('rear.spring.firmer', sag('rear', 0.4), read)!.step).toMatchObject({ unit: 'bar', from: 10 });
  });
  it('keeps the step of its rule for sag on target, the other way, the other end, and beside a sheet', () => {
    for (const [id, answer] of [
      ['front.spring.softer', sag('front', 0.18, 80)],
      ['front.spring.firmer', sag('front', 0.08, 80)],
      ['rear.spring.softer', sag('front', 0.08, 80)],
    ] as const)
      expect(step(id, answer)).toEqual(step(id));
    const own = prepareBike(model, readSheet(exampleData('all-knobs')).sheet!);
    expect(bySagTold(rules, own, [sag('front', 0.08, 80)])).toBe(own);
  });
  it('stands on the card in numbers, with its goal as a length', () => {
    const card = (answer: CaseAnswer): string => {
      const kase = { ...caseOf({ 'spring-kind@front': 'air', 'last-set@front': 'never' }) };
      const told = { ...kase, answers: [...kase.answers, answer] };
      const c = consult(model, bench, told, { next: true, explain: 5, fit: true });
      return textReport(toResult(model, told, c), { rules }).replaceAll(/\s+/g, ' ');
    };
    expect(card(sag('front', 0.058, 85, 0.12))).toMatch(
      /17 psi less \(85 → 68 psi\).*17\.5 % \(21 of 120 mm\)/,
    );
    const shared = card(sag('front', 0.058));
    expect(shared).toMatch(/about a fifth of what the gauge reads\..*write the number down/);
    expect(shared).not.toContain('4 psi');
    for (const text of [shared, card(sag('front', 0.058, 85))])
      expect(text).toContain('raises the risk of going over the bars');
  });
});

/** NIST SP 811 (2008), appendix B.8: 1 lbf/in = 175.1268 N/m. */
const LB_IN = 175.1268;
const withRate = (answer: CaseAnswer, rate: number | undefined): CaseAnswer =>
  rate === undefined
    ? answer
    : { ...answer, measured: { ...answer.measured!, at: { rate: rate * LB_IN, unit: 'lb/in' } } };

describe('a coil', () => {
  const note = (turns: 'few' | 'many', value: number, rate?: number): string => {
    const answers = [
      { question: 'spring-kind@rear', answer: 'coil', sure: 'sure' },
      { question: 'preload-wound@rear', answer: turns, sure: 'sure' },
      withRate(sag('rear', value), rate),
    ] as const;
    const said = withToldSprings(rules, { answers })!;
    const told = prepareBike(model, undefined, undefined, undefined, said);
    const at = (id: string) => rules.adjustments.findIndex((a) => a.id === id);
    const notes = ['heavier', 'lighter'].map((which) => {
      const can = bySagTold(rules, told, answers).possible[at(`rear.spring.${which}-coil`)]!;
      return can.can ? (can.note ?? '') : '';
    });
    return notes.join('|');
  };
  it('is told as a share of the rate that stands on it, by the weight that it was measured to carry', () => {
    // A rate times the travel it is pressed in: 1 mm and 38 % of 60 mm carry as much as 1 mm and 30 % at 23.8/19 of the rate.
    const told = { end: 'front', kind: 'trail', whole: 0.06, measured: 0.38, wanted: 0.3 } as const;
    expect(coilShare(told, 1).rate).toBeCloseTo(23.8 / 19, 6);
    expect(coilShare(told, 1).turns).toBeCloseTo(4.8, 6);
    expect(note('few', 0.38)).toMatch(/about a quarter firmer.*if that is 400, the nearest to 5[01]0.*\|$/);
    expect(note('few', 0.17)).toMatch(/^\|by that sag about .* softer/);
  });
  it('is named by its number where the one that is in was told', () => {
    expect(note('few', 0.38, 450)).toMatch(/a coil of about 575 lb\/in \(now 450 lb\/in\), with one turn/);
    expect(note('many', 0.32, 450)).toMatch(/a coil of \d+ lb\/in at least \(now 450 lb\/in\)/);
    expect(note('few', 0.3, 450)).toBe('|');
  });
  it('is too soft by as much at least as more preload than usual hides, and not told of on target', () => {
    expect(note('many', 0.3)).toMatch(/at least .* firmer/);
    expect(note('few', 0.3)).toBe('|');
  });
});
