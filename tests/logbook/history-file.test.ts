import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Entry } from '../../src/logbook/entry.ts';
import { entryText, knownFrom, readHistoryText } from '../../src/logbook/history-file.ts';
import { anyText } from '../support/any-text.ts';

const entry = (number: number, more: Partial<Entry> = {}): Entry => ({
  entry: number,
  at: `2026-05-01T10:0${number}:00.000Z`,
  kind: 'note',
  reason: `said ${number}`,
  ...more,
});
const written = (...entries: Entry[]): string =>
  entries.map((one, i) => entryText(one, { empty: i === 0, endsLine: true })).join('');
const read = (text: string) => readHistoryText(Buffer.from(text), 'history.yaml');

const change = entry(2, {
  kind: 'change',
  changes: [{ setting: 'front.rebound.low', from: 8, to: 10, unit: 'clicks' }],
  reason: 'öffnet weiter: „härter“ 🚵',
});

test('what is written is what is read, in a form a mechanic can read', () => {
  const text = written(entry(1), change);
  expect(read(text)).toMatchObject({ entries: [entry(1), change], problems: [] });
  expect(text).toContain('setting: front.rebound.low\n    from: 8\n    to: 10\n    unit: clicks\n');
});

test('cut at any byte, the file holds the entries that were whole by then, and nothing else', () => {
  const bytes = Buffer.from(written(entry(1), change, entry(3)));
  const ends = [1, 2, 3].map((n) => Buffer.byteLength(written(...[entry(1), change, entry(3)].slice(0, n))));
  for (let cut = 0; cut <= bytes.length; cut++) {
    const found = readHistoryText(bytes.subarray(0, cut), 'history.yaml');
    expect(found.problems).toEqual([]);
    expect(found.entries).toHaveLength(ends.filter((end) => end <= cut).length);
    expect(found.whole).toBe(Math.max(0, ...ends.filter((end) => end <= cut)));
  }
});

test('no text in an entry can look like the end of one', () => {
  const nasty = fc.oneof(
    anyText(),
    fc.constantFrom(
      '...',
      '---',
      'a\n...\n---\nentry: 9',
      '...\r\n',
      '# no',
      '\n',
      ' ',
      'a: b',
      '- x',
      '~',
      '12',
      'yes',
      '&a *a',
      '%YAML',
      '\u2028...',
      'x\n\n...\n\n',
    ),
  );
  fc.assert(
    fc.property(fc.array(nasty, { minLength: 1, maxLength: 4 }), (reasons) => {
      const entries = reasons.map((reason, i) => entry(i + 1, { reason, at: '2026-05-01T10:00:00Z' }));
      expect(read(written(...entries)).entries).toEqual(entries);
    }),
    { numRuns: 150 },
  );
});

test('read on from what is known gives the same as read from the start', () => {
  const early = Buffer.from(written(entry(1), change));
  const late = Buffer.from(written(entry(1), change, entry(3)) + '---\nentry: 4\n');
  const known = knownFrom(early, readHistoryText(early, 'history.yaml'))!;
  expect(readHistoryText(late, 'history.yaml', known)).toEqual(readHistoryText(late, 'history.yaml'));
  const edited = Buffer.from(late.toString().replace('said 1', 'said one'));
  expect(readHistoryText(edited, 'history.yaml', known).entries[0]!.reason).toBe('said one');
});

test('line ends of another system, comments, and dots left out by hand are all the same', () => {
  const text = written(entry(1), change, entry(3)).replace('...\n---\nentry: 2', '# by hand\n---\nentry: 2');
  expect(read(text)).toMatchObject({ problems: [], entries: [{ entry: 1 }, { entry: 2 }, { entry: 3 }] });
  expect(read(text.replaceAll('\n', '\r\n')).entries).toHaveLength(3);
  expect(read(`${text}# a last word\n`).torn).toBeUndefined();
});

test.each([
  ['kind: note', 'kind: nott', 'kind'],
  ['said 1', '"said 1', 'quote'],
  ['entry: 2', 'entry: two', 'entry'],
  ['at: 2026-05-01T10:02:00.000Z', 'at: yesterday', 'expected a time'],
  ['to: 10', 'too: 10', 'to is missing'],
  ['reason: said 3', 'reason: said 3\nreason: again', 'is here twice'],
])('%s written as %s: told with its line', (good, bad, says) => {
  const text = written(entry(1), change, entry(3));
  const at = text.slice(0, text.indexOf(good)).split('\n').length;
  const { problems } = read(text.replace(good, bad));
  expect(problems.length).toBeGreaterThan(0);
  expect(problems[0]!.message).toContain(says);
  // a missing key is placed at what it is missing from, a broken text where it was noticed
  expect(Math.abs(problems[0]!.line - at)).toBeLessThanOrEqual(2);
});

test('every mistake of a file is told, not the first only', () => {
  const text = written(entry(1), change, entry(3))
    .replace('kind: note', 'kind: x')
    .replace('entry: 2', 'entry: two');
  expect(read(text).problems.map((problem) => problem.line)).toEqual([5, 9]);
});

test('an entry that is not text is told', () => {
  const bytes = Buffer.concat([
    Buffer.from('---\nreason: '),
    Buffer.from([0xff, 0xfe]),
    Buffer.from('\n...\n'),
  ]);
  expect(readHistoryText(bytes, 'history.yaml').problems[0]!.message).toContain('UTF-8');
});

test('a kind without what it needs is told', () => {
  const text = written(entry(1)).replace('reason: said 1\n', '');
  expect(read(text).problems[0]!.message).toContain('a note needs reason');
});
