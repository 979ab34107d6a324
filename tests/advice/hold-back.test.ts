import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { advise } from '../../src/advice/advise.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { exampleSheet } from '../bike/example.ts';
import { compileTexts, rulesOf } from '../support/compile-text.ts';
import { problemLine } from '../../src/form/problem.ts';
import { believing } from '../support/front-rules.ts';

const adjustment = (id: string, kind: string, minutes: number, rest: string): string => `
  - id: ${id}
    do: do ${id}
    plain: do ${id}
    kind: ${kind}
    minutes: ${minutes}
    way-back: undo it
    feel: whether it helps
    cautions: []
    source: common-practice
    status: trial
    ${rest}`;

const question = (id: string, how: string, rest: string): string => `
  - id: ${id}
    ask: ${id}?
    plain: ${id}?
    help: Look.
    how: ${how}
    minutes: 1
    topic: ${id}
    confusable-with: [{id: front.spring.too-soft, tell: measure}]
    source: common-practice
    status: trial
    ${rest}`;

const setting = (id: string, kind: string): string => `
  - id: "${id.replace('front', '{end}')}"
    for: [front]
    name: ${id}
    plain: ${id}
    kind: ${kind}
    ${id === 'front.spring' ? 'sheet: sag' : 'adjuster: rebound.low'}
    directions: {too-soft: {name: soft, plain: soft, prior: sometimes, reads: high}, too-firm: {name: firm, plain: firm, prior: sometimes, reads: low}}
    source: common-practice
    status: trial`;

const rulesWith = (spacer: string, sag = ''): string => `
settings:${setting('front.spring', 'spring')}${setting('front.rebound.low', 'damper')}
questions:${question(
  'sag',
  'stand',
  `measures: front.spring
    answers: {target: on target, more: too much}
    default: target
    when-several: cancel
    points-to: {more: {front.spring.too-soft: always}}`,
)}${question(
  'height',
  'recall',
  `answers: {level: level, low: low}
    default: level
    when-several: cancel
    usually: {low: rarely}
    implies: {low: {whole: lower}}
    points-to: {low: {front.spring.too-soft: often}}`,
)}${question(
  'whole',
  'recall',
  `answers: {as-ever: as ever, lower: lower}
    default: as-ever
    when-several: cancel
    usually: {lower: rarely}
    points-to: {lower: {front.spring.too-soft: often}}`,
)}
adjustments:${adjustment('front.click', 'click', 1, 'moves: {front.rebound.low: too-firm}')}${adjustment('front.spacer', 'spacer', 5, `moves: {front.spring: too-firm}\n    ${spacer}`)}${adjustment('front.lower', 'cockpit', 5, `moves: {front.rebound.low: too-soft}\n    refuse-when: [{answers: {height: low}, why: the front is low already}, {causes: {front.spring.too-soft: 0.3}, why: the front may be low}]`)}${adjustment('front.sag', 'measure', 4, `reads: sag\n    ${sag}`)}
`;

const of = (spacer: string, sag = '') => {
  const model = buildModel(rulesOf({ 'a.yaml': rulesWith(spacer, sag) }));
  return { model, bench: prepareBike(model) };
};

function told(
  { model, bench }: ReturnType<typeof of>,
  sets: Readonly<Record<string, number>>,
  answers: Readonly<Record<string, string>> = {},
) {
  const known = { answers: new Map(Object.entries(answers)), bike: () => undefined };
  const advice = advise(model, bench, believing(sets, model), { dangerous: false, known });
  const id = (index: number): string => model.rules.adjustments[index]!.id;
  return {
    order: advice.ranked.map((r) => id(r.adjustment)),
    because: advice.because,
    instead: advice.insteadOf === undefined ? undefined : id(advice.insteadOf.adjustment),
    refused: advice.refused.map((r) => [id(r.adjustment), r.why]),
  };
}

const SOFT = { 'front.spring.too-soft': 0.9 };

