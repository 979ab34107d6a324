import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { historyCsv, historyJson } from '../../src/logbook/export.ts';
import { openLog, type BikeLog } from '../../src/logbook/log.ts';
import { BIKE, clock, open, tempFolder } from './places.ts';

const root = tempFolder();
let count = 0;
const fresh = (): Promise<BikeLog> => open(join(root, String((count += 1))));
const rebound = (to: number, from?: number) =>
  ({ setting: 'front.rebound.low', to, unit: 'clicks', ...(from === undefined ? {} : { from }) }) as const;

async function counted(): Promise<BikeLog> {
  const log = await fresh();
  await log.append({
    kind: 'start',
    changes: [rebound(8), { setting: 'rear.spring', to: 180, unit: 'psi' }],
    reason: 'counted',
  });
  return log;
}

test('a bike without a log has an empty history, and reading makes no folder', async () => {
  const home = join(root, 'never');
  const log = await open(home);
  expect(await log.readHistory()).toEqual({ entries: [] });
  expect(await log.standings()).toEqual({});
  expect(() => readFileSync(home)).toThrow('ENOENT');
});

test('a change of several is taken back from its end on, as it was made', async () => {
  const log = await counted();
  await log.append({
    kind: 'change',
    changes: [rebound(10), { setting: 'rear.spring', to: 170, unit: 'psi' }, rebound(12, 10)],
  });
  const { entry } = await log.undo();
  expect(entry.changes).toEqual([
    { setting: 'front.rebound.low', from: 12, to: 10, unit: 'clicks' },
    { setting: 'rear.spring', from: 170, to: 180, unit: 'psi' },
    { setting: 'front.rebound.low', from: 12, to: 8, unit: 'clicks' },
  ]);
  // Where it stood first is where it stands now.
  expect((await log.standings())['front.rebound.low']).toMatchObject({ value: 8, unit: 'clicks' });
});

test('a change knows where the setting stood before', async () => {
  const log = await counted();
  const { entry, warnings } = await log.append({
    kind: 'change',
    changes: [rebound(10)],
    reason: 'packs down',
  });
  expect(entry).toMatchObject({ entry: 2, changes: [{ setting: 'front.rebound.low', from: 8, to: 10 }] });
  expect(warnings).toEqual([]);
  expect(await log.standings()).toEqual({
    'front.rebound.low': { value: 10, unit: 'clicks', entry: 2 },
    'rear.spring': { value: 180, unit: 'psi', entry: 1 },
  });
});

test('a knob that was turned without being written down is told, and written as found', async () => {
  const log = await counted();
  const { entry, warnings } = await log.append({ kind: 'change', changes: [rebound(11, 9)] });
  expect(warnings).toEqual([
    'front.rebound.low was expected at 8 clicks from closed (entry 1), but was at 9 clicks from closed: it was changed without being recorded.',
  ]);
  expect(entry.changes![0]!.from).toBe(9);
});

test('undo goes back step by step to where the bike was counted, and never deletes', async () => {
  const log = await counted();
  await log.append({ kind: 'change', changes: [rebound(10)] });
  await log.append({ kind: 'change', changes: [{ setting: 'rear.spring', to: 190, unit: 'psi' }] });
  const first = await log.undo();
  expect(first.entry).toMatchObject({
    entry: 4,
    kind: 'undo',
    undoes: 3,
    changes: [{ setting: 'rear.spring', from: 190, to: 180 }],
  });
  await log.undo('wrong way');
  expect((await log.standings())['front.rebound.low']).toMatchObject({ value: 8 });
  await expect(log.undo()).rejects.toMatchObject({ code: 'nothing-to-undo' });
  expect((await log.readHistory()).entries.map((entry) => entry.kind)).toEqual([
    'start',
    'change',
    'change',
    'undo',
    'undo',
  ]);
});

test('a change after an undo is undone first', async () => {
  const log = await counted();
  await log.append({ kind: 'change', changes: [rebound(10)] });
  await log.undo();
  await log.append({ kind: 'change', changes: [rebound(6)] });
  expect((await log.undo()).entry).toMatchObject({ undoes: 4, changes: [{ from: 6, to: 8 }] });
});

test('counting afresh draws a line that undo does not cross', async () => {
  const log = await counted();
  await log.append({ kind: 'change', changes: [rebound(10)] });
  await log.append({ kind: 'start', changes: [rebound(9)], reason: 'counted again' });
  await expect(log.undo()).rejects.toMatchObject({ code: 'nothing-to-undo' });
});

test('a change from nobody knows where has no way back, and says what to do', async () => {
  const log = await fresh();
  await log.append({ kind: 'change', changes: [rebound(10)] });
  await expect(log.undo()).rejects.toMatchObject({
    code: 'no-way-back',
    remedy: expect.stringContaining('recommended setting'),
  });
});

