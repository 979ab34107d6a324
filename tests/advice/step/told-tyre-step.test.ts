/** A tyre whose pressure was told goes to the edge of its figure, where no sheet has a target. */
import { expect, it } from 'vitest';
import { byTyreTold } from '../../../src/advice/step/told-tyre-step.ts';
import { prepareBike } from '../../../src/advice/prepared-bike.ts';
import type { ToldNumber } from '../../../src/advice/step/told-sag-step.ts';
import { readSheet } from '../../../src/bike/form/read.ts';
import { exampleData } from '../../bike/example.ts';
import { bench, model, rules } from '../../support/told.ts';

const read = (value: number, question = 'tyre-target@front'): ToldNumber => ({
  question,
  measured: { value: value * 1e5, unit: 'bar', band: [1e5, 1.6e5] },
});
const step = (id: string, ...answers: readonly ToldNumber[]) => {
  const can = byTyreTold(rules, bench, answers).possible[rules.adjustments.findIndex((a) => a.id === id)]!;
  return can.can ? can.step : undefined;
};

it.each([
  ['front.tyre.softer', 2.8, -1.2, 1.6],
  ['front.tyre.harder', 0.7, 0.3, 1],
] as const)('%s from %d bar goes by %d to where what is usual begins', (id, now, by, to) => {
  expect(step(id, read(now))).toEqual({ setting: 'front.tyre', by, unit: 'bar', from: now, to });
});
it('keeps the step of the rule inside the figure, near its edge, the other way, and at the other end', () => {
  const own = step('front.tyre.softer');
  expect(step('front.tyre.softer', read(1.4))).toEqual(own);
  expect(step('front.tyre.softer', read(1.65))).toEqual(own);
  expect(step('front.tyre.harder', read(2.8))).toEqual(step('front.tyre.harder'));
  expect(step('rear.tyre.softer', read(2.8))).toEqual(step('rear.tyre.softer'));
});
it('goes to the nearer figure first, where it was held against two', () => {
  const near: ToldNumber = {
    question: 'tyre-pressure@front',
    measured: { value: 2.8e5, unit: 'bar', band: [2.4e5, 2.5e5] },
  };
  expect(step('front.tyre.softer', near, read(2.8))?.to).toBe(2.5);
});
it('leaves a bike with a sheet to its sheet', () => {
  const own = prepareBike(model, readSheet(exampleData('all-knobs')).sheet!);
  expect(byTyreTold(rules, own, [read(2.8)])).toBe(own);
});