describe('what waits for a gauge', () => {
  const waiting = of('measure-first: [sag]');
  it('is read also where something that no rule knows is likelier than all causes', () => {
    const belief = believing(SOFT, waiting.model);
    const because = (answers: Readonly<Record<string, string>>): string | undefined => {
      const known = { answers: new Map(Object.entries(answers)), bike: () => undefined };
      return advise(waiting.model, waiting.bench, belief, { dangerous: false, none: 0.7, known }).because;
    };
    expect(because({})).toBe('measure-first');
    expect(because({ sag: 'more' })).toBe('none-of-these');
  });
  it('comes behind its reading until that is known', () => {
    expect(told(waiting, SOFT)).toMatchObject({
      order: ['front.sag', 'front.spacer'],
      because: 'measure-first',
      instead: 'front.spacer',
    });
    expect(told(waiting, SOFT, { sag: 'more' })).toMatchObject({
      order: ['front.spacer'],
      because: undefined,
    });
  });
  it('takes the number on the bike sheet for a reading', () => {
    const sheet = exampleSheet('all-knobs');
    const { model } = waiting;
    expect(told({ model, bench: prepareBike(model, sheet) }, SOFT).order[0]).toBe('front.spacer');
    const { sagMeasured: _, ...front } = sheet.ends.front;
    const blank = prepareBike(model, { ...sheet, ends: { ...sheet.ends, front } });
    expect(told({ model, bench: blank }, SOFT).order[0]).toBe('front.sag');
  });
});

describe('a look that an answer asks for', () => {
  const asked = of('', 'first-when-answered: {height: low}');
  it('comes before every change until it was made', () => {
    expect(told(asked, SOFT).order[0]).toBe('front.spacer');
    expect(told(asked, SOFT, { height: 'low' })).toMatchObject({
      order: ['front.sag', 'front.spacer'],
      because: 'measure-first',
      instead: 'front.spacer',
    });
    expect(told(asked, SOFT, { height: 'low', sag: 'more' }).order[0]).toBe('front.spacer');
  });
  it('stands alone where nothing is likely enough to wait for it', () => {
    const thin = { 'front.spring.too-soft': 0.08, 'front.rebound.low.too-firm': 0.08 };
    expect(told(asked, thin).order).toEqual([]);
    expect(told(asked, thin, { height: 'low' })).toMatchObject({ order: ['front.sag'], instead: undefined });
  });
  it('lets nothing but a repair be named where it looks for a danger', () => {
    const rules = rulesWith('', 'first-when-answered: {height: low}')
      .replace('measures: front.spring\n', 'measures: front.spring\n    dangerous: {more: halt}\n')
      .replace('kind: spacer', 'kind: repair');
    const halt = '\ncautions:\n  - {id: halt, level: stop, text: Stop., show: with}\n';
    const model = buildModel(rulesOf({ 'a.yaml': `${rules}${halt}` }));
    const both = { ...SOFT, 'front.rebound.low.too-soft': 0.09 };
    const { order } = told({ model, bench: prepareBike(model) }, both, { height: 'low' });
    expect(order).toEqual(['front.sag', 'front.spacer']);
  });
});

describe('a repair that answers call for', () => {
  const rules = rulesWith('first-when-answered: [{sag: more, height: level}, {height: low}]').replace(
    'kind: spacer',
    'kind: repair',
  );
  const model = buildModel(rulesOf({ 'a.yaml': rules }));
  const called = (answers?: Readonly<Record<string, string>>): ReturnType<typeof told> =>
    told({ model, bench: prepareBike(model) }, CLICK, answers);
  const CLICK = { 'front.rebound.low.too-soft': 0.8, 'front.spring.too-soft': 0.1 };
  it('comes before every click where all of one of the lists hold, and is told as a repair', () => {
    expect(called().order[0]).toBe('front.click');
    expect(called({ sag: 'more' }).order[0]).toBe('front.click');
    for (const answers of [{ height: 'low' }, { sag: 'more', height: 'level' }])
      expect(called(answers)).toMatchObject({
        order: ['front.spacer', 'front.click'],
        because: 'repair-first',
        instead: 'front.click',
      });
  });
});

