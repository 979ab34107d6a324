import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { markupText } from '../../src/report/pit-sheet/markup.ts';
import { barReach, weightBar } from '../../src/report/plots/svg-bars.ts';
import { linePlot, tickStep } from '../../src/report/plots/svg-plot.ts';

const line = (y: readonly number[]) => ({ x: y.map((_, i) => i / 10), y });
const plot = (before: readonly number[], after: readonly number[], more = {}) =>
  markupText(
    linePlot({
      id: 'p',
      title: 'T',
      says: 'S',
      xLabel: 'x',
      yLabel: 'y',
      before: line(before),
      after: line(after),
      ...more,
    }),
  );
const points = (svg: string, which: string): number[][] =>
  [
    ...new RegExp(`class="line ${which}" d="(M[^"]*L[^"]*)"`).exec(svg)![1]!.matchAll(/[ML](\S+) ([-\d.]+)/g),
  ].map((m) => [Number(m[1]), Number(m[2])]);

test('every point lies inside the drawing, whatever the values', () => {
  const values = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 30 });
  fc.assert(
    fc.property(values, values, (before, after) => {
      const svg = plot(before, after);
      expect(svg).not.toMatch(/NaN|Infinity/);
      for (const [x, y] of [...points(svg, 'before'), ...points(svg, 'after')]) {
        expect(x).toBeGreaterThanOrEqual(33.9);
        expect(x).toBeLessThanOrEqual(266.1);
        expect(y).toBeGreaterThanOrEqual(21.9);
        expect(y).toBeLessThanOrEqual(132.1);
      }
    }),
  );
});

test('more is higher up, or lower down where the axis is turned', () => {
  const [up, down] = [plot([0, 5], [0, 5]), plot([0, 5], [0, 5], { upsideDown: true })].map((svg) =>
    points(svg, 'after'),
  );
  expect(up![1]![1]).toBeLessThan(up![0]![1]!);
  expect(down![1]![1]).toBeGreaterThan(down![0]![1]!);
});

test('each line has a dot where a mark is, on the line', () => {
  const svg = plot([0, 10, 0], [0, 20, 0], { marks: [0.1] });
  const dots = [...svg.matchAll(/<circle cx="(\S+)" cy="(\S+)"/g)].map((m) => [Number(m[1]), Number(m[2])]);
  expect(dots).toEqual([points(svg, 'before')[1], points(svg, 'after')[1]]);
});

test('a drawing is named and told to who cannot see it; its lines differ in more than colour', () => {
  const svg = plot([0, 1], [0, 2]);
  expect(svg).toContain('role="img" aria-labelledby="p-t p-d"');
  expect(svg).toContain('<title id="p-t">T</title>');
  expect(svg).toContain('<desc id="p-d">S</desc>');
  expect(svg).toMatch(/>before<\/text>.*>after<\/text>/s);
});

test('ticks are round and between four and ten', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1e9, noNaN: true }), (span) => {
      const step = tickStep(span);
      expect([1, 2, 5]).toContain(Math.round(step / 10 ** Math.floor(Math.log10(step) + 1e-9)));
      expect(span / step).toBeGreaterThanOrEqual(3.999);
      expect(span / step).toBeLessThanOrEqual(10.001);
    }),
  );
});

test('a bar goes right for evidence for, left for evidence against, as far as its weight, at most to the edge', () => {
  const read = (decibans: number) => {
    const svg = markupText(weightBar(decibans, 10));
    const [, kind, x, width] = /class="(for|against)"\s+x="(\S+)"\s+y="2"\s+width="(\S+)"/.exec(svg)!;
    return { kind, x: Number(x), width: Number(width) };
  };
  expect(read(5)).toEqual({ kind: 'for', x: 100, width: 49.5 });
  expect(read(-5)).toEqual({ kind: 'against', x: 50.5, width: 49.5 });
  expect(read(99)).toEqual({ kind: 'for', x: 100, width: 99 });
  expect(barReach([3, -4])).toBe(6);
  expect(barReach([3, -14])).toBe(14);
});
