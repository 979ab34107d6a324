/** A bike without a sheet, as its rider tells of it: what nobody said exists is not named, or has to be looked for. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { sheetFact } from '../../src/bike/facts.ts';
import { valueAt } from '../../src/bike/form/draft.ts';
import { newSteps } from '../../src/bike/form/new-steps.ts';
import { nextStep } from '../../src/bike/form/open-steps.ts';
import { draftOf, saidOf } from '../../src/bike/form/said.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { consult } from '../../src/casework/consult.ts';
import { vocabularyOf, type Case } from '../../src/casework/case.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { bareBike, baseModel, baseRules } from '../support/base-rules.ts';
import { workshop } from '../story/place.ts';

const { rules } = baseRules();
const model = baseModel();
const said = (has: object) => saidOf(has, rules.adjusters);
const on = (has: object) => {
  const bench = prepareBike(model, undefined, undefined, undefined, said(has).bike!);
  return (id: string) => bench.possible[rules.adjustments.findIndex((a) => a.id === id)]!;
};

const idOf = (adjustment: number): string => rules.adjustments[adjustment]!.id;

describe('what was said of a bike', () => {
  const front = { spring: 'air', rebound: 'one', compression: { low: 'open', high: 'none' } };
  it('names no damper knob that nobody said exists, at an end that was told of', () => {
    const can = on({ front });
    expect(can('front.rebound.low.open')).toEqual({ can: true, step: expect.anything() });
    expect(can('front.rebound.high.open')).toMatchObject({ can: false, unfit: true });
    expect(can('front.compression.high.open')).toMatchObject({
      can: false,
      why: 'this bike has no knob for the front high-speed compression',
    });
  });
  it('says to look first at an end of which nobody told, and on a bike of which nobody did', () => {
    const note =
      'Check first that the rear high-speed rebound has a knob. If there is only one rebound knob, turn that one';
    expect(on({ front })('rear.rebound.high.open')).toMatchObject({ can: true, note });
    const bare = bareBike();
    const index = rules.adjustments.findIndex((a) => a.id === 'rear.rebound.high.open');
    expect(bare.possible[index]).toMatchObject({ can: true, note });
  });
  it('says to look first for a knob of which nobody was sure, and denies one that was said not to be there', () => {
    const can = on({ rear: { rebound: 'one', compression: 'unsure' } });
    for (const id of ['rear.compression.low.open', 'rear.compression.high.close'])
      expect(can(id)).toMatchObject({ can: true, look: true });
    expect(on({ rear: { rebound: 'one', compression: 'none' } })('rear.compression.low.open')).toMatchObject({
      can: false,
    });
    const { bike } = said({ rear: { rebound: 'one', compression: 'unsure' } });
    expect(sheetFact(bike!, 'rear.compression.low')).toBeUndefined();
    expect(sheetFact(bike!, 'rear.rebound.high')).toBe('none');
  });
  it('goes no further where a knob is at its stop, by however rough a word', () => {
    const can = on({ front: { rebound: 'closed', compression: { low: 'open' } } });
    expect(can('front.rebound.low.close')).toMatchObject({
      can: false,
      why: 'it is at its stop (fully closed)',
    });
    expect(can('front.rebound.low.open')).toMatchObject({ can: true });
    expect(can('front.compression.low.open')).toMatchObject({ can: false });
    expect(can('front.compression.low.close')).toMatchObject({ can: true });
  });
  it('names a knob that was said not to be there for what speaks for it, and what the job after it waits for', () => {
    const knobless = { rebound: 'one', compression: 'none' };
    const { bike } = said({ front: knobless, rear: knobless });
    const answers = {
      complaint: 'bottoming',
      'kick-when@rear': 'end',
      'bottom-where@rear': 'fast',
      'bottoming@rear': 'hard',
      'travel-ring@rear': 'full',
      'landing@rear': 'hits',
    };
    const kase: Case = {
      id: 'x',
      answers: Object.entries(answers).map(([question, answer]) => ({ question, answer, sure: 'sure' })),
      results: [],
      earlier: [],
    };
    const bench = prepareBike(model, undefined, undefined, undefined, bike!);
    const { blocked } = consult(model, bench, kase, { next: false, explain: 0, fit: false });
    const high = blocked.find(({ adjustment }) => idOf(adjustment) === 'rear.compression.high.close');
    expect(high).toMatchObject({
      why: 'this bike has no knob for the rear high-speed compression',
      waits: {
        ask: 'lever@rear',
        why: expect.stringContaining('at the damper itself: open or closed?') as string,
      },
    });
    expect(idOf(high!.waits!.adjustment)).toBe('rear.rebuild.compression-firmer');
  });
  it('keeps to the spring that was named, and to both where none was', () => {
    expect(on({ front })('front.spring.preload-more')).toMatchObject({ can: false, unfit: true });
    expect(on({ front: { rebound: 'one' } })('front.spring.preload-more')).toMatchObject({ can: true });
    expect(on({ front: { spring: 'coil' } })('front.spring.firmer')).toMatchObject({
      can: false,
      unfit: true,
    });
  });
  it('knows a hardtail', () => {
    const can = on({ kind: 'hardtail', front });
    expect(can('rear.rebound.low.open')).toMatchObject({ can: false, unfit: true });
    expect(can('rear.tyre.softer')).toMatchObject({ can: true });
  });
  it('can be kept as the beginning of a sheet, which asks the rest', () => {
    const draft = draftOf(
      said({ kind: 'enduro', front, rear: { rebound: { low: 'middle', high: 'knob' } } }).bike!,
    );
    expect(draft).toEqual({
      bike: 1,
      kind: 'enduro',
      front: {
        spring: { kind: 'air' },
        rebound: { low: { clicks: 'unknown' } },
        compression: { low: { clicks: 'unknown', near: 'open' } },
      },
      rear: { rebound: { low: { clicks: 'unknown', near: 'middle' }, high: { clicks: 'unknown' } } },
    });
    const open = newSteps(draft).filter((s) => s.needed && valueAt(draft, s.path) === undefined);
    expect(open.map((s) => s.path)).toEqual(['id', 'units.pressure', 'rear.spring.kind']);
    const whole = {
      ...draft,
      id: 'x',
      front: { travel: 160, ...(draft['front'] as object) },
      rear: { travel: 150, spring: { kind: 'coil' }, ...(draft['rear'] as object) },
    };
    expect(readSheet(whole).problems).toEqual([]);
  });
});

describe('a knob said not to be there', () => {
  it('is not asked for again when a sheet is made of what was told', () => {
    const has = { front: { rebound: 'one', compression: 'none' } };
    const draft = draftOf(said(has).bike!, has);
    expect(valueAt(draft, 'front.compression')).toEqual({ low: 'none', high: 'none' });
    expect(valueAt(draft, 'front.rebound.high')).toBe('none');
    expect(nextStep({ ...draft, id: 'x', kind: 'trail', units: { pressure: 'psi' } })?.path).not.toBe(
      'front.compression',
    );
    expect(
      newSteps(draft)
        .filter((s) => valueAt(draft, s.path) === undefined)
        .map((s) => s.path),
    ).not.toContain('front.compression');
  });
  it('is not asked where it is set', () => {
    const bike = said({ front: { rebound: 'one', compression: 'none' } }).bike!;
    for (const id of ['comp-place@front', 'comp-place-high@front']) {
      const gates = rules.questions.find((one) => one.id === id)!.gates;
      expect(gates).toContainEqual(expect.objectContaining({ on: 'bike', values: ['knob'] }));
    }
    expect(prepareBike(model, undefined, undefined, undefined, bike).fact('front.compression.low')).toBe(
      'none',
    );
  });
});

describe('has: in a case', () => {
  const read = (data: object) =>
    readCase({ case: 1, id: 'c', answers: {}, ...data }, vocabularyOf(rules), 'c');
  it('is carried through as it was written', () => {
    const has = { front: { rebound: 'middle' } };
    expect(read({ has }).value!.has!.raw).toEqual(has);
    expect(read({}).value!.has).toBeUndefined();
  });
  it.each([
    [
      { front: { rebound: 'three' } },
      'has.front.rebound: has › front › rebound: found "three", expected one of none, one, two, unsure, closed, nearly-closed, middle, nearly-open, open, or a map.',
    ],
    [{ fornt: {} }, 'has: has: fornt is not known here.'],
    [
      { kind: 'hardtail', rear: { rebound: 'one' } },
      'has.rear: has: a hardtail has no rear suspension, so there is nothing to say of it.',
    ],
    [
      { front: { rebound: { low: 'sideways' } } },
      'has.front.rebound.low: has › front › rebound › low: found "sideways", expected one of none, knob, closed, nearly-closed, middle, nearly-open, open.',
    ],
    [3, 'has: has: found 3, expected a map.'],
  ])('is refused where it is wrong: %j', (has, message) => {
    const { value, problems } = read({ has });
    expect(value).toBeUndefined();
    expect(problems.map((p) => `${p.path.join('.')}: ${p.message}`)).toEqual([message]);
  });
  it('does not stand beside a bike sheet in one case, and gives way to one that was given', async () => {
    expect(read({ has: { front: {} }, bike: 'x.yaml' }).problems.map((p) => p.message)).toEqual([
      'has: and bike: are both there.',
    ]);
    const shop = workshop();
    const told = { case: 1, id: 'c', has: { front: { rebound: 'none' } }, answers: {} };
    shop.writeCase('c.yaml', told);
    const { err } = await shop.run('diagnose', 'c.yaml', '--bike', 'bike.yaml');
    expect(err).toContain('(has:) was not used, because the bike sheet says what is there.');
    // What an interview wrote is taken, and says nothing of it.
    shop.writeCase('kept.yaml', { ...told, bike: 'bike.yaml', interview: { about: [] } });
    expect(await shop.run('diagnose', 'kept.yaml')).toMatchObject({ code: 0, err: '' });
  });
  it('decides what is advised: the rebound knob in place of a circuit', async () => {
    const shop = workshop();
    const answers = { 'trouble-end': 'front', 'hit-pattern': 'row', 'repeated-hits.trend@front': 'worse' };
    shop.writeCase('c.yaml', { case: 1, id: 'c', has: { front: { rebound: 'one' } }, answers });
    const [told] = await shop.json('diagnose', 'c.yaml');
    expect(told.adjustments[0]).toMatchObject({
      id: 'front.rebound.low.open',
      do: 'Open the front rebound',
    });
    expect(
      JSON.stringify(told.causes.filter((c: { id: string }) => c.id.startsWith('front.rebound'))),
    ).not.toMatch(/name":"[^"]*-speed/);
  });
});
