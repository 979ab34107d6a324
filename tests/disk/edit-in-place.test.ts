import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { Edit } from '../../src/bike/form/edit-file.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import type { BikeSheet } from '../../src/bike/sheet.ts';
import { standsOf, withStands } from '../../src/bike/setting-values.ts';
import { editedInPlace } from '../../src/disk/edit-in-place.ts';
import { editedText } from '../../src/workspace/bikes/sheet-text.ts';

const ORDER = ['travel', 'spring', 'rebound', 'tyre', 'clicks', 'now', 'maker', 'wanted'];
const edit = (text: string, ...edits: Edit[]): string | undefined =>
  editedInPlace(text, edits, () => ORDER, false);

describe('a value put into a text', () => {
  const ODD = [
    'rear:   # the back',
    '    travel:    200',
    '    low:   {clicks: 18,',
    '            now: 14,  # counted twice',
    '            maker: [ 9,   10 ] }',
    '    tyre: "25 psi"   # warm',
    '',
    '',
    'note: >',
    '  folded',
    '  text',
    '',
  ].join('\n');

  it.each([
    [['rear', 'travel'], 190, '    travel:    190'],
    [['rear', 'low', 'now'], 12, '            now: 12,  # counted twice'],
    [['rear', 'low', 'maker'], [7, 8.5], '            maker: [7, 8.5] }'],
    [['rear', 'tyre'], '26 psi', '    tyre: 26 psi   # warm'],
    [['rear', 'tyre'], 'a: b, c', '    tyre: "a: b, c"   # warm'],
  ])('changes no other letter: %s', (path, value, line) => {
    const after = edit(ODD, { path, value })!.split('\n');
    const before = ODD.split('\n');
    expect(after.filter((one, i) => one !== before[i])).toEqual([line]);
    expect(after).toHaveLength(before.length);
  });

  it('changes several at once', () => {
    const after = edit(
      ODD,
      { path: ['rear', 'travel'], value: 1 },
      { path: ['rear', 'low', 'now'], value: 222 },
      { path: ['rear', 'low', 'clicks'], value: 3 },
    );
    expect(after).toBe(
      ODD.replace('200', '1').replace('now: 14', 'now: 222').replace('clicks: 18', 'clicks: 3'),
    );
  });

  it.each([
    ['tyre: { wanted: 2 } # x\n', ['tyre', 'now'], 'tyre: { now: 5, wanted: 2 } # x\n'],
    ['tyre: {clicks: 2}\n', ['tyre', 'now'], 'tyre: {clicks: 2, now: 5}\n'],
    ['tyre: {}\n', ['tyre', 'now'], 'tyre: { now: 5 }\n'],
    ['tyre:\n  now: # not read\n', ['tyre', 'now'], undefined],
    ['tyre:\n  now:\n', ['tyre', 'now'], 'tyre:\n  now: 5\n'],
    [
      'tyre:\n   clicks: 2  # x\n   wanted: 3',
      ['tyre', 'now'],
      'tyre:\n   clicks: 2  # x\n   now: 5\n   wanted: 3',
    ],
    ['tyre:\n  wanted: 3\n', ['tyre', 'now'], 'tyre:\n  now: 5\n  wanted: 3\n'],
    ['a: 1\r\ntravel: 3', ['now'], 'a: 1\r\ntravel: 3\r\nnow: 5'],
    [
      'rebound:\n  low:\n    now: 1 # x\nnote: n\n',
      ['tyre'],
      'rebound:\n  low:\n    now: 1 # x\ntyre: 5\nnote: n\n',
    ],
  ])('finds the place of a new key: %j', (text, path, after) => {
    const edited = edit(text, { path, value: 5 });
    // What cannot be read again as it was meant is found by whoever asked.
    if (after === undefined) expect(parse(edited ?? '')?.tyre?.now).not.toBe(5);
    else expect(edited).toBe(after);
  });

  it.each([
    ['tyre: { now: 5, wanted: 2 } # x\n', ['tyre', 'now'], 'tyre: { wanted: 2 } # x\n'],
    ['tyre: {wanted: 2,  now: 5}\n', ['tyre', 'now'], 'tyre: {wanted: 2}\n'],
    [
      'rear:\n  now: 5 # x\n  # y\n  tyre:\n    now: 1\n',
      ['rear', 'now'],
      'rear:\n  # y\n  tyre:\n    now: 1\n',
    ],
    ['a: 1\nrear:\n  tyre:\n    now: 1\nb: 2', ['rear'], 'a: 1\nb: 2'],
    ['a: 1\nb: 2', ['b'], 'a: 1\n'],
    ['tyre: { now: 5 }\n', ['tyre', 'now'], undefined],
  ])('takes a key out: %j', (text, path, after) => {
    expect(edit(text, { path })).toBe(after);
  });

  it('gives up on what it cannot do in place', () => {
    expect(edit(ODD, { path: ['note'], value: 'x' })).toBeUndefined();
    expect(edit(ODD, { path: ['front', 'travel'], value: 1 })).toBeUndefined();
  });
});

