import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSheet } from '../../src/bike/form/read.ts';
import { EXAMPLES, exampleData, exampleSheet, told, withValue } from './example.ts';

describe('the example sheets', () => {
  it.each(EXAMPLES)('%s is read without a word', (name) => {
    const { sheet, problems } = readSheet(exampleData(name));
    expect(problems).toEqual([]);
    expect(sheet).toBeDefined();
  });

  it('reads every field into SI', () => {
    expect(exampleSheet('coil')).toEqual({
      id: 'larch',
      name: 'the larch bike',
      kind: 'downhill',
      units: { pressure: 'bar', mass: 'lb', rate: 'lb/in', length: 'mm' },
      riderMass: expect.closeTo(86.1826, 4), // 190 · 0.45359237
      bikeMass: expect.closeTo(16.7829, 4),
      geometry: { wheelbase: expect.closeTo(1.27, 9), headAngle: 63 },
      ends: {
        front: {
          travel: expect.closeTo(0.2, 9),
          spring: {
            kind: 'air',
            pressure: expect.closeTo(620_000, 3),
            pressureMin: expect.closeTo(400_000, 3),
            pressureMax: expect.closeTo(900_000, 3),
            spacers: 3,
            spacersMax: 6,
          },
          sagMeasured: 0.18,
          sagWanted: 0.18,
          adjusters: {
            'rebound.low': { range: 18, now: 10, maker: 9 },
            'rebound.high': { range: 10, now: 6, maker: 5 },
            'compression.low': { range: 18, now: 9, maker: 9 },
            'compression.high': { range: 10, now: 5, maker: 5 },
          },
          tyre: { now: expect.closeTo(172_368.93, 1), wanted: expect.closeTo(165_474.18, 1) },
        },
        rear: {
          travel: expect.closeTo(0.2, 9),
          stroke: expect.closeTo(0.075, 9),
          leverage: [3, 2.7, 2.4],
          spring: {
            kind: 'coil',
            rate: expect.closeTo(65_672.56, 1), // 375 · 0.45359237 · 9.80665 / 0.0254
            preload: expect.closeTo(0.001, 9),
            preloadMax: expect.closeTo(0.003, 9),
            preloadPerTurn: expect.closeTo(0.001, 9),
          },
          sagMeasured: 0.31,
          sagWanted: 0.3,
          adjusters: {
            'rebound.low': { range: 18, now: 14, maker: 9 },
            'rebound.high': { range: 10, now: 9, maker: 5 },
            'compression.low': { range: 18, now: 9, maker: 9 },
            'compression.high': { range: 10, now: 5, maker: 5 },
          },
          curve: expect.arrayContaining([{ circuit: 'rebound', speed: 0.1, force: 526, low: 9, high: 5 }]),
          tyre: { now: expect.closeTo(193_053.2, 1), wanted: expect.closeTo(186_158.45, 1) },
        },
      },
      cockpit: { spacersUnderStem: expect.closeTo(0.01, 9), leverAngle: 25 },
    });
  });

  it('reads a quantity with its own unit beside plain ones', () => {
    const spring = exampleSheet('all-knobs').ends.rear.spring;
    expect(spring).toMatchObject({
      pressureMin: expect.closeTo(689_475.73, 1),
      pressureMax: expect.closeTo(2_070_000, 3),
    });
  });

  it('takes a circuit written none, or left out, as one without a knob', () => {
    const { sheet } = readSheet(withValue('front.rebound.high', 'none'));
    expect(Object.keys(sheet!.ends.front.adjusters)).toEqual([
      'rebound.low',
      'compression.low',
      'compression.high',
    ]);
    expect(Object.keys(exampleSheet('few-knobs').ends.rear.adjusters)).toEqual(['rebound.low']);
  });

  it('reads the least a sheet can say', () => {
    const least = { bike: 1, id: 7, kind: 'trail', front: END, rear: END };
    expect(readSheet(least)).toEqual({
      problems: [],
      sheet: {
        id: '7',
        kind: 'trail',
        units: { pressure: 'psi', mass: 'kg', rate: 'N/mm', length: 'mm' },
        ends: {
          front: { travel: 0.15, spring: { kind: 'air' }, adjusters: {} },
          rear: { travel: 0.15, spring: { kind: 'air' }, adjusters: {} },
        },
      },
    });
  });

  it('puts the newest change first when all are dated', () => {
    const changed = [
      { what: 'grips', when: '2026-03-01' },
      { what: 'bar', when: '2026-04-01' },
    ];
    expect(readSheet(withValue('changed', changed)).sheet!.changed!.map((c) => c.what)).toEqual([
      'bar',
      'grips',
    ]);
  });
});

