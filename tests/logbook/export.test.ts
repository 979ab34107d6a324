import { describe, expect, it } from 'vitest';
import { csvCell } from '../../src/form/text.ts';
import { historyCsv } from '../../src/logbook/export.ts';

describe('a cell', () => {
  it.each([
    ['=1+1', "'=1+1"],
    ['+1', "'+1"],
    ['-1', "'-1"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\n=1', `"'\n=1"`],
    [' \t =1', `' \t =1`],
    ['\r\n\r\n@x', `"'\r\n\r\n@x"`],
    ['\uFF1D1', "'\uFF1D1"],
    ['\ttab', "'\ttab"],
  ])('that a spreadsheet would run is kept a text: %j', (text, cell) => {
    expect(csvCell(text)).toBe(cell);
  });
  it.each([
    ['two = 2', 'two = 2'],
    ['a-b', 'a-b'],
    ['a, "b"', '"a, ""b"""'],
    ['two\nlines', '"two\nlines"'],
    [-3, '-3'],
    [0, '0'],
    [undefined, ''],
    [null, ''],
    ['', ''],
  ])('of plain text or a number stays what it is: %j', (value, cell) => {
    expect(csvCell(value)).toBe(cell);
  });
});

it('an exported history runs nothing, and keeps its rows', () => {
  const csv = historyCsv([
    { entry: 1, at: '2026-05-01T10:00:00Z', kind: 'note', reason: '\n=HYPERLINK("x")' },
    {
      entry: 2,
      at: '2026-05-01T10:01:00Z',
      kind: 'change',
      changes: [{ setting: 'bars', from: -5, to: 5, unit: 'mm' }],
    },
  ]);
  const [, ...rows] = csv.split('\r\n');
  expect(rows[0]).toBe(`1,2026-05-01T10:00:00Z,note,,,,,,"'\n=HYPERLINK(""x"")",,,`);
  expect(rows[1]).toBe('2,2026-05-01T10:01:00Z,change,bars,-5,5,mm,,,,,');
});
