import { describe, expect, it } from 'vitest';
import { readSheet } from '../../src/bike/form/read.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { vocabularyOf, type Case } from '../../src/casework/case.ts';
import { consult } from '../../src/casework/consult.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { begin } from '../../src/interview/session.ts';
import { toCaseFile } from '../../src/interview/state.ts';
import { evidenceText } from '../../src/report/evidence-words.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { exampleData, exampleSheet } from '../bike/example.ts';
import { baseModel, bareBike } from '../support/base-rules.ts';

const vocabulary = vocabularyOf(baseModel().rules);
const read = (answers: Record<string, unknown>, sheet?: BikeSheet, has?: object) =>
  readCase({ case: 1, id: 'gauge', answers, ...(has && { has }) }, vocabulary, 'case.yaml', sheet);
const value = (answers: Record<string, unknown>): Case => {
  const { value: kase, problems } = read(answers);
  if (kase === undefined) throw new Error(problems.map((p) => p.message).join(' '));
  return kase;
};

describe('a number in a case', () => {
  it.each([
    ['sag@rear', { measured: '43 %', target: '30 %' }, 'more'],
    ['sag@rear', { measured: '26/60 mm' }, 'more'],
    ['sag@rear', { measured: 27 }, 'target'],
    ['sag@rear', { measured: '31 %', target: '33 to 35 %' }, 'less'],
    ['sag@front', { measured: '27 %' }, 'more'],
    ['tyre-target@front', { measured: '2.4 bar', target: '25 psi' }, 'over'],
    ['tyre-target@rear', { measured: '25 psi', target: '25 psi' }, 'target'],
    ['tyre-number@rear', { measured: '1.6 bar', target: '29 psi' }, 'under'],
    ['preload-place@rear', { measured: '150 psi', target: '180 psi' }, 'under'],
  ] as const)('%s: %j is an answer', (question, given, answer) => {
    expect(value({ [question]: given }).answers[0]).toMatchObject({ question, answer, sure: 'sure' });
  });
  // Usual at the front is 15 to 20 %, at the rear 25 to 30 %, and 2 points off still count: figures of the pack.
  it.each([
    ['sag@front', '17 %', 'target', 'sure'],
    ['sag@front', '20.5 %', 'target', 'fairly'],
    ['sag@front', '22 %', 'target', 'guess'],
    ['sag@rear', '23.2 %', 'target', 'guess'],
    ['sag@rear', '32.2 %', 'more', 'guess'],
    ['sag@rear', '32.9 %', 'more', 'fairly'],
    ['sag@rear', '34 %', 'more', 'sure'],
  ])('%s %s, held against what is usual, is %s, and %s of it', (question, measured, answer, sure) => {
    expect(value({ [question]: { measured } }).answers[0]).toMatchObject({ answer, sure });
    // Of a target that somebody names all of the room around it is what a ring is off by.
    expect(value({ [question]: { measured, target: '17 %' } }).answers[0]).toMatchObject({ sure: 'sure' });
    expect(value({ [question]: { measured, sure: 'sure' } }).answers[0]).toMatchObject({ sure: 'sure' });
  });
  it('clears a spring the less, the nearer it lies to the edge of what is usual', () => {
    const wishes = { next: false, explain: 0, fit: false };
    const soft = baseModel().rules.causes.findIndex(({ id }) => id === 'front.spring.too-soft');
    const [mid, off, edge] = ['17 %', '20.8 %', '22 %'].map((measured) => {
      const kase = value({ 'bottoming@front': 'hard', 'sag@front': { measured } });
      return consult(baseModel(), bareBike(), kase, wishes).belief.causes[soft]!;
    });
    expect(off!).toBeGreaterThan(1.5 * mid!);
    expect(edge!).toBeGreaterThan(1.5 * off!);
  });
  it('counts as the answer that it is, as sure as it is said to be', () => {
    const number = value({ 'sag@rear': { measured: '43 %', sure: 'fairly' } });
    const word = value({ 'sag@rear': { answer: 'more', sure: 'fairly' } });
    const wishes = { next: false, explain: 0, fit: false };
    const [a, b] = [number, word].map((kase) => consult(baseModel(), bareBike(), kase, wishes));
    expect(a!.belief.causes).toEqual(b!.belief.causes);
  });
  it('is told beside the answer in the result', () => {
    const kase = value({ 'sag@rear': { measured: '26/60 mm' } });
    const c = consult(baseModel(), bareBike(), kase, { next: false, explain: 3, fit: false });
    const { causes } = toResult(baseModel(), kase, c);
    const told = causes.flatMap(({ evidence }) => evidence).find(({ question }) => question === 'sag@rear')!;
    expect(told).toMatchObject({ answer: 'more', measured: '43.3 %' });
    expect(evidenceText(baseModel().rules, told, 'mechanic')).toMatch(/Too much sag \(43\.3 %\)$/);
  });
  it('is written as it is read', () => {
    const given = {
      'sag@rear': { measured: '43.3 %', target: '28 to 32 %' },
      'sag@front': { measured: '7/120 mm', target: '13 to 22 %', at: '5.9 bar' },
      'tyre-target@front': { measured: '2.4 bar', target: '1.22 to 2.03 bar', sure: 'guess' },
      'bottoming@rear': 'hard',
    };
    const [state] = begin(baseModel(), bareBike(), value(given));
    expect(toCaseFile(state)['answers']).toEqual(given);
  });
  it('keeps the rate of a coil beside a sag', () => {
    const given = { 'sag@rear': { measured: '23/60 mm', target: '23 to 32 %', at: '450 lb/in' } };
    const kase = value(given);
    expect(kase.answers[0]!.measured!.at).toMatchObject({ unit: 'lb/in' });
    const [state] = begin(baseModel(), bareBike(), kase);
    expect(toCaseFile(state)['answers']).toEqual(given);
  });
  it.each([
    ['sag@rear', { measured: '95 %' }, 'measured', /^95 % cannot be a sag/],
    ['sag@rear', { measured: '20 mm' }, 'measured', /^20 mm of how much\?/],
    ['sag@rear', { measured: '30 %', target: 'as ever' }, 'target', /^as ever is not a sag/],
    ['tyre-target@front', { measured: '2.4 bar' }, 'target', /does not say what the number is held against/],
    ['hands', { measured: '3' }, 'measured', /^hands takes no number/],
    ['sag@rear', { measured: true }, 'measured', /true/],
    ['sag@rear', { measured: '30 %', at: 'as ever' }, 'at', /^as ever is not a spring pressure/],
    [
      'tyre-target@front',
      { measured: '2 bar', target: '2 bar', at: '80 psi' },
      'at',
      /Only a sag is read at a pressure/,
    ],
  ] as const)('%s: %j is told at its place', (question, given, key, message) => {
    const { problems } = read({ [question]: given });
    expect(problems).toHaveLength(1);
    expect(problems[0]!.path.slice(0, 2)).toEqual(['answers', question]);
    expect(problems[0]!.message).toMatch(message);
    if (typeof given.measured === 'string') expect(problems[0]!.path.at(-1)).toBe(key);
  });
});

