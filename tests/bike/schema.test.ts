import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { readSheet } from '../../src/bike/form/read.ts';
import type { OwnSetting } from '../../src/bike/own-setting.ts';
import { sheetSchema, sheetSchemaWith } from '../../src/bike/form/schema.ts';
import { writeSheet } from '../../src/bike/form/write.ts';
import { EXAMPLES, exampleData, exampleSheet, withValue } from './example.ts';

describe('the schema of a bike sheet', () => {
  it.each(EXAMPLES)('takes the example %s, and what is written of it', (name) => {
    expect(sheetSchema.safeParse(exampleData(name)).error).toBeUndefined();
    expect(sheetSchema.safeParse(writeSheet(exampleSheet(name))).error).toBeUndefined();
  });

  it.each([
    ['rider-mas', 84],
    ['id', undefined],
    ['kind', 'endro'],
    ['bike', 2],
    ['units.pressure', 'atm'],
    ['rider-mass', '84 psi'],
    ['front', undefined],
    ['front.spring.kind', 'rubber'],
    ['front.spring.rate', 80],
    ['front.rebound.low', { now: 3 }],
    ['front.rebound.low.now', 7.5],
    ['front.sag.measured', 22],
    ['rear.leverage', [3, 2]],
    ['rear.curve', [{ circuit: 'rebound', speed: 1 }]],
    ['changed', [{ when: '2026-04-01' }]],
    ['front.rebound', { low: { clicks: 'many' } }],
    ['front.rebound.low.near', 'sideways'],
    ['front.sag.rider', 'lying'],
    ['front.lever', 'open'],
  ])('and the reader both refuse %s: %j', (path, value) => {
    const raw = withValue(path, value);
    expect(readSheet(raw).sheet).toBeUndefined();
    expect(sheetSchema.safeParse(raw).success).toBe(false);
  });

  it.each([
    ['rider-mass', -84],
    ['rear', undefined],
    ['rear.spring', undefined],
    ['kind', 'hardtail'],
  ])('leaves to the reader what hangs on more than the form: %s: %j', (path, value) => {
    const raw = withValue(path, value);
    expect(readSheet(raw).sheet).toBeUndefined();
    expect(sheetSchema.safeParse(raw).success).toBe(true);
  });

  it.each([
    ['rear.tyre.now', '1.8BAR'],
    ['rider-mass', '190 lbs'],
    ['front.travel', '6,5 "'],
    ['front.rebound.high', 'none'],
    ['front.sag.measured', 0.22],
    ['front.sag.measured', '22,5 %'],
    ['id', 7],
    ['kind', 'e-bike'],
    ['front.rebound', { clicks: 20, now: 4 }],
    ['front.rebound', 'none'],
    ['front.rebound.high', { clicks: 'unknown', near: 'middle' }],
    ['front.sag.kit', 'with'],
  ])('and the reader both take %s: %j', (path, value) => {
    const raw = withValue(path, value);
    expect(readSheet(raw).problems).toEqual([]);
    expect(sheetSchema.safeParse(raw).error).toBeUndefined();
  });

  it('takes a hardtail, with or without a word about its rear', () => {
    const { rear: _, ...front } = exampleData('few-knobs');
    for (const rear of [{}, { rear: { tyre: { now: 1.8 } } }]) {
      const raw = { ...front, kind: 'hardtail', ...rear };
      expect(readSheet(raw).problems).toEqual([]);
      expect(sheetSchema.safeParse(raw).error).toBeUndefined();
    }
  });

  it.each([
    ['bottom-out', { clicks: 4, now: 2 }, true],
    ['bottom-out', 'none', true],
    ['bottom-out', 'open', false],
    ['lever', 'open', true],
    ['lever', { now: 'closed', positions: ['closed', 'open'] }, true],
    ['lever', 3, false],
  ])('knows what packs add: %s %j', (key, value, good) => {
    const own = (name: string, more: object) => ({
      ...{ id: `front.${name}`, end: 'front', key: name, words: name, grain: 1, stale: [], find: '' },
      ...more,
    });
    const settings = [
      own('bottom-out', { unit: 'clicks', range: [1, 20] }),
      own('lever', { unit: 'positions', positions: ['closed', 'open'], range: [0, 1] }),
    ] as unknown as OwnSetting[];
    const raw = withValue(`front.${key}`, value);
    expect(readSheet(raw, settings).sheet !== undefined).toBe(good);
    expect(sheetSchemaWith(settings).safeParse(raw).success).toBe(good);
  });

  it('becomes a JSON Schema that tells an editor what each key means', () => {
    const schema = z.toJSONSchema(sheetSchema, { io: 'input' });
    expect(schema).toMatchObject({
      title: 'Bike sheet',
      additionalProperties: false,
      required: ['bike', 'id', 'kind', 'front'],
      properties: {
        'rider-mass': {
          description: "the rider with kit; a plain number is in the sheet's unit, or e.g. 5 kg",
        },
        front: { required: ['spring'], additionalProperties: false },
      },
    });
  });
});
