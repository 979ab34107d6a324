import { printDeed, readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import type { CaseResult } from '../../src/casework/case.ts';
import { riddenBefore } from '../../src/casework/ridden-before.ts';
import { riddenLines } from '../../src/report/bike/ridden-text.ts';
import { rules } from '../support/told.ts';

const rode = (change: string, kept: boolean, more: Partial<CaseResult> = {}): CaseResult => ({
  change: readDeed(change),
  outcome: kept ? 'better' : 'worse',
  kept,
  ...more,
});
const found = (change: string, ...results: readonly CaseResult[]) =>
  riddenBefore([{ answers: [], results }], readDeed(change)).map(
    ({ kind, result }) => `${kind} ${printDeed(result.change)}`,
  );

describe('a step that trials know', () => {
  it('was tried before and not kept: the same setting the same way, by whatever amount', () => {
    expect(found('rear.rebound.low-2', rode('rear.rebound.low-1', false))).toEqual([
      'again rear.rebound.low-1',
    ]);
    expect(found('rear.rebound.low-2', rode('rear.rebound.low+2', false))).toEqual([]);
    expect(found('rear.rebound.low-2', rode('rear.rebound.high-2', false))).toEqual([]);
  });

  it('goes back on one that was kept, unless that was taken further since', () => {
    expect(found('rear.rebound.low+2', rode('rear.rebound.low-2', true))).toEqual([
      'reversal rear.rebound.low-2',
    ]);
    expect(
      found('rear.rebound.low+2', rode('rear.rebound.low-2', true), rode('rear.rebound.low+1', true)),
    ).toEqual([]);
  });

  it('goes on from one that was kept: nothing to say', () => {
    expect(found('rear.rebound.low-2', rode('rear.rebound.low-2', true))).toEqual([]);
  });

  it('names the last of several, over all rounds', () => {
    const rounds = [
      rode('front.tyre-1psi', false, { date: '2026-01-01' }),
      rode('front.tyre-1psi', false, { date: '2026-02-02' }),
    ];
    const [again] = riddenBefore(
      rounds.map((result) => ({ answers: [], results: [result] })),
      readDeed('front.tyre-2psi'),
    );
    expect(again?.result.date).toBe('2026-02-02');
  });

  it('has nothing to say of what is no step', () => {
    expect(found('service-the-fork', rode('rear.rebound.low-2', false))).toEqual([]);
  });
});

describe('what is said of it', () => {
  const measured = { points: -1.94, error: 0.41, date: '2026-05-04' };
  it('says when, how it was rated, and why it is advised all the same', () => {
    const again = riddenBefore(
      [{ answers: [], results: [rode('rear.rebound.low-2', false, measured)] }],
      readDeed('rear.rebound.low-2'),
    );
    expect(riddenLines(again, { likely: 0.52, first: true }, { rules })).toEqual([
      'Tried before on 2026-05-04 and not kept: rear low-speed rebound 2 clicks in, rated worse. That is taken into account. 5 in 10 this is still the cause, and it is still the best thing to try: the ratings scatter too much to rule it out.',
    ]);
    expect(riddenLines(again)[0]).toMatch(/That is taken into account\.$/);
  });

  it.each([
    [
      'a word',
      { outcome: 'same', points: undefined, error: undefined },
      [],
      'a word without ratings rules nothing out',
    ],
    [
      'ratings that scatter',
      { outcome: 'same', points: 0, error: 0.9 },
      [],
      'the ratings scatter too much to rule it out',
    ],
    ['one that was better', { outcome: 'better', points: 0.6, error: 0.5 }, [], 'it was rated better'],
    ['one on another bike', { changedAfter: true }, [], 'the bike was changed since'],
    ['one before a step that was kept', {}, [rode('front.tyre-2psi', true)], 'the bike was changed since'],
    ['another amount', { change: readDeed('rear.rebound.low-4') }, [], 'this step has another size'],
  ] as const)('says why it comes again after %s', (_, more, later, why) => {
    const before = { ...rode('rear.rebound.low-2', false, measured), ...more } as CaseResult;
    const again = riddenBefore(
      [{ answers: [], results: [before, ...later] }],
      readDeed('rear.rebound.low-2'),
    );
    const [line] = riddenLines(again, { likely: 0.52, first: true }, { rules });
    expect(line).toMatch(new RegExp(`and it is still the best thing to try: ${why}\\.$`));
  });

  it('says that a reversal is one', () => {
    const back = riddenBefore(
      [{ answers: [], results: [rode('rear.rebound.low-2', true)] }],
      readDeed('rear.rebound.low+2'),
    );
    expect(riddenLines(back, { likely: 0.5, first: true })[0]).toBe(
      'This undoes a change that was kept: rear low-speed rebound 2 clicks in, better. What was said since points the other way.',
    );
    expect(riddenLines(back)[0]).toMatch(/clicks in, better\.$/);
  });
});

describe('of several trials of one setting', () => {
  const equal: Partial<CaseResult> = { outcome: 'same', points: -0.4, error: 0.5 };
  const lines = riddenLines(
    riddenBefore(
      [
        {
          answers: [],
          results: [rode('front.rebound.low-4', false, equal), rode('front.rebound.low-2', false, equal)],
        },
      ],
      readDeed('front.rebound.low-4'),
    ),
    { likely: 0.8, first: true },
  );

  it('names the very step first, and then the other amount', () => {
    expect(lines.map((line) => /\d clicks in/.exec(line)?.[0])).toEqual(['4 clicks in', '2 clicks in']);
  });

  it('calls equal ratings no difference, whatever they count for', () => {
    expect(lines.join(' ')).not.toMatch(/worse|0\.4/);
    expect(lines[0]).toContain('rated no difference');
  });

  it('says once how likely it still is the cause', () => {
    expect(lines.filter((line) => line.includes('still the cause'))).toHaveLength(1);
  });
});