test('the difference between two times, either way round', async () => {
  const log = await counted(); // 10:00
  await log.append({ kind: 'change', changes: [rebound(10)] }); // 10:01
  await log.append({ kind: 'change', changes: [rebound(12)] }); // 10:02
  await log.append({ kind: 'change', changes: [{ setting: 'front.tyre', to: 'soft casing' }] }); // 10:03
  const [start, end] = [new Date('2026-05-01T10:00:30Z'), new Date('2026-05-01T10:05:00Z')];
  const expected = [
    { setting: 'front.rebound.low', unit: 'clicks', before: 8, after: 12, entries: [2, 3] },
    { setting: 'front.tyre', after: 'soft casing', entries: [4] },
  ];
  expect(await log.diff(start, end)).toEqual(expected);
  expect(await log.diff(end, start)).toEqual(expected);
  expect(await log.diff(end, end)).toEqual([]);
});

test('a clock that goes back is told; the order of the entries stays the truth', async () => {
  const home = join(root, 'clock');
  const late = await openLog(home, BIKE, { now: clock('2026-05-02T10:00:00Z') });
  await late.append({ kind: 'start', changes: [rebound(8)] });
  const early = await openLog(home, BIKE, { now: clock('2026-05-01T10:00:00Z') });
  const { entry, warnings } = await early.append({ kind: 'change', changes: [rebound(10)] });
  expect(entry).toMatchObject({ entry: 2, clockWentBack: true });
  expect(warnings[0]).toContain('one of the two is wrong');
  expect((await early.standings())['front.rebound.low']).toMatchObject({ value: 10 });
  expect(await early.diff(new Date('2026-05-01T12:00:00Z'), new Date('2026-05-03T00:00:00Z'))).toHaveLength(
    1,
  );
  expect((await early.undo()).entry).toMatchObject({ undoes: 2, changes: [{ from: 10, to: 8 }] });
});

test('a torn end counts for nothing, and is put aside before the next entry', async () => {
  const log = await counted();
  const file = join(log.folder, 'history.yaml');
  const whole = readFileSync(file, 'utf8');
  appendFileSync(file, '---\nentry: 2\nkind: change\nreason: half a sen');
  const { entries, unfinished } = await log.readHistory();
  expect(entries).toHaveLength(1);
  expect(unfinished).toMatchObject({ line: whole.split('\n').length });
  const { entry } = await log.append({ kind: 'note', reason: 'after' });
  expect(entry.entry).toBe(2);
  expect(readFileSync(file, 'utf8')).toMatch(/^(?!.*half a sen)/s);
  expect(readFileSync(join(log.folder, 'history.unfinished.yaml'), 'utf8')).toContain('reason: half a sen');
});

test('a file with a mistake takes no entry and is not touched', async () => {
  const log = await counted();
  const file = join(log.folder, 'history.yaml');
  const broken = readFileSync(file, 'utf8').replace('kind: start', 'kind: strat');
  writeFileSync(file, broken);
  await expect(log.append({ kind: 'note', reason: 'x' })).rejects.toMatchObject({
    code: 'broken-file',
    message: expect.stringMatching(/history\.yaml:5:7: kind: found "strat", .+ Did you mean start\?/),
  });
  expect(readFileSync(file, 'utf8')).toBe(broken);
});

test('an entry that could not be read back is not written', async () => {
  const log = await counted();
  for (const draft of [
    { kind: 'change' },
    { kind: 'change', changes: [rebound(Number.NaN)] },
    { kind: 'result', reason: 'fine' },
    { kind: 'party', reason: 'x' },
  ]) {
    await expect(log.append(draft as never)).rejects.toMatchObject({ code: 'bad-entry' });
  }
  expect((await log.readHistory()).entries).toHaveLength(1);
});

test('exported as CSV: a row a setting, quoted where it must be', async () => {
  const log = await counted();
  await log.append({ kind: 'note', reason: 'he said "fine",\nthen left' });
  const { entries } = await log.readHistory();
  expect(historyCsv(entries)).toBe(
    [
      'entry,logged_at,kind,setting,set_from,set_to,unit,outcome,reason,case_id,trial,undoes',
      '1,2026-05-01T10:00:00.000Z,start,front.rebound.low,,8,clicks,,counted,,,',
      '1,2026-05-01T10:00:00.000Z,start,rear.spring,,180,psi,,counted,,,',
      '2,2026-05-01T10:01:00.000Z,note,,,,,,"he said ""fine"",\nthen left",,,',
      '',
    ].join('\r\n'),
  );
  expect(JSON.parse(historyJson(log.bike, entries))).toEqual({ format: 1, bike: BIKE, entries });
});
