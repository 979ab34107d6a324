/** Whether what the last trial kept is still on the bike, by the log alone. */
import { expect, it } from 'vitest';
import type { Entry } from '../../src/logbook/entry.ts';
import { keptLast } from '../../src/logbook/replay.ts';

const at = '2026-05-01T10:00:00Z';
const change = { changes: [{ setting: 'rear.spring', by: 10, unit: 'lb/in' as const }] };
const stiffer = [{ setting: 'rear.spring.rate', from: 450, to: 460, unit: 'lb/in' }];
const result = { change, setting: 'rear.spring', outcome: 'better', kept: true } as const;
/** A coil, whose rate has a name of its own in the log. */
const KEPT: readonly Entry[] = [
  { entry: 1, at, kind: 'change', changes: stiffer, trial: 't' },
  { entry: 2, at, kind: 'result', trial: 't', result },
];
const UNDO: Entry = {
  entry: 3,
  at,
  kind: 'undo',
  undoes: 1,
  changes: [{ ...stiffer[0]!, from: 460, to: 450 }],
};

it('follows the change of the trial through its undo, and on again', () => {
  expect(keptLast([])).toBeUndefined();
  expect(keptLast(KEPT)).toEqual({ kept: true, takenBack: false });
  expect(keptLast([...KEPT, UNDO])).toEqual({ kept: true, takenBack: true });
  const again: Entry = { entry: 4, at, kind: 'change', changes: stiffer };
  expect(keptLast([...KEPT, UNDO, again])).toEqual({ kept: true, takenBack: false });
});

it('takes another undo for none of this', () => {
  const bars = [{ setting: 'bars', from: 10, to: 5, unit: 'mm' }];
  const other: Entry = { ...UNDO, undoes: 9, changes: bars };
  expect(keptLast([...KEPT, other])).toEqual({ kept: true, takenBack: false });
  expect(keptLast([{ ...KEPT[1]!, result: { ...result, kept: false } }])).toEqual({
    kept: false,
    takenBack: false,
  });
});
