import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { checked } from '../../src/form/checked.ts';
import { taught } from '../../src/form/teach.ts';

const form = z.strictObject({
  name: taught(z.string(), 'Give it a name.'),
  how: z.enum(['one', 'two']).nullish(),
  list: z.array(z.strictObject({ size: z.number().min(1).max(9) })).nullish(),
  part: z
    .union([
      z.literal('none'),
      z.strictObject({ clicks: z.int() }),
      z.strictObject({ low: z.int().nullish() }),
    ])
    .nullish(),
  spring: z
    .discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('air'), pressure: z.number() }),
      z.strictObject({ kind: z.literal('coil'), rate: z.number() }),
    ])
    .nullish(),
});
const told = (data: unknown): string[] =>
  checked(data, form).problems.map(
    ({ path, key, message, remedy }) =>
      `${[...path, ...(key === undefined ? [] : [key])].join('.')} | ${message} ${remedy}`,
  );

describe('data checked against a form', () => {
  it('has every mistake told at once, each at its place', () => {
    expect(told({ how: 'tow', list: [{ size: 0 }, { size: 10 }, 3], nmae: 'x' })).toEqual([
      ' | the file: name is missing. Give it a name.',
      'how | how: found "tow", expected one of one, two. Did you mean two?',
      'list.0.size | list › entry 1 › size: found 0, expected 1 or more. Write the value in that form.',
      'list.1.size | list › entry 2 › size: found 10, expected at most 9. Write the value in that form.',
      'list.2 | list › entry 3: found 3, expected a map. Write the value in that form.',
      'nmae | the file: nmae is not known here. Did you mean name?',
    ]);
  });
  it.each([
    [{ lo: 3 }, 'part.lo | part: lo is not known here. Did you mean low?'],
    [{ clicks: 'x' }, 'part.clicks | part › clicks: found "x", expected a number.'],
    [{ clicks: 1.5 }, 'part.clicks | part › clicks: found 1.5, expected a whole number.'],
    [7, 'part | part: found 7, expected none, or a map.'],
    ['nnoe', 'part | part: found "nnoe", expected none, or a map. Did you mean none?'],
    ['x', 'part | part: found "x", expected none, or a map. Write the value in that form.'],
  ])('is told what is wrong with the branch that was meant: %j', (part, message) => {
    const [line, ...others] = told({ name: 'x', part });
    expect(others).toEqual([]);
    expect(line).toContain(message);
  });
  it.each([
    [{ pressure: 3 }, 'spring | spring: kind is missing. Add kind: one of air, coil.'],
    [
      { kind: 'cole', rate: 3 },
      'spring.kind | spring › kind: found "cole", expected one of air, coil. Did you mean coil?',
    ],
    [
      { kind: 'air', pressure: 3, rate: 3 },
      'spring.rate | spring: rate is not known here. Known keys: kind, pressure.',
    ],
  ])('is told what kinds there are: %j', (spring, message) => {
    expect(told({ name: 'x', spring })).toEqual([message]);
  });
  it('gives what is sound of it, each entry of a list in its place', () => {
    const data = { name: 3, list: [{ size: 0 }, 'x', { size: 2 }], how: 'one' };
    expect(checked(data, form).sound).toEqual({
      name: undefined,
      list: [{ size: undefined }, undefined, { size: 2 }],
      how: 'one',
    });
    expect(data.name).toBe(3);
    expect(checked('x', form).sound).toBeUndefined();
    expect(checked({ name: 'x' }, form)).toEqual({ good: true, sound: { name: 'x' }, problems: [] });
  });
  it('counts what nobody would read', () => {
    const lines = told({ name: 'x', list: Array.from({ length: 900 }, () => 3) });
    expect(lines).toHaveLength(201);
    expect(lines[200]).toContain('700 more problems are not listed.');
  });
  it('takes an inherited property for none, and lets no odd letter through', () => {
    const sly: unknown = JSON.parse('{"name":"x","__proto__":{"how":"two"},"\\u001b[2J":1}');
    const messages = checked(sly, form).problems.map(({ message }) => message);
    expect(messages).toHaveLength(2);
    expect(messages.join('')).not.toContain('\u001b');
  });
});