/** Lines of one text that the other has not. */
function lost(one: string, other: string): number {
  const there = other.split('\n');
  return one.split('\n').filter((line) => {
    const at = there.indexOf(line);
    if (at >= 0) there.splice(at, 1);
    return at < 0;
  }).length;
}

describe('a sheet after a change', () => {
  const sheets = ['all-knobs', 'few-knobs', 'coil'].map((name) => {
    const text = readFileSync(`examples/bikes/${name}.yaml`, 'utf8');
    return { text, sheet: readSheet(parse(text)).sheet! };
  });

  it('differs in the lines of what changed only, and reads as what was meant', () => {
    const anything = fc.constantFrom(...sheets).chain(({ text, sheet }) =>
      fc.record({
        text: fc.constant(text),
        sheet: fc.constant(sheet),
        stand: fc.constantFrom(...standsOf(sheet).filter(({ unit }) => unit === 'clicks')),
        to: fc.integer({ min: 0, max: 8 }),
      }),
    );
    fc.assert(
      fc.property(anything, ({ text, sheet, stand, to }) => {
        const after = withStands(sheet, [{ ...stand, value: to }]).sheet;
        const edited = editedText(text, sheet, after, 'b.yaml');
        // The travel that the hardest run used is of the setting it was ridden with, and goes with it.
        const known = (of: string): number => of.split('travel-used').length - 1;
        const gone = known(text) - known(edited);
        expect(lost(text, edited)).toBe((stand.value === to ? 0 : 1) + gone);
        expect(lost(edited, text)).toBe(stand.value === to ? 0 : 1);
        expect(readSheet(parse(edited)).sheet).toEqual(after);
      }),
    );
  });

  it('keeps the form of a JSON sheet too', () => {
    const { sheet } = sheets[0]!;
    const text =
      '{"bike": 1, "id": "j", "kind": "trail",\n  "front": {"travel": 170, "spring": {"kind": "air"},  "rebound": {"low": {"clicks": 9, "now": 4}}},\n  "rear": {"travel": 170, "spring": {"kind": "air"}}}\n';
    const before = readSheet(JSON.parse(text)).sheet!;
    const after: BikeSheet = withStands(before, [
      { setting: 'front.rebound.low', value: 5, unit: 'clicks' },
    ]).sheet;
    expect(editedText(text, before, after, 'j.json')).toBe(text.replace('"now": 4', '"now": 5'));
    const tyre = {
      ...before,
      ends: { ...before.ends, rear: { ...before.ends.rear, tyre: sheet.ends.rear.tyre } },
    };
    const edited = editedText(text, before, tyre as BikeSheet, 'j.json');
    expect(JSON.parse(edited).rear.tyre).toMatchObject({ now: expect.any(Number) });
    expect(edited.split('\n').slice(0, 2)).toEqual(text.split('\n').slice(0, 2));
  });

  it('writes a sheet with anchors anew rather than wrongly', () => {
    const text =
      'bike: 1\nid: a\nkind: trail\nfront: { travel: 170, spring: &s { kind: air }, rebound: { low: &k { clicks: 9, now: 4 } } }\nrear: { travel: 170, spring: *s, rebound: { low: *k } }\n';
    const before = readSheet(parse(text)).sheet!;
    const after = withStands(before, [{ setting: 'rear.rebound.low', value: 5, unit: 'clicks' }]).sheet;
    expect(readSheet(parse(editedText(text, before, after, 'a.yaml'))).sheet).toEqual(after);
  });
});
