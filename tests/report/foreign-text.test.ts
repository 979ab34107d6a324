import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { printable, printableOut } from '../../src/report/foreign-text.ts';

/** Any sequence of UTF-16 units, halves of pairs and controls among them. */
const anyText = fc
  .array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 120 })
  .map((units) => String.fromCharCode(...units));

test('controls, halves of pairs and signs that turn the direction of writing are shown as what they are', () => {
  expect(printable('a\u0000b\u001b[31mc\u009bd', 99)).toBe('a\uFFFDb\uFFFD[31mc\uFFFDd');
  expect(printable('safe\u202Eelif', 99)).toBe('safe\uFFFDelif');
  expect(printable('x\u2066y\u200Fz', 99)).toBe('x\uFFFDy\uFFFDz');
  expect(printable('half \uD83D of a pair', 99)).toBe('half \uFFFD of a pair');
});

test('lines, tabs and other white space become one space', () => {
  expect(printable('  one\r\n\r\n two\t\u2028three ', 99)).toBe('one two three');
});

test('letters of any script stay, with their marks; only heaps of marks are cut', () => {
  expect(printable('Flüße, Ночь, 山道, 🚵‍♀️', 99)).toBe('Flüße, Ночь, 山道, 🚵‍♀️');
  expect(printable(`z${'\u0301'.repeat(200)}!`, 99)).toBe(`z${'\u0301'.repeat(4)}!`);
});

test('a long text is clipped and says by how much', () => {
  expect(printable('x'.repeat(10_000), 300)).toBe(`${'x'.repeat(300)}… (9700 characters more in the case)`);
  expect(printable('🚵'.repeat(60), 3)).toBe('🚵🚵🚵… (57 characters more in the case)');
  // Nothing is saved by a note that is longer than what it stands for.
  expect(printable('🚵'.repeat(5), 3)).toBe('🚵🚵🚵🚵🚵');
});

test('never longer than its room and the note, never a sign that cannot be printed', () => {
  fc.assert(
    fc.property(anyText, fc.integer({ min: 1, max: 80 }), (text, most) => {
      const shown = printable(text, most);
      const note = /… \(\d+ characters more in the case\)$/.exec(shown)?.[0] ?? '';
      expect(Array.from(shown).length - note.length).toBeLessThanOrEqual(note === '' ? most + 40 : most);
      expect(shown).not.toMatch(/[\p{Cc}\p{Cs}\u202A-\u202E\u2066-\u2069]/u);
    }),
  );
});

test('output keeps lines, the line ends of CSV, tabs and its own marks; all else that moves is shown', () => {
  expect(printableOut('a\tb\r\nc\n', false)).toBe('a\tb\r\nc\n');
  expect(printableOut('a\rb\u0007', false)).toBe('a\uFFFDb\uFFFD');
  expect(printableOut('\u001b[1mä\u001b[22m\u001b[2J', true)).toBe('\u001b[1mä\u001b[22m\uFFFD[2J');
  expect(printableOut('\u001b[1mä\u001b[22m', false)).toBe('\uFFFD[1mä\uFFFD[22m');
});

test('JSON, whole or in pieces, loses nothing by it', () => {
  fc.assert(
    fc.property(anyText, (text) => {
      const json = JSON.stringify({ text: text.replaceAll(/\p{Cs}/gu, '?') });
      const out = printableOut(json, true);
      expect(JSON.parse(out)).toEqual(JSON.parse(json));
      expect(out).not.toMatch(/[\p{Cc}\u202A-\u202E\u2066-\u2069]/u);
    }),
  );
  expect(printableOut(',\n  {"a":"\u009b"}', false)).toBe(',\n  {"a":"\\u009b"}');
});
