import { expect, test } from 'vitest';
import { penSheet } from '../../src/trials/pen-sheet.ts';
import { planned, rode } from './invented.ts';

test('a line a run: where it must stand, and how far to turn it from the run before', () => {
  const sheet = penSheet(
    planned({
      feel: 'less beating through braking bumps',
      cautions: ['Check the brakes.'],
      notes: ['A note.'],
    }),
  );
  expect(sheet.rows.map((row) => row.set)).toEqual([8, 10, 8, 10, 8, 8, 10]);
  expect(sheet.rows.map((row) => row.turn)).toEqual([0, 2, -2, 2, -2, 0, 2]);
  expect(sheet.rows.map((row) => row.warmUp)).toEqual([true, false, false, false, false, false, false]);
  expect(sheet).toMatchObject({
    reference: 8,
    feel: 'less beating through braking bumps',
    cautions: ['Check the brakes.'],
    notes: ['A note.'],
  });
});

test('later on, only the runs still to ride, numbered on, from where the adjuster stands now', () => {
  const sheet = penSheet(rode('R4 +6'));
  expect(sheet.rows[0]).toMatchObject({ run: 3, arm: 'reference', set: 8, turn: -2, warmUp: false });
});

test('runs asked for beyond the block are listed', () => {
  expect(penSheet(rode('R4 R4 +6 R4 +6 +6 R4')).rows).toHaveLength(0);
  expect(penSheet(rode('R4 R4 +6 R4 +6 +6 R4'), 4).rows).toHaveLength(4);
});
