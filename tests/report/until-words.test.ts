/** A step that the sheet says is not enough says how long to go on. */
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { readSheet } from '../../src/bike/form/read.ts';
import { untilUsual, untilWords } from '../../src/report/verdict/until-words.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const sheet = (measured: string, tyre: string) =>
  readSheet(
    parse(`
bike: 1
id: u
kind: trail
units: { pressure: psi }
front: { travel: 150, spring: { kind: air, pressure: 80 }, rebound: { clicks: 12, now: 4 }, tyre: ${tyre} }
rear: { travel: 140, spring: { kind: air, pressure: 180 }, sag: { measured: ${measured}, wanted: 28% } }
`),
  ).sheet!;
const MORE_AIR = { setting: 'rear.spring', by: 10, unit: 'psi' } as const;
const LESS_TYRE = { setting: 'front.tyre', by: -2, unit: 'psi' } as const;

it('asks for no repeat where the step ends at the most the sheet allows', () => {
  const full = sheet('40%', '{ now: 24 }');
  const { spring } = full.ends.rear;
  if (spring.kind !== 'air') throw new Error('the rear has air');
  const at = (pressureMax: number) => ({
    ...full,
    ends: { ...full.ends, rear: { ...full.ends.rear, spring: { ...spring, pressureMax } } },
  });
  const most = spring.pressure! * (190 / 180);
  expect(untilWords(MORE_AIR, at(most))).toBe('then measure sag again');
  expect(untilWords(MORE_AIR, at(1.2 * most))).toMatch(/repeat until it is 28 %/);
});

it.each([
  ['40%', '{ now: 24 }', MORE_AIR, 'then measure sag again, and repeat until it is 28 %'],
  ['16%', '{ now: 24 }', { ...MORE_AIR, by: -10 }, 'then measure sag again, and repeat until it is 28 %'],
  ['30%', '{ now: 24 }', MORE_AIR, undefined],
  ['28%', '{ now: 30, wanted: 23 }', LESS_TYRE, 'repeat until it is 23 psi'],
  ['28%', '{ now: 25, wanted: 23 }', LESS_TYRE, undefined],
  ['28%', '{ now: 30, wanted: 33 }', LESS_TYRE, undefined],
  ['28%', '{ now: 24 }', { setting: 'front.rebound.low', by: 2, unit: 'clicks' }, undefined],
] as const)('sag %s, tyre %s: %j', (measured, tyre, step, says) => {
  expect(untilWords(step, sheet(measured, tyre))).toBe(says);
});

// 80 kg has 23.5 psi at the front, and a gauge shows whole ones, by the rows of tyre-for: common practice, no source.
it.each([
  [80, 34, -2, /until it is about 24 psi/],
  [100, 34, -2, /until it is about 27 psi/],
  [80, 18, 2, /until it is about 24 psi/],
])('goes on by what is usual for %i kg where a tyre at %i has no target', (mass, now, by, words) => {
  const told = { ...sheet('28%', `{ now: ${now} }`), riderMass: mass };
  expect(untilUsual({ ...LESS_TYRE, by }, told, rules, undefined)).toMatch(words);
});
it.each([
  [80, '{ now: 22 }', null],
  [80, '{ now: 25 }', null],
  [undefined, '{ now: 34 }', undefined],
  [80, '{}', undefined],
])('says no figure for %s kg and a tyre %s', (riderMass, tyre, said) => {
  const { riderMass: _, ...bike } = sheet('28%', tyre);
  const told = riderMass === undefined ? bike : { ...bike, riderMass };
  expect(untilUsual(LESS_TYRE, told, rules, undefined)).toBe(said);
});
