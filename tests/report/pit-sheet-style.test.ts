import { expect, test } from 'vitest';
import { CSS } from '../../src/report/pit-sheet/style.ts';

/** The colours of the page by where they hold, read from the style sheet itself. */
const palettes = [...CSS.matchAll(/:root\{[^}]*\}/g)].map(([block]) =>
  Object.fromEntries([...block.matchAll(/--([\w-]+):(#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!])),
);
/** What text and lines stand on. */
const GROUNDS = ['card', 'tint'];
/** Says nothing: faint lines between rows and behind curves, and the grounds themselves. */
const DECORATION = new Set(['hair', 'card', 'tint', 'table']);

/** Relative luminance and contrast ratio: W3C, Web Content Accessibility Guidelines 2.2, definitions. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}
/** `quiet on card: 4.2` where the contrast is below what is asked. */
function tooFaint(
  palette: Record<string, string>,
  name: string,
  ground: string,
  least: number,
): string | undefined {
  const found = contrast(palette[name]!, palette[ground]!);
  return found >= least ? undefined : `${name} on ${ground}: ${found.toFixed(2)}`;
}
const used = (property: RegExp): string[] => [
  ...new Set([...CSS.matchAll(property)].map((m) => m[1]!).filter((name) => !DECORATION.has(name))),
];

test('the contrast formula gives the published ends of its scale', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
});

test('light, dark and paper each name every colour', () => {
  expect(palettes).toHaveLength(3);
  const names = [...new Set([...CSS.matchAll(/var\(--([\w-]+)\)/g)].map((m) => m[1]!))];
  for (const palette of palettes) expect(Object.keys(palette)).toEqual(expect.arrayContaining(names));
});

test('every colour of text reads on every ground at 4.5 : 1 or better', () => {
  const texts = [
    ...used(/(?<![-\w])color:var\(--([\w-]+)\)/g),
    ...used(/text\{[^}]*fill:var\(--([\w-]+)\)/g),
  ];
  expect(texts).toEqual(expect.arrayContaining(['ink', 'quiet', 'warn']));
  for (const palette of palettes)
    for (const ground of GROUNDS)
      for (const name of texts)
        expect(contrast(palette[name]!, palette[ground]!), `${name} on ${ground}`).toBeGreaterThanOrEqual(
          4.5,
        );
});

test('every line, box and bar that means something stands out at 3 : 1 or better', () => {
  const lines = used(/(?:stroke|fill|border[\w-]*):(?:[^;{}]*)var\(--([\w-]+)\)/g);
  expect(lines).toEqual(expect.arrayContaining(['ink', 'rule', 'for', 'against']));
  for (const palette of palettes)
    for (const ground of GROUNDS)
      for (const name of lines) expect(tooFaint(palette, name, ground, 3)).toBeUndefined();
});

test('the style sheet fetches nothing', () => {
  expect(CSS).not.toMatch(/url\(|@import|@font-face|image-set|src:/);
});
