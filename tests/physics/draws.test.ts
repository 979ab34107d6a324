/** What a sheet leaves open, drawn anew. */
import { expect, it } from 'vitest';
import { ENDS } from '../../src/bike/sheet.ts';
import { defaultBike } from '../../src/physics/bike/from-sheet.ts';
import { drawsOf } from '../../src/physics/draws.ts';

const bike = defaultBike('enduro');
const [own, ...others] = drawsOf(bike, 40);

it('draws the bike as it is taken first', () => {
  expect(own).toEqual({ bike, pace: 1 });
  expect(others).toHaveLength(39);
});

it.each(ENDS)('draws the dry friction of the %s, at most 1.6 times as much or as little', (end) => {
  const factors = others.map(
    (draw) => draw.bike.ends[end].friction.coulomb / bike.ends[end].friction.coulomb,
  );
  for (const factor of factors) {
    expect(factor).toBeGreaterThan(1 / 1.6);
    expect(factor).toBeLessThan(1.6);
  }
  expect(new Set(factors).size).toBe(factors.length);
  expect(Math.max(...factors)).toBeGreaterThan(1.2);
  expect(Math.min(...factors)).toBeLessThan(1 / 1.2);
});

it('draws the same each time', () => {
  expect(drawsOf(bike, 3)).toEqual(drawsOf(bike, 40).slice(0, 3));
});