const END = { travel: 150, spring: { kind: 'air' } };

describe('what is wrong with a sheet', () => {
  it.each([
    [
      'an unknown key',
      'rider-mas',
      84,
      ' error: A bike sheet: rider-mas is not known here. Did you mean rider-mass?',
    ],
    [
      'no id',
      'id',
      undefined,
      ' error: A bike sheet: id is missing. Give the bike a short name: id: park-bike.',
    ],
    [
      'an id of control characters',
      'id',
      'a\u001B[31m',
      'id error: id: "a�[31m": it holds control characters. Give the bike a short name: id: park-bike.',
    ],
    [
      'an id that is a map',
      'id',
      {},
      'id error: id: found a map, expected a number, or a text. Give the bike a short name: id: park-bike.',
    ],
    [
      'an empty id',
      'id',
      ' ',
      'id error: id: " ": there is nothing in it. Give the bike a short name: id: park-bike.',
    ],
    [
      'an unknown kind',
      'kind',
      'endro',
      'kind error: kind: found "endro", expected one of hardtail, cross-country, trail, enduro, downhill, e-bike. Did you mean enduro?',
    ],
    [
      'an unknown unit',
      'units.pressure',
      'bars',
      'units.pressure error: units › pressure: found "bars", expected one of psi, bar, kPa. Did you mean bar?',
    ],
    [
      'NaN',
      'rider-mass',
      Number.NaN,
      'rider-mass error: rider-mass: found NaN, expected a number, or a text. Write a number, or one with its unit: 5 kg.',
    ],
    [
      'a negative mass',
      'rider-mass',
      -84,
      'rider-mass error: rider-mass is -84; no bike goes outside 20 to 250 kg. Check the number and its unit.',
    ],
    [
      'an absurd mass',
      'rider-mass',
      840,
      'rider-mass error: rider-mass is 840; no bike goes outside 20 to 250 kg. Check the number and its unit.',
    ],
    [
      'a unit of something else',
      'rider-mass',
      '84 psi',
      'rider-mass error: rider-mass: "84 psi": the unit psi does not fit; use kg, lb. Write a number, or one with its unit: 5 kg.',
    ],
    [
      'a list for a quantity',
      'bike-mass',
      [1],
      'bike-mass error: bike-mass: found a list, expected a number, or a text. Write a number, or one with its unit: 5 kg.',
    ],
    [
      'a text for a number',
      'geometry.head-angle',
      'slack',
      'geometry.head-angle error: geometry › head-angle: found "slack", expected a number. Write a number from 55 to 80.',
    ],
    [
      'no end',
      'rear',
      undefined,
      ' error: A bike sheet: rear is missing. Write rear: with travel, spring, rebound and compression below it.',
    ],
    [
      'a change of nothing',
      'changed',
      [{ when: '2026-04-01' }],
      'changed.0 error: changed › entry 1: what is missing. Write what: new bar.',
    ],
    [
      'changes that are no list',
      'changed',
      'bar',
      'changed error: changed: found "bar", expected a list. Write - { what: new bar, when: 2026-04-01 }.',
    ],
  ])('refuses %s', (_, path, value, message) => {
    const { sheet } = readSheet(withValue(path, value));
    expect(sheet).toBeUndefined();
    expect(told(withValue(path, value))).toEqual([message]);
  });

  it.each([
    [
      'a date that is none',
      'changed',
      [{ what: 'bar', when: '2026-02-30' }],
      'changed.0.when warning: changed › entry 1: when: 2026-02-30 is not a date. Write year-month-day: 2026-04-01.',
    ],
  ])('warns of %s and still gives the sheet', (_, path, value, message) => {
    const raw = withValue(path, value);
    expect(told(raw)).toEqual([message]);
    expect(readSheet(raw).sheet).toBeDefined();
  });

  it.each(['travel', 'stroke', 'leverage', 'sag', 'travel-used', 'curve'])(
    'does not pass over a rear %s that is none where there is a suspension',
    (key) => {
      const raw = withValue(`rear.${key}`, 'none');
      expect(readSheet(raw).sheet).toBeUndefined();
      expect(told(raw)).toEqual([
        `rear.${key} error: rear: ${key} is none, which only an end without suspension has. Leave ${key}: out where nobody knows it, or write kind: hardtail.`,
      ]);
    },
  );

  it('tells no more than anyone reads, in warnings too, and then still gives the sheet', () => {
    const changed = Array.from({ length: 300 }, () => ({ what: 'bar', when: 'once' }));
    const { sheet, problems } = readSheet(withValue('changed', changed));
    expect(sheet?.changed).toHaveLength(300);
    expect(problems).toHaveLength(201);
    expect(problems.at(-1)).toMatchObject({
      severity: 'warning',
      message: '100 more problems are not listed.',
    });
  });

  it('tells all of it at once', () => {
    const bad = {
      bike: 1,
      kind: 'x',
      front: { travel: -3, spring: 3, rebound: { low: { clicks: 4, now: 5 } } },
    };
    expect(readSheet(bad).problems.map((p) => p.path.join('.'))).toEqual([
      '', // id
      'kind',
      'front.spring',
      'front.travel',
      'front.rebound.low.now',
      '', // rear
    ]);
  });

  it('refuses a newer format with one line, whatever else is in it', () => {
    expect(told({ bike: 2, wheels: 3 })).toEqual([
      'bike error: This bike sheet has format 2; this program reads format 1. Update earshot, or write it again with this version.',
    ]);
  });

  it.each([
    [undefined, ' error: A bike sheet: bike is missing.'],
    ['1', 'bike error: bike: found "1", expected 1.'],
  ])('asks for the format number when it is %s', (bike, message) => {
    expect(told(withValue('bike', bike))).toEqual([
      `${message} Write bike: 1 (the number of the format) on the first line.`,
    ]);
  });

  it.each([null, undefined, 3, 'park-bike', []])('refuses %j, which is no sheet at all', (raw) => {
    const { sheet, problems } = readSheet(raw);
    expect(sheet).toBeUndefined();
    expect(problems).toHaveLength(1);
    expect(problems[0]!.message).toMatch(/^A bike sheet: (found .*, expected a map|bike is missing)\.$/);
  });

  it.each([
    { case: 1, bike: 'park.yaml', answers: {} },
    { case: 1, answers: {} },
  ])('says of saved answers what they are, and nothing else: %j', (raw) => {
    const { sheet, problems } = readSheet(raw);
    expect(sheet).toBeUndefined();
    expect(problems.map(({ message, remedy }) => `${message} ${remedy}`)).toEqual([
      'These are saved answers, not a bike sheet. Give them as the case: earshot diagnose FILE.',
    ]);
  });

  it('does not take an inherited property for a key', () => {
    const sly = JSON.parse('{"bike":1,"id":"a","kind":"trail","__proto__":{"front":{}}}');
    expect(readSheet(sly).problems.map((p) => p.message)).toContain('A bike sheet: front is missing.');
  });

  it('answers anything without throwing, with a sheet or with an error but never both or neither', () => {
    const paths = fc.constantFrom(
      'bike',
      'id',
      'units',
      'front',
      'front.spring',
      'front.rebound.low',
      'rear.sag',
      'rear.curve',
      'changed',
    );
    const values = fc.oneof(fc.anything(), fc.jsonValue(), fc.constantFrom(null, 0, -1, '80 psi', '%', [{}]));
    fc.assert(
      fc.property(
        fc.oneof(
          values,
          fc.tuple(paths, values).map(([path, value]) => withValue(path, value)),
        ),
        (raw) => {
          const { sheet, problems } = readSheet(raw);
          expect(sheet === undefined).toBe(problems.some((p) => p.severity === 'error'));
          expect(problems.every((p) => p.message.length < 400 && p.remedy.length > 0)).toBe(true);
        },
      ),
    );
  });
});
