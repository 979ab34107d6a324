/** The small parts that reports are laid out with. */
import { describe, expect, it } from 'vitest';
import { columns } from '../../src/report/columns.ts';
import { cutList, linesOf } from '../../src/report/pit-sheet/cut-list.ts';
import { glued } from '../../src/report/glued.ts';
import { escapeMarkdown } from '../../src/report/markdown.ts';
import { round, signed } from '../../src/report/round.ts';
import { page, PLAIN } from '../../src/report/style.ts';
import { paragraph } from '../../src/report/wrap.ts';

describe('numbers', () => {
  it('are rounded once, and never to minus nothing', () => {
    expect(round(0.123456)).toBe(0.1235);
    expect(round(-0.00001)).toBe(0);
    expect([signed(0.005), signed(-0.004), signed(-1.239)]).toEqual(['+0.01', '+0', '-1.24']);
  });
});

describe('a list cut to its room', () => {
  it('still knows how many it left out, those left out before too', () => {
    const cut = cutList({ lines: ['a', 'b', 'c'], more: 4 }, 2);
    expect(cut).toEqual({ lines: ['a', 'b'], more: 5 });
    expect(linesOf(cut)).toEqual(['a', 'b', 'And 5 more in the case.']);
    expect(linesOf(cutList({ lines: ['a'], more: 0 }, 2))).toEqual(['a']);
  });
});

describe('a number', () => {
  it('stays with its unit, and with what it is of, but not with a word that only begins like one', () => {
    expect(glued('5 mm, 3 of 7, 80 psi')).toBe('5\u00A0mm, 3\u00A0of\u00A07, 80\u00A0psi');
    expect(glued('2 Nords, 4 bars')).toBe('2 Nords, 4 bars');
  });
  it('stays with its per cent sign at the end of a line', () => {
    const text = paragraph('about the half of it is 50 % off', 26);
    expect(text).toBe('about the half of it is\n50 % off');
  });
});

describe('rows', () => {
  it('are padded but for the last cell, without blanks at the end', () => {
    expect(columns(['a', 'b', 'c'], [3, 3, 3])).toBe('a   b   c');
    expect(columns(['a', ''], [3, 3])).toBe('a');
    expect(columns(['long one', 'b'], [3])).toBe('long one b');
    expect(columns(['a', 'b'], [1, 9]).length).toBe(3);
  });
  it('are in ASCII where the terminal shows no more', () => {
    expect(page(['a → b'], { ...PLAIN, unicode: false })).toBe('a -> b\n');
    expect(page(['a → b'], PLAIN)).toBe('a → b\n');
  });
});

it('what a case says stays text in Markdown', () => {
  expect(escapeMarkdown('# *x* [a](b) <i>|`')).toBe(String.raw`\# \*x\* \[a\](b) \<i\>\|` + '\\`');
  expect(escapeMarkdown('two\n\nlines')).toBe('two lines');
});
