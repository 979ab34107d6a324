/** What a trial kept and was moved since in none, by the log alone. */
import { expect, it } from 'vitest';
import { readDeed } from '../../src/bike/deed.ts';
import type { Entry } from '../../src/logbook/entry.ts';
import { leftGood } from '../../src/logbook/left-good.ts';

const at = '2026-05-01T10:00:00Z';
const set = (entry: number, from: number, to: number, trial?: string): Entry => ({
  entry,
  at,
  kind: 'change',
  changes: [{ setting: 'rear.rebound.low', from, to, unit: 'clicks' }],
  ...(trial === undefined ? {} : { trial }),
});
const rated = (entry: number, trial: string, kept: boolean): Entry => ({
  entry,
  at,
  kind: 'result',
  trial,
  result: { change: readDeed('rear.rebound.low-2'), setting: 'rear.rebound.low', outcome: 'better', kept },
});
const KEPT = [set(1, 7, 5, 'a'), rated(2, 'a', true)];
const GOOD = { setting: 'rear.rebound.low', unit: 'clicks', good: 5, trial: 'a' };

it('is nothing while it stands there, or a later trial moved it', () => {
  expect(leftGood(KEPT)).toEqual([]);
  expect(leftGood([...KEPT, set(3, 5, 3, 'b'), rated(4, 'b', true)])).toEqual([]);
  expect(leftGood([...KEPT, set(3, 5, 9), set(4, 9, 5)])).toEqual([]);
});
it('is where the trial left it, once it was set elsewhere by hand', () => {
  expect(leftGood([...KEPT, set(3, 5, 9)])).toEqual([{ ...GOOD, now: 9 }]);
});
it('is nothing where the way back to it was ridden since, and not kept', () => {
  const away = [...KEPT, set(3, 5, 9)];
  const back = (change: string): Entry => ({
    ...rated(4, 'b', false),
    result: { change: readDeed(change), setting: 'rear.rebound.low', outcome: 'worse', kept: false },
  });
  expect(leftGood([...away, back('rear.rebound.low-4')])).toEqual([]);
  // That more of the same is worse says nothing of the way back.
  expect(leftGood([...away, back('rear.rebound.low+2')])).toHaveLength(1);
});
it('is nothing that a trial did not keep', () => {
  expect(leftGood([rated(1, 'a', false), set(2, 7, 9)])).toEqual([]);
});
it('is nothing of a position by name where the way back was ridden since, and not kept', () => {
  const moved = (entry: number, from: string, to: string, trial?: string): Entry => ({
    ...set(entry, 0, 0, trial),
    changes: [{ setting: 'rear.stop', from, to }],
  });
  const ridden = (entry: number, trial: string, kept: boolean): Entry => ({
    ...rated(entry, trial, kept),
    result: {
      change: { changes: [{ setting: 'rear.stop', by: 1, unit: 'positions' }] },
      setting: 'rear.stop',
      outcome: kept ? 'better' : 'worse',
      kept,
    },
  });
  const away = [moved(1, 'soft', 'firm', 'a'), ridden(2, 'a', true), moved(3, 'firm', 'soft')];
  expect(leftGood(away)).toHaveLength(1);
  expect(leftGood([...away, ridden(4, 'b', false)])).toEqual([]);
});