describe('a number in a case on a bike with a sheet', () => {
  const data = exampleData('all-knobs');
  const rear = data['rear'] as object;
  const sheet = readSheet({ ...data, rear: { ...rear, stroke: 60, sag: { wanted: '35%' } } }).sheet!;
  const first = (answers: Record<string, unknown>, of: BikeSheet) => read(answers, of).value?.answers[0];

  it('is held against its own target, in every round', () => {
    expect(first({ 'sag@rear': { measured: '34 %' } }, sheet)).toMatchObject({
      answer: 'target',
      measured: { value: 0.34, unit: '%' },
    });
    expect(first({ 'sag@rear': { measured: '29 %' } }, sheet)).toMatchObject({ answer: 'less' });
    const round = { answers: { 'sag@rear': { measured: '29 %' } } };
    const longer = readCase({ case: 1, answers: {}, earlier: [round] }, vocabulary, 'case.yaml', sheet);
    expect(longer.value!.earlier[0]!.answers[0]).toMatchObject({ answer: 'less' });
  });
  it('is held against the target that is told all the same', () => {
    const given = { 'sag@rear': { measured: '29 %', target: '29 %' } };
    expect(first(given, sheet)).toMatchObject({ answer: 'target' });
  });
  it('of a tyre is held against what is usual for the rider where the sheet has no target', () => {
    const { tyre: _, ...front } = data['front'] as { readonly tyre: unknown };
    const bare = readSheet({ ...data, front }).sheet!;
    expect(first({ 'tyre-target@front': { measured: '14 psi' } }, bare)).toMatchObject({ answer: 'under' });
    const { riderMass: __, ...unweighed } = bare;
    const { problems } = read({ 'tyre-target@front': { measured: '14 psi' } }, unweighed);
    expect(problems[0]!.message).toMatch(/does not say what the number is held against/);
  });
  it('may be a length alone, of the stroke on the sheet', () => {
    expect(first({ 'sag@rear': { measured: '21 mm' } }, sheet)).toMatchObject({
      answer: 'target',
      measured: { value: 0.35, unit: '%' },
    });
  });
  it('is no pressure of a coil, on a sheet or said to be there', () => {
    const given = { 'preload-place@rear': { measured: '150 psi', target: '180 psi' } };
    const coil = exampleSheet('coil');
    for (const { problems } of [read(given, coil), read(given, undefined, { rear: { spring: 'coil' } })])
      expect(problems).toEqual([
        expect.objectContaining({
          path: ['answers', 'preload-place@rear', 'measured'],
          message: 'The rear has a coil spring; it has no pressure.',
          remedy: expect.stringMatching(/^Write the id of an answer/),
        }),
      ]);
    expect(read({ 'preload-place@rear': 'under' }, coil).problems).toEqual([]);
    expect(read({ 'sag@rear': { measured: '31 %' } }, coil).problems).toEqual([]);
  });
});

describe('a gauge that cannot be read', () => {
  const { rules } = baseModel();
  const first = (answers: Record<string, string>) => {
    const wishes = { next: false, explain: 0, fit: false };
    const { advice } = consult(baseModel(), bareBike(), value(answers), wishes);
    return { id: rules.adjustments[advice.first!]!.id, because: advice.because, why: advice.insteadOf?.why };
  };
  const low = {
    'ride-height@rear': 'low',
    'row-ride@rear': 'worse',
    experience: 'faster',
    'turn-phase': 'exit',
  };

  it('is waited for until it was asked, and then what needs none goes first, if it is no mere guess', () => {
    expect(first(low)).toMatchObject({ id: 'rear.sag.measure', because: 'measure-first' });
    expect(first({ ...low, 'sag@rear': 'cannot-tell' })).toEqual({
      id: 'rear.rebound.low.open',
      because: 'held-back',
      why: expect.stringMatching(/^it needs a measurement first, and that could not be taken: Rear sag/),
    });
  });
  it('still comes first where everything likely needs it', () => {
    const deep = { 'ride-height@rear': 'low', 'bottoming@rear': 'hard', 'sag@rear': 'cannot-tell' };
    expect(first(deep)).toMatchObject({ id: 'rear.sag.measure', because: 'measure-first' });
  });
});
