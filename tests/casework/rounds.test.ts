import { printDeed, readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import type { Case, CaseAnswer } from '../../src/casework/case.ts';
import { riddenAsItStands, roundsOfCase } from '../../src/casework/retold.ts';
import { changedSince, roundsOf, standsBefore } from '../../src/casework/rounds.ts';
import type { Entry } from '../../src/logbook/entry.ts';
import { withHistory } from '../../src/workspace/bikes/history-of.ts';
import { exampleSheet } from '../bike/example.ts';

/** A history from its entries, numbered and dated. */
const history = (...entries: Partial<Entry>[]): Entry[] =>
  entries.map((entry, i) => ({ entry: i + 1, at: `2026-05-0${i + 1}T10:00:00Z`, kind: 'note', ...entry }));

const turned = (setting: string, from: number, to: number, trial: string): Partial<Entry> => ({
  kind: 'change',
  trial,
  changes: [{ setting, from, to, unit: 'clicks' }],
});
const found = (
  change: string,
  outcome: 'better' | 'same' | 'worse',
  kept: boolean,
  more: Partial<Entry> = {},
): Partial<Entry> => ({
  kind: 'result',
  result: { change: readDeed(change), setting: change.replace(/[+-].*/, ''), outcome, kept },
  ...more,
});
const ANSWERS: readonly CaseAnswer[] = [{ question: 'complaint', answer: 'rows', sure: 'sure' }];

describe('roundsOf', () => {
  it('makes a round of an interview and its trials, what was taken back before what stayed', () => {
    const rounds = roundsOf(
      history(
        found('front.rebound.low+2', 'better', true, { case: 'a', trial: 't' }),
        found('front.rebound.low-2', 'worse', false, { case: 'a', trial: 't' }),
      ),
      () => ANSWERS,
    );
    expect(rounds).toEqual([
      {
        case: 'a',
        answers: ANSWERS,
        results: [
          {
            change: readDeed('front.rebound.low-2'),
            outcome: 'worse',
            kept: false,
            trial: 't',
            date: '2026-05-02',
          },
          {
            change: readDeed('front.rebound.low+2'),
            outcome: 'better',
            kept: true,
            trial: 't',
            date: '2026-05-01',
          },
        ],
      },
    ]);
  });

  it('counts the answers of an interview once, however its trials are spread', () => {
    const rounds = roundsOf(
      history(
        found('bars+5mm', 'same', false, { case: 'a' }),
        found('bars+5mm', 'same', false, { case: 'b' }),
        found('bars-5mm', 'same', false, { case: 'a' }),
      ),
      () => ANSWERS,
    );
    expect(rounds.map((round) => round.answers.length)).toEqual([1, 1, 0]);
  });

  it('puts a trial without an interview into the round before it, or into one of its own', () => {
    const rounds = roundsOf(
      history(
        found('bars+5mm', 'same', false),
        found('bars-5mm', 'same', false),
        found('front.tyre-2psi', 'better', true, { case: 'a' }),
      ),
      () => undefined,
    );
    expect(rounds.map((round) => round.results.length)).toEqual([2, 1]);
  });

  it('does not take for kept what was taken back since', () => {
    const entries = history(
      turned('front.rebound.low', 8, 10, 't'),
      found('front.rebound.low+2', 'better', true, { trial: 't' }),
      { kind: 'undo', undoes: 1, changes: [{ setting: 'front.rebound.low', to: 8, unit: 'clicks' }] },
    );
    expect(roundsOf(entries, () => undefined)[0]!.results[0]!.kept).toBe(false);
    expect(standsBefore(entries)).toEqual([]);
  });

  it('takes for kept what was taken back and put on again, and for the same bike', () => {
    const entries = history(
      turned('front.rebound.low', 8, 10, 't'),
      found('front.rebound.low+2', 'better', true, { trial: 't' }),
      {
        kind: 'undo',
        undoes: 1,
        changes: [{ setting: 'front.rebound.low', from: 10, to: 8, unit: 'clicks' }],
      },
      { kind: 'change', changes: [{ setting: 'front.rebound.low', from: 8, to: 10, unit: 'clicks' }] },
    );
    const [round] = roundsOf(entries, () => undefined);
    expect(round!.results).toMatchObject([{ kept: true }]);
    expect(round!.results[0]!.changedAfter).toBeUndefined();
    expect(changedSince(entries)).toBe(false);
    expect(standsBefore(entries)).toEqual([{ setting: 'front.rebound.low', value: 8, unit: 'clicks' }]);
  });
});

describe('ratings of trials', () => {
  const rated = (id: string, more = {}) =>
    ({
      id,
      results: [
        { change: readDeed('bars+5mm'), outcome: 'worse', kept: true, trial: id, points: -1.5, error: 0.4 },
      ],
      ...more,
    }) as const;

  it('count for a trial that is open or was ended without a word, and keep nothing on the bike', () => {
    const rounds = roundsOf(history(), () => ANSWERS, [rated('t', { case: 'a' }), rated('u')]);
    expect(rounds).toMatchObject([
      { case: 'a', answers: ANSWERS, results: [{ trial: 't' }, { trial: 'u' }] },
    ]);
    expect(rounds[0]!.results.map(({ kept, points }) => [kept, points])).toEqual([
      [false, -1.5],
      [false, -1.5],
    ]);
  });

  it('of a judged trial count once, and give an entry of before its points', () => {
    const entries = history(found('bars+5mm', 'worse', false, { trial: 't' }));
    const [round, ...others] = roundsOf(entries, () => undefined, [rated('t')]);
    expect(others).toEqual([]);
    expect(round!.results).toMatchObject([
      { outcome: 'worse', points: -1.5, error: 0.4, date: '2026-05-01' },
    ]);
  });

  it('that the history tells go before those of the trial file', () => {
    const [entry] = history(found('bars+5mm', 'worse', false, { trial: 't' }));
    const own = { ...entry!, result: { ...entry!.result!, points: -2, error: 0.3 } };
    expect(roundsOf([own], () => undefined, [rated('t')])[0]!.results[0]).toMatchObject({
      points: -2,
      error: 0.3,
    });
  });
});

describe('standsBefore', () => {
  it('says where what trials moved stood before the first of them', () => {
    const entries = history(
      turned('front.rebound.low', 8, 10, 't'),
      turned('front.rebound.low', 10, 12, 'u'),
    );
    expect(standsBefore(entries)).toEqual([{ setting: 'front.rebound.low', value: 8, unit: 'clicks' }]);
  });

  it('leaves alone what nobody tried', () => {
    const entries = history({ kind: 'change', changes: [{ setting: 'bars', from: 5, to: 10, unit: 'mm' }] });
    expect(standsBefore(entries)).toEqual([]);
  });
});

describe('what was changed between two rounds, in no trial', () => {
  const one = found('bars+5mm', 'same', false, { case: 'a' });
  const two = found('bars-5mm', 'same', false, { case: 'b' });
  const set: Partial<Entry> = {
    kind: 'change',
    changes: [{ setting: 'front.tyre', from: 20, to: 22, unit: 'psi' }],
  };
  const backwards = [{ setting: 'front.tyre', from: 22, to: 20, unit: 'psi' }];
  const back: Partial<Entry> = { kind: 'undo', undoes: 2, changes: backwards };
  const changedIn = (...entries: Partial<Entry>[]): (true | undefined)[] =>
    roundsOf(history(...entries), () => []).map(({ changed }) => changed);

  it('is another bike', () => {
    expect(changedIn(one, set, two)).toEqual([undefined, true]);
    expect(changedIn(set, one, two)).toEqual([undefined, undefined]);
  });
  it('is none where it was taken back, or belongs to a trial', () => {
    expect(changedIn(one, set, back, two)).toEqual([undefined, undefined]);
    expect(changedIn(one, { ...set, trial: 't' }, two)).toEqual([undefined, undefined]);
    expect(changedIn(one, { ...set, trial: 't' }, back, two)).toEqual([undefined, undefined]);
  });
  it('is none where it was set back by hand', () => {
    const byHand: Partial<Entry> = { kind: 'change', changes: backwards };
    expect(changedIn(one, set, byHand, two)).toEqual([undefined, undefined]);
    expect(changedIn(one, set, byHand, set, two)).toEqual([undefined, true]);
    const undone: Partial<Entry> = { kind: 'undo', undoes: 3, changes: set.changes! };
    expect(changedIn(one, set, byHand, undone, two)).toEqual([undefined, true]);
  });
  it('marks what was ridden before it, in the same interview too', () => {
    const again = found('bars-5mm', 'same', false, { case: 'a' });
    const marks = (...entries: Partial<Entry>[]): (true | undefined)[] =>
      roundsOf(history(...entries), () => []).flatMap(({ results }) => results.map((r) => r.changedAfter));
    expect(marks(one, set)).toEqual([true]);
    expect(marks(one, set, again)).toEqual([true, undefined]);
    expect(marks(one, again, set, two)).toEqual([true, true, undefined]);
    expect(marks(one, set, back)).toEqual([undefined]);
    expect(marks(set, one, { ...set, trial: 't' })).toEqual([undefined]);
  });
  it('leaves nothing of its own interview that was ridden on the bike as it stands', () => {
    const own = (...entries: Partial<Entry>[]): string[] => {
      const log = history(...entries);
      const rounds = roundsOf(log, () => []);
      const before = exampleSheet('all-knobs');
      const kase: Case = { id: 'a', answers: ANSWERS, results: [], earlier: [] };
      const longer = withHistory(kase, { rounds, before, changed: changedSince(log), left: [], away: [] });
      return riddenAsItStands(roundsOfCase(longer)).map(({ change }) => printDeed(change));
    };
    const again = found('bars-5mm', 'same', false, { case: 'a' });
    expect(own(one)).toEqual(['bars+5mm']);
    expect(own(one, set)).toEqual([]);
    expect(own(one, set, again)).toEqual(['bars-5mm']);
    expect(own(one, set, back)).toEqual(['bars+5mm']);
  });
  it('may have come after the last of them', () => {
    expect(changedSince(history(one, set))).toBe(true);
    expect(changedSince(history(one, set, back))).toBe(false);
    expect(changedSince(history(set, one))).toBe(false);
  });
});
