import { expect, test } from 'vitest';
import { penSheet } from '../../src/trials/pen-sheet.ts';
import { change, planned, rode } from './invented.ts';

test('a line a run: where it must stand, and how far to turn it from the run before', () => {
  const trial = planned({
    id: 't1',
    feel: 'less beating through braking bumps',
    cautions: ['Check the brakes.'],
  });
  const sheet = penSheet(trial);
  const [first, second] = trial.arms.slice(1).map((arm) => arm.set);
  expect(sheet.rows.map((row) => row.set)).toEqual([8, 8, first, 8, second, 8]);
  expect(sheet.rows.map((row) => row.turn)).toEqual([0, 0, first! - 8, 8 - first!, second! - 8, 8 - second!]);
  expect(sheet.rows.map((row) => row.settling)).toEqual([true, true, false, false, false, false]);
  expect(sheet).toMatchObject({
    reference: 8,
    feel: 'less beating through braking bumps',
    cautions: ['Check the brakes.'],
  });
  expect(sheet.extraSettling).toEqual({ atMost: 2, apart: 0.5 });
});

test('later on, only the runs still to ride, numbered on, from where the adjuster stands now', () => {
  const trial = rode('R4 R4 +6');
  const sheet = penSheet(trial);
  expect(sheet.rows[0]).toMatchObject({ run: 4, arm: 'reference', set: 8, turn: -2, settling: false });
  expect(sheet.extraSettling.atMost).toBe(0);
});

test('runs asked for beyond the block are listed', () => {
  expect(penSheet(rode('R4 R4 +6 R4 -2 R4')).rows).toHaveLength(0);
  expect(penSheet(rode('R4 R4 +6 R4 -2 R4'), 4).rows).toHaveLength(4);
});

test('the notes of an adapted plan are on the sheet', () => {
  expect(penSheet(planned({ change: change({ from: 0, to: 2 }) })).notes).toHaveLength(1);
});
