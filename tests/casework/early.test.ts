/** What is said or tried that calls for one question at once, whatever the others promise. */
import { describe, expect, it } from 'vitest';
import type { Tried } from '../../src/casework/case.ts';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { consult } from '../../src/casework/consult.ts';
import { withToldSprings } from '../../src/casework/told-spring.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

const opening = (answers: Record<string, string>, tried: readonly Tried[] = []) =>
  consult(model, bench, caseOf({ ...SOUND, ...answers }, { tried }), { next: true, explain: 0, fit: false });

const firstOf = (answers: Record<string, string>, tried?: readonly Tried[]): string | undefined =>
  rules.questions[opening(answers, tried).open[0]?.question ?? -1]?.id;

const TURNED: Tried = { setting: 'rebound', end: 'front', direction: 'open', result: 'same', putBack: 'yes' };

describe('a question that is asked past a danger', () => {
  const LEAK = { 'safety.found': 'leak', 'trouble-end': 'rear', 'brake-rear': 'skips' };
  const repairs = rules.adjustments.flatMap(({ kind }, i) => (kind === 'repair' ? [i] : []));
  const told = (answers: Record<string, string>) =>
    consult(model, bench, caseOf(answers), { next: true, explain: 0, fit: false });
  it('says where the oil comes from before it is stopped, and no repair is named until then', () => {
    const { open, stop, advice } = told(LEAK);
    expect([rules.questions[open[0]!.question]!.id, stop, advice.verdict]).toEqual([
      'leak-where',
      undefined,
      'stop',
    ]);
    expect(repairs).not.toContain(advice.first);
  });
  it('is over once it is answered, also by who cannot tell', () => {
    const found = told({ ...LEAK, 'leak-where': 'fork' });
    expect([found.stop, rules.adjustments[found.advice.first!]!.id]).toEqual(['danger', 'front.repair']);
    const lost = told({ ...LEAK, 'leak-where': 'cannot-tell' });
    expect([lost.stop, lost.advice.verdict]).toEqual(['danger', 'stop']);
    expect(repairs).not.toContain(lost.advice.first);
  });
  it('looks for a knock that was told of, and names no part for it until a joint was felt', () => {
    const ids: string[] = [];
    const answers: Record<string, string> = { 'safety.noise': 'front', 'knock-when': 'brake' };
    for (const [id, answer] of [
      ['safety.found', 'loose'],
      ['play-where', 'front-wheel'],
      ['tightened-before', 'no'],
    ] as const) {
      ids.push(rules.questions[told(answers).open[0]!.question]!.id);
      answers[id] = answer;
    }
    expect(ids).toEqual(['safety.found', 'play-where', 'tightened-before']);
    const { stop, advice } = told(answers);
    expect([stop, rules.adjustments[advice.first!]!.id]).toEqual(['danger', 'front.wheel.true']);
  });
  it('is not asked of what says where by itself', () => {
    expect(told({ ...LEAK, 'safety.found': 'undamped' }).stop).toBe('danger');
  });
});

describe('the kind of spring', () => {
  const DEEP = { ...SOUND, 'bottoming@rear': 'hard', 'ride-height@rear': 'low', 'sag@rear': 'more' };
  const idOf = (adjustment: number | undefined) => rules.adjustments[adjustment ?? -1]?.id;
  /** Asked on, every answer the one of who notices nothing, until the asking is over or this is asked. */
  const until = (asked: string, begun: Record<string, string>) => {
    const answers = { ...begun };
    for (;;) {
      const kase = caseOf(answers);
      const own = prepareBike(model, undefined, undefined, undefined, withToldSprings(rules, kase));
      const { open, stop, advice } = consult(model, own, kase, { next: true, explain: 0, fit: false });
      const next = rules.questions[open[0]?.question ?? -1];
      if (stop !== undefined || next === undefined || next.id === asked)
        return { asked: stop === undefined ? next?.id : undefined, first: idOf(advice.first) };
      answers[next.id] = next.answers[next.default]!.id;
    }
  };
  it('is asked before the asking is over where a part of one kind stands first', () => {
    expect(until('spring-kind@rear', DEEP)).toEqual({
      asked: 'spring-kind@rear',
      first: 'rear.spring.firmer',
    });
  });
  it('is not asked where it was told, and a coil gets nothing that is made for air', () => {
    const air = until('spring-kind@rear', { ...DEEP, 'spring-kind@rear': 'air' });
    expect(air).toEqual({ asked: undefined, first: 'rear.spring.firmer' });
    const coil = until('spring-kind@rear', { ...DEEP, 'spring-kind@rear': 'coil' });
    expect(coil.asked).toBeUndefined();
    const needs = rules.adjustments.find(({ id }) => id === coil.first)?.needs ?? {};
    expect(Object.values(needs).flat()).not.toEqual(['air']);
  });
});

