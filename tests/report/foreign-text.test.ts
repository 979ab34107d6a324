import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { printable } from '../../src/report/foreign-text.ts';

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
  expect(printable('🚵'.repeat(5), 3)).toBe('🚵🚵🚵… (2 characters more in the case)');
});

test('never longer than its room and the note, never a sign that cannot be printed', () => {
  fc.assert(
    fc.property(anyText, fc.integer({ min: 1, max: 80 }), (text, most) => {
      const shown = printable(text, most);
      expect(
        Array.from(shown.replace(/… \(\d+ characters more in the case\)$/, '')).length,
      ).toBeLessThanOrEqual(most);
      expect(shown).not.toMatch(/[\p{Cc}\p{Cs}\u202A-\u202E\u2066-\u2069]/u);
    }),
  );
});
