import { expect, test } from 'vitest';
import { penRows, penSheet } from '../../src/trials/pen-sheet.ts';
import { planned, rode } from './invented.ts';

const RIDE = { first: ['a'], helped: ['b'], alone: ['c', 'd'], last: ['e'], brief: ['f'] };

test('a line a run: where it must stand, and how far to turn it from the run before', () => {
  const sheet = penSheet(
    planned({
      feel: 'less beating through braking bumps',
      cautions: ['Check the brakes.'],
      notes: ['A note.'],
    }),
    RIDE,
  );
  expect(sheet.rows.map((row) => row.set)).toEqual([8, 10, 8, 10, 8, 8, 10]);
  expect(sheet.rows.map((row) => row.turn)).toEqual([0, 2, -2, 2, -2, 0, 2]);
  expect(sheet.rows.map((row) => row.warmUp)).toEqual([true, false, false, false, false, false, false]);
  expect(sheet).toMatchObject({
    reference: 8,
    feel: 'less beating through braking bumps',
    cautions: ['Check the brakes.'],
    notes: ['A note.'],
    rules: ['a', 'b', 'e'],
    brief: ['f'],
  });
  expect(penSheet({ ...planned({}), short: true }, RIDE).rules).toEqual(['a', 'c', 'd', 'e']);
});

test('later on, only the runs still to ride, numbered on, from where the adjuster stands now', () => {
  const sheet = penSheet(rode('R4 +6'), RIDE);
  expect(sheet.rows[0]).toMatchObject({ run: 3, arm: 'reference', set: 8, turn: -2, warmUp: false });
});

test('runs asked for beyond the block are listed', () => {
  expect(penRows(rode('R4 R4 +6 R4 +6 +6 R4'))).toHaveLength(0);
  expect(penRows(rode('R4 R4 +6 R4 +6 +6 R4'), 4)).toHaveLength(4);
});
