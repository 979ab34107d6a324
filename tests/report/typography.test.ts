/** What is printed, and what the rules have printed, is written as a page is: no doubled quotes, blanks or stops. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { baseRules } from '../support/base-rules.ts';
import { earshot } from '../support/io.ts';

const CASES = fileURLToPath(new URL('../../examples/cases/', import.meta.url));
const FILES = readdirSync(CASES)
  .sort()
  .map((name) => join(CASES, name));

/** Doubled quotes, blanks, stops or commas; a blank before a mark or inside a bracket; a stop behind another mark. */
const SLIPS: readonly RegExp[] = [
  /''|""/,
  /\S {2,}\S/,
  /\.\.|,,|;;|[?!,;:]\.(?=\s|$)/,
  /\s[,.;:!?](?=\s|$)/,
  /\(\s|\s\)/,
];

function slipsIn(text: string): string[] {
  const marks = SLIPS.filter((slip) => slip.test(text)).map(String);
  let depth = 0;
  for (const sign of text) {
    if (sign === '(') depth++;
    if (sign === ')' && --depth < 0) break;
  }
  return depth === 0 ? marks : [...marks, 'a bracket stands alone'];
}

/** Lines that a paragraph was folded into, joined again; what stands in columns has them, and its bars, by design. */
function paragraphs(printed: string): string[] {
  return printed
    .split(/\n(?=\s*(?:\n|$|[-!|#>]|\d+\.|[A-Z"]|[−+]\d))/)
    .map((part) => part.replaceAll(/\s*\n\s*/g, ' ').trim())
    .filter((part) => !/^[−+]?\d+\.\d dB|^[|]|\s\[[\w.-]+\]$| · /.test(part));
}

/** Every text of the rules with a blank in it, with its place. */
function textsIn(value: unknown, place: string): [string, string][] {
  if (typeof value === 'string') return /\s/.test(value) ? [[place, value]] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => textsIn(inner, `${place}.${key}`));
}

describe('no slip of the pen', () => {
  it.each([['--full'], ['--for', 'rider', '--full'], ['--format', 'markdown']])(
    'in what is printed of all examples: diagnose %s %s %s',
    async (...options) => {
      const { out } = await earshot(['diagnose', ...FILES, ...options]);
      const all = paragraphs(out);
      expect(all.length).toBeGreaterThan(FILES.length * 5);
      expect(all.filter((text) => slipsIn(text).length > 0).map((text) => [text, slipsIn(text)])).toEqual([]);
    },
  );
  it('in any text of the rules', () => {
    const { questions, causes, adjustments, cautions, openings, settings } = baseRules().rules;
    const all = textsIn({ questions, causes, adjustments, cautions, openings, settings }, 'rules');
    expect(all.length).toBeGreaterThan(1000);
    expect(all.flatMap(([place, text]) => slipsIn(text).map((slip) => [place, slip, text]))).toEqual([]);
  });
  it.each([
    ["answer ''hardly any''", 1],
    ['two  blanks', 1],
    ['an end.. of it', 1],
    ['a pause , here', 1],
    ['(one bracket', 1],
    ['is it?.', 1],
    ['a fine one: "hardly any" (3 of 7), e.g. 1.5 mm.', 0],
  ])('but a slip is seen: %s', (text, count) => {
    expect(slipsIn(text)).toHaveLength(count);
  });
});