describe('a question that is asked at once', () => {
  it.each([
    ['a creak at the rear', { complaint: 'corners', 'noises@rear': 'creak' }, 'pivot-check'],
    ['a creak at the front', { complaint: 'corners', 'noises@front': 'creak' }, 'headset-check'],
    ['worse after lying upside down', { complaint: 'strange', 'lain@front': 'worse' }, 'top-stroke@front'],
    ['a slurp', { complaint: 'harsh', 'noises@rear': 'slurp' }, 'top-stroke@rear'],
    ['trouble with braking', { complaint: 'braking', 'recent-change': 'none' }, 'brake-feel'],
    ['arms that give out', { complaint: 'arms', 'recent-change': 'none' }, 'brake-feel'],
    ['steep ground', { complaint: 'steep', 'recent-change': 'none' }, 'brake-feel'],
    ['a front brake that does little', { 'brake-feel': 'rear-works' }, 'brake-each'],
    [
      'a run that gets worse',
      { complaint: 'braking', 'brake-feel': 'fine', 'run-trend': 'bottom' },
      'brake-fade',
    ],
    ['a rear that skips when braked', { complaint: 'harsh', 'brake-rear': 'skips' }, 'brake-each'],
    [
      'fingers that give out on sound brakes',
      { hands: 'fingers', 'safety.brakes': 'good', 'recent-change': 'none' },
      'lever-fit',
    ],
    [
      'a service that began it at the front',
      {
        'trouble-end': 'front',
        'bars-feel': 'low',
        'recent-change': 'service',
        'change-effect': 'worse',
        'since-service': 'same',
      },
      'bare-leg',
    ],
  ])('is that which %s calls for', (_, answers, question) => {
    // Held against all other questions, whose promise it need not beat.
    const asked = ['top-stroke@front', 'top-stroke@rear'].includes(question)
      ? [question, question.replace('top-stroke', 'knob-effect')]
      : [question];
    expect(asked).toContain(firstOf(answers));
  });

  it('is what each brake does when the front dives', () => {
    const [first] = opening({
      complaint: 'braking',
      'brake-feel': 'fine',
      'brake-dive': 'dives',
    }).open.map(({ question }) => rules.questions[question]!.id);
    expect(first).toBe('brake-each');
  });

  it('is the look that may find a danger before any other that the same sign calls for', () => {
    const { questions } = rules;
    const called = opening({ complaint: 'corners', 'tyre-air@rear': 'burps', 'tyre-feel@rear': 'folds' });
    const [first] = called.open.map(({ question }) => questions[question]!);
    expect(first!.id).toBe('wheel-check@rear');
    expect(Object.keys(first!.dangerous)).not.toEqual([]);
    // The other one is called for as well, and asked behind it.
    const own = questions.find(({ id }) => id === 'tyre-pressure@rear')!;
    expect(own.earlyWhen!.some(({ id }) => id === 'tyre-feel@rear')).toBe(true);
    const ids = called.open.map(({ question }) => questions[question]!.id);
    expect(ids.slice(1, 5)).toContain('tyre-pressure@rear');
  });

  it.each([
    [
      'skips when braked, once each brake was found to do its work',
      { 'brake-rear': 'skips', 'brake-each': 'both' },
      'brake-off',
    ],
    [
      'rolls calm off the brakes',
      { 'brake-rear': 'skips', 'brake-each': 'both', 'brake-off': 'gone' },
      'brake-habit',
    ],
  ])('is what decides of a rear that %s', (_, answers, question) => {
    const known = { complaint: 'braking', 'brake-feel': 'fine', 'recent-change': 'none', ...answers };
    const ids = opening(known).open.map((gain) => rules.questions[gain.question]!.id);
    expect(ids.slice(0, 4)).toContain(question);
  });

  it.each([
    ['never set for this rider', { 'recent-change': 'none', 'last-set@front': 'never' }],
    ['a spring for somebody heavier', { 'recent-change': 'none', 'spring-for-mass@rear': 'heavy' }],
  ])('is the sag of both ends, where they hear of %s', (_, answers) => {
    const first = opening({ complaint: 'harsh', ...answers }).open.slice(0, 2);
    expect(first.map(({ question }) => rules.questions[question]!.id).sort()).toEqual([
      'sag@front',
      'sag@rear',
    ]);
  });

  it('is when the springs were set, on a bike that is new to the rider', () => {
    expect(firstOf({ complaint: 'harsh', 'recent-change': 'bike' })).toMatch(/^last-set@/);
  });

  it('is no push by hand while the lever is closed', () => {
    const asked = opening({ 'liveliness@rear': 'wooden', 'lever@rear': 'closed' }).open.map(
      ({ question }) => rules.questions[question]!.id,
    );
    expect(asked).toContain('push-return@front');
    expect(asked).not.toContain('push-return@rear');
    expect(asked).not.toContain('stiction@rear');
  });

  it('is whether the knob does anything, where turning it did nothing', () => {
    expect(firstOf({ complaint: 'strange', 'trouble-end': 'front' }, [TURNED])).toBe('knob-effect@front');
    for (const result of ['better', 'worse'] as const)
      expect(firstOf({ complaint: 'strange', 'trouble-end': 'front' }, [{ ...TURNED, result }])).not.toBe(
        'knob-effect@front',
      );
  });

  it('comes after safety, and once', () => {
    const told = { complaint: 'braking', 'brake-dive': 'dives' };
    const untold = consult(model, bench, caseOf(told), { next: true, explain: 0, fit: false });
    expect(rules.questions[untold.open[0]!.question]!.safety).toBe(true);
    const rest = { ...told, 'brake-fade': 'no', 'run-trend': 'same' };
    expect(['brake-fade', 'run-trend']).not.toContain(firstOf(rest));
  });

  it('is not passed over for having enough', () => {
    const sure = { 'sag@front': 'more', 'noises@rear': 'creak', 'trouble-end': 'front' };
    const { stop, pressing } = opening(sure);
    expect(pressing).toBe(true);
    expect(stop).toBeUndefined();
  });
});

// Common practice, no source: a wheel that was out, or another tyre, has its pressure read before anything is turned.
it.each([{ 'recent-change': 'tyre' }, { 'recent-change': 'part', 'new-part': 'wheel' }])(
  'tyre pressure is asked for before the suspension after %o',
  (changed) => {
    const told: Record<string, string> = { complaint: 'harsh', ...changed };
    const asked = new Set<string>();
    for (let i = 0; i < 3; i++) {
      const id = firstOf(told);
      if (id === undefined) break;
      asked.add(id);
      told[id] = 'cannot-tell';
    }
    expect([...asked].some((id) => id.startsWith('tyre-target'))).toBe(true);
  },
);
