/** Which trials' changes are on the bike, by the log alone. */
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/logbook/entry.ts';
import { untested } from '../../src/logbook/replay.ts';
import { trialsNow } from '../../src/logbook/trials-now.ts';

type Step = readonly [kind: Entry['kind'], from: number, to: number, more?: Partial<Entry>];
const log = (...steps: Step[]): Entry[] =>
  steps.map(([kind, from, to, more], i) => ({
    entry: i + 1,
    at: '2026-05-01T10:00:00Z',
    kind,
    changes: [{ setting: 'rear.rebound.high', from, to, unit: 'clicks' }],
    ...more,
  }));
const FIRST: Step = ['change', 4, 2, { trial: 'a' }];
const off = (...steps: Step[]): string[] => [...trialsNow(log(...steps)).takenBack];
const told = (...steps: Step[]): number[] => [...trialsNow(log(...steps)).ofTrials];

describe('the change of a trial', () => {
  it('is off once it was undone, and on again once it was set again', () => {
    const undo: Step = ['undo', 2, 4, { undoes: 1 }];
    expect(off(FIRST)).toEqual([]);
    expect(off(FIRST, undo)).toEqual(['a']);
    expect(off(FIRST, undo, ['change', 4, 2])).toEqual([]);
    expect(told(FIRST, undo, ['change', 4, 2])).toEqual([2, 3]);
    expect(off(FIRST, undo, ['change', 4, 2], ['undo', 2, 4, { undoes: 3 }])).toEqual(['a']);
  });
  it('is off as well where somebody sets it back by hand', () => {
    expect(off(FIRST, ['change', 2, 4])).toEqual(['a']);
    expect(told(FIRST, ['change', 2, 4])).toEqual([2]);
  });
  it('is where it is found when it is counted', () => {
    expect(off(FIRST, ['counted', 2, 4])).toEqual(['a']);
    expect(off(FIRST, ['counted', 2, 4], ['counted', 4, 2])).toEqual([]);
  });
  it('is neither where it is set elsewhere, which is a change of its own', () => {
    expect(off(FIRST, ['change', 2, 3])).toEqual([]);
    expect(told(FIRST, ['change', 2, 3])).toEqual([]);
    expect(untested(log(FIRST, ['change', 2, 3])).map(({ entry }) => entry)).toEqual([2]);
  });
  it('goes with those before it where it is set back by more', () => {
    const second: Step = ['change', 2, 0, { trial: 'b' }];
    expect(off(FIRST, second, ['change', 0, 2])).toEqual(['b']);
    expect(off(FIRST, second, ['change', 0, 4])).toEqual(['a', 'b']);
  });
  it('waits for no test where it is only put on again', () => {
    const steps: Step[] = [FIRST, ['undo', 2, 4, { undoes: 1 }], ['change', 4, 2]];
    expect(untested(log(...steps)).map(({ entry }) => entry)).toEqual([]);
  });
});
