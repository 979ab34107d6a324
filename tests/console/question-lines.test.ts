import { stripVTControlCharacters } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOut, type Asked } from '../../src/console/question-lines.ts';
import { styleFor } from '../../src/console/style.ts';
import { PLAIN, type Style } from '../../src/report/style.ts';

const at = { active: 0, typed: '', sure: 'sure' } as const;
const style = (width: number, more: Partial<Style> = {}): Style => ({ ...PLAIN, width, ...more });
const LONG = 'Hold the front brake and rock the bike with a finger across the headset. '.repeat(5).trim();

const asked: Asked = {
  head: 'Question 3: nothing off 51 %, front high-speed rebound too fast 12 %; settled 50 %',
  message: 'Is anything knocking, gurgling, leaking oil, cracked, loose when rocked, or sticking down?',
  help: LONG,
  choices: ['none of these', 'at the front', 'at the rear', 'at both ends'].map((name) => ({
    value: name,
    name,
  })),
  actions: [
    { key: 'c', value: 'c', name: "can't tell", answers: true },
    { key: 'w', value: 'w', name: 'why ask this', brief: 'why' },
    { key: 'e', value: 'e', name: 'change an earlier answer', brief: 'earlier' },
  ],
  sure: 'sure',
};
const many: Asked = {
  ...asked,
  choices: Array.from({ length: 14 }, (_, i) => ({
    value: `${i}`,
    name: `choice number ${i + 1} with a few words more`,
  })),
};
const lines = (
  q: Asked,
  width: number,
  rows: number,
  standing: Parameters<typeof layOut>[2] = at,
): string[] => {
  const { lines: body, input } = layOut(q, { style: style(width), rows }, standing);
  return [...body, input];
};

describe('the layout of a question', () => {
  it('shows all of it where there is room', () => {
    expect(lines({ ...asked, help: 'Rock the bike.' }, 80, 24)).toEqual([
      '',
      'Question 3: nothing off 51 %, front high-speed rebound too fast 12 %; settled',
      '  50 %',
      'Is anything knocking, gurgling, leaking oil, cracked, loose when rocked, or',
      'sticking down?',
      '    Rock the bike.',
      '> 1 none of these',
      '  2 at the front',
      '  3 at the rear',
      '  4 at both ends',
      "c can't tell  s how sure: sure  w why ask this  e change an earlier answer",
      '1-4 or a letter: ',
    ]);
  });
  it('speaks of letters only where there are some', () => {
    const bare = { head: '', message: 'Which spring?', choices: asked.choices, actions: [] };
    expect(layOut(bare, { style: style(80), rows: 24 }, at).input).toBe('1-4: ');
  });
  it('folds the help behind a letter where the screen is too low for it, and names it', () => {
    const { folded } = layOut(asked, { style: style(40), rows: 20 }, at);
    expect(folded).toBe(true);
    expect(lines(asked, 40, 20).join('\n')).toMatch(/h help|h how to find out/);
    expect(lines(asked, 40, 20).join('\n')).not.toContain('headset');
    expect(layOut(asked, { style: style(40), rows: 40 }, at).folded).toBe(false);
  });
  it('leaves the head out, and the help folded, when asked again under an answer of its own', () => {
    const again = lines({ ...asked, again: true }, 80, 40);
    expect(again[1]).toMatch(/^Is anything/);
    expect(again.join('\n')).not.toContain('headset');
  });
  it('shows the choices around the active one when there are too many, and how many are hidden', () => {
    const middle = lines({ ...many, again: true }, 80, 14, { ...at, active: 7 });
    expect(middle.some((l) => l.startsWith('>  8 choice number 8'))).toBe(true);
    expect(middle.filter((l) => /\(\d+ more (above|below)\)/.test(l))).toHaveLength(2);
    expect(lines({ ...many, again: true }, 80, 14, { ...at, active: 0 }).join()).not.toContain('above');
    expect(lines({ ...many, again: true }, 80, 14, { ...at, active: 13 }).join()).not.toContain('below');
  });
  it('names the letters in few words for a mechanic', () => {
    expect(
      lines(
        {
          ...asked,
          terse: true,
          actions: [...asked.actions, { key: 'f', value: 'f', name: 'finish now', brief: 'finish' }],
        },
        80,
        40,
      ).at(-2),
    ).toBe("c can't tell  s how sure?  w why  e earlier  f finish");
  });
  it('says how sure the answer will be', () => {
    expect(lines(asked, 80, 40, { ...at, sure: 'guess' }).at(-2)).toContain('s how sure: a guess');
  });
  it('never is wider than the screen, never higher, and always shows the active choice', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 100 }),
        fc.integer({ min: 16, max: 60 }),
        fc.integer({ min: 1, max: 14 }),
        fc.nat(13),
        fc.boolean(),
        (width, rows, count, active, withHelp) => {
          const q = { ...many, choices: many.choices.slice(0, count), help: withHelp ? LONG : undefined };
          const shown = lines(q, width, rows, { ...at, active: active % count });
          expect(Math.max(...shown.map((l) => l.length))).toBeLessThan(width);
          expect(shown.length).toBeLessThan(rows);
          expect(shown.some((l) => l.startsWith('>'))).toBe(true);
        },
      ),
    );
  });
  it('says the same in colour, and uses ASCII alone where Unicode cannot be shown', () => {
    const colour = styleFor({ isTty: true, width: 80, env: { LANG: 'C.UTF-8' }, color: 'always' });
    const plain = layOut(asked, { style: style(80), rows: 40 }, at).lines;
    const coloured = layOut(asked, { style: colour, rows: 40 }, at).lines;
    expect(coloured.join()).toContain('\u001b[1m');
    expect(coloured.map((l) => stripVTControlCharacters(l))).toEqual(plain);
    const odd = { ...asked, choices: [{ value: 'a', name: 'from 8 → 10 – or “more”…' }] };
    const ascii = layOut(odd, { style: style(80, { unicode: false }), rows: 40 }, at).lines.join('\n');
    // oxlint-disable-next-line no-control-regex -- the ASCII range itself
    expect(ascii.replaceAll(/[“”]/g, '')).toMatch(/^[\u0000-\u007f]*$/);
  });
});