describe('what was measured off', () => {
  const both = { 'front.rebound.low.too-soft': 0.3, 'front.spring.too-soft front.rebound.low.too-soft': 0.6 };
  it('comes before every click of its end, and a click first where nothing was measured', () => {
    const model = of('first-when-measured: [sag]');
    expect(told(model, both, { sag: 'more' })).toMatchObject({
      order: ['front.spacer', 'front.click'],
      because: 'measured-first',
      instead: 'front.click',
    });
    expect(told(model, both).order[0]).toBe('front.click');
  });
});

describe('what needs proofs', () => {
  it.each<[string, string, Readonly<Record<string, string>>, string | undefined]>([
    ['is never first while a smaller step is possible', 'proofs: {blocked: [front.click]}', {}, undefined],
    ['is never first below its certainty', 'proofs: {likely: 0.95}', {}, undefined],
    ['is first at its certainty', 'proofs: {likely: 0.85}', {}, 'front.spacer'],
    ['is never first before its look', 'proofs: {answered: {whole: lower}}', {}, undefined],
    [
      'is never first where the look spoke against it',
      'proofs: {answered: {whole: lower}}',
      { whole: 'as-ever' },
      undefined,
    ],
    [
      'is first once its look bears it out',
      'proofs: {answered: {whole: lower}}',
      { whole: 'lower' },
      'front.spacer',
    ],
  ])('%s', (_, proofs, answers, first) => {
    const { order } = told(of(proofs), { ...SOFT, 'front.rebound.low.too-soft': 0.09 }, answers);
    expect(order[0] === 'front.spacer' ? 'front.spacer' : undefined).toBe(first);
  });
});

describe('what is refused', () => {
  const model = of('');
  const FIRM = { 'front.rebound.low.too-firm': 0.6 };
  it('is not advised after the answer, or with the cause likely, and says why', () => {
    expect(told(model, FIRM).order[0]).toBe('front.lower');
    expect(told(model, FIRM, { height: 'low' })).toMatchObject({
      order: [],
      refused: [['front.lower', 'the front is low already']],
    });
    const low = { ...FIRM, 'front.spring.too-soft': 0.35 };
    expect(told(model, low).refused).toEqual([['front.lower', 'the front may be low']]);
    expect(told(model, low).order).not.toContain('front.lower');
  });
});

describe('what is refused unless its own cause is likely', () => {
  const model = of(
    'refuse-when: [{answers: {height: low}, below: {front.spring.too-soft: 0.5}, why: not yet}]',
  );
  it('is refused below that probability, and advised from it on', () => {
    const low = { height: 'low' };
    expect(told(model, { 'front.spring.too-soft': 0.45 }, low).order).not.toContain('front.spacer');
    expect(told(model, { 'front.spring.too-soft': 0.55 }, low).order).toContain('front.spacer');
    expect(told(model, { 'front.spring.too-soft': 0.45 }).order).toContain('front.spacer');
  });
});

describe('what is refused unless a look clears it', () => {
  const model = of('refuse-when: [{answers: {height: low}, unless: {whole: lower}, why: not yet}]');
  it('is advised once any one of those answers was given', () => {
    const spring = { 'front.spring.too-soft': 0.55 };
    expect(told(model, spring, { height: 'low' }).order).not.toContain('front.spacer');
    expect(told(model, spring, { height: 'low', whole: 'lower' }).order).toContain('front.spacer');
  });
});

describe('rules that hold something back', () => {
  it('are told their mistakes', () => {
    const lines = compileTexts({
      'a.yaml': rulesWith(
        'measure-first: [height]\n    proofs: {blocked: [front.clik], answered: {whole: lowr}}',
      ),
    }).problems.map(problemLine);
    expect(lines).toEqual([
      expect.stringMatching(/Nothing measures height\. .*\[no-measurement\]/),
      expect.stringMatching(/No adjustment front\.clik\. Did you mean front\.click\? \[unknown-id\]/),
      expect.stringMatching(/whole has no answer lowr\. Did you mean lower\? \[unknown-id\]/),
    ]);
  });
});
