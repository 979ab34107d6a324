import { readDeed } from '../../src/bike/deed.ts';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { untested } from '../../src/logbook/replay.ts';
import { open, tempFolder } from './places.ts';

const root = tempFolder();

const change = (setting: string, to: number | string) =>
  typeof to === 'number' ? { setting, to, unit: 'clicks' } : { setting, to };

test('cases and trials come back as they were saved, with their ids', async () => {
  const log = await open(join(root, 'a'));
  await log.saveCase('pit-1', { case: 1, answers: { 'hit-pattern': 'row' }, said: 'on: off, yes' });
  await log.saveTrial('Trial 1', () => ({ trial: 1, verdict: 'keep' }));
  const [kase] = (await log.loadCases()).papers;
  expect(kase).toMatchObject({
    id: 'pit-1',
    finished: true,
    data: { case: 1, id: 'pit-1', answers: { 'hit-pattern': 'row' }, said: 'on: off, yes' },
  });
  expect((await log.loadTrials()).papers[0]).toMatchObject({
    id: 'Trial 1',
    data: { trial: 1, verdict: 'keep' },
  });
});

test('an interview that was broken off is unfinished until it is saved as finished', async () => {
  const log = await open(join(root, 'b'));
  await log.saveCase('pit-1', { case: 1, answers: {} }, false);
  expect((await log.loadCases()).papers).toMatchObject([{ id: 'pit-1', finished: false }]);
  await log.saveCase('pit-1', { case: 1, answers: { a: 'b' } });
  expect((await log.loadCases()).papers).toMatchObject([
    { id: 'pit-1', finished: true, data: { answers: { a: 'b' } } },
  ]);
  expect(readdirSync(join(log.folder, 'cases'))).toEqual(['pit-1.yaml']);
});

test('a kill between finishing and tidying up leaves the finished one', async () => {
  const log = await open(join(root, 'c'));
  await log.saveCase('pit-1', { case: 1, answers: {} });
  writeFileSync(join(log.folder, 'cases', 'pit-1.open.yaml'), 'case: 1\nid: pit-1\n');
  expect((await log.loadCases()).papers).toMatchObject([{ finished: true }]);
});

test('one broken file is told with its line, and the others are there all the same', async () => {
  const log = await open(join(root, 'd'));
  await log.saveCase('pit-1', { case: 1 });
  writeFileSync(join(log.folder, 'cases', 'pit-2.yaml'), 'case: 1\nanswers: [\n');
  const { papers, problems } = await log.loadCases();
  expect(papers.map((paper) => paper.id)).toEqual(['pit-1']);
  expect(problems[0]).toMatchObject({ file: join(log.folder, 'cases', 'pit-2.yaml'), line: 3 });
});

test('leftovers of killed writers are neither read nor kept', async () => {
  const log = await open(join(root, 'e'));
  await log.saveCase('pit-1', { case: 1 });
  writeFileSync(join(log.folder, 'cases', '.pit-2.yaml.99-1.aside'), 'case: 1\n');
  expect((await log.loadCases()).papers).toHaveLength(1);
  await log.append({ kind: 'note', reason: 'x' });
  expect(readdirSync(join(log.folder, 'cases'))).toEqual(['pit-1.yaml']);
});

test('of the changes of numbers those are open that nobody tried or took back since', async () => {
  const log = await open(join(root, 'g'));
  await log.append({
    kind: 'start',
    changes: [change('front.rebound.low', 8), change('rear.rebound.low', 6), change('front.tyre', 'old one')],
  });
  await log.append({ kind: 'change', changes: [change('front.rebound.low', 10)], case: 'pit-1' });
  await log.append({ kind: 'change', changes: [change('rear.rebound.low', 7)] });
  await log.append({ kind: 'change', changes: [change('front.tyre', 'soft casing')] });
  expect(untested((await log.readHistory()).entries).map((entry) => entry.entry)).toEqual([2, 3]);
  await log.append({
    kind: 'result',
    trial: 't1',
    result: {
      change: readDeed('front.rebound.low+2'),
      setting: 'front.rebound.low',
      outcome: 'better',
      kept: true,
    },
  });
  await log.undo();
  // the tyre was the last change, so the undo took that one back; the rear rebound is still to be tried
  expect(untested((await log.readHistory()).entries).map((entry) => entry.entry)).toEqual([3]);
});
