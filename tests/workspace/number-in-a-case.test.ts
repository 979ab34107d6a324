/** A number in a saved case, from the file to the bench. */
import { describe, expect, it } from 'vitest';
import type { Io } from '../../src/host/io.ts';
import { ROOT } from '../../src/host/root.ts';
import { openWorkspace, type Opened } from '../../src/workspace/workspace.ts';
import { exampleData } from '../bike/example.ts';

const io = {
  cwd: ROOT,
  env: { EARSHOT_HOME: process.env['EARSHOT_TESTS_HOME'] },
  err: () => undefined,
} as unknown as Io;
const bare = openWorkspace(io, []);
const bike = (() => {
  const data = exampleData('all-knobs');
  const rear = data['rear'] as object;
  return { ...data, rear: { ...rear, sag: { measured: '29%', wanted: '35%' } } };
})();
const record = (data: object) => ({ name: 'case.yaml', folder: ROOT, data: { case: 1, ...data } });
const opened = async (data: object): Promise<Opened> => {
  const one = await (await bare).open(record(data));
  if ('faults' in one) throw new Error(one.faults.join('\n'));
  return one;
};

describe('a number in a saved case', () => {
  it('is held against the target on the sheet, named or written in the case or given beside it', async () => {
    const answers = { 'tyre-target@front': { measured: '23 psi' } };
    const file = 'examples/bikes/all-knobs.yaml';
    const given = await openWorkspace(io, [], file);
    for (const [workspace, data] of [
      [await bare, { bike: file, answers }],
      [await bare, { bike: exampleData('all-knobs'), answers }],
      [given, { answers }],
    ] as const)
      expect(await workspace.open(record(data))).toMatchObject({
        kase: { answers: [{ question: 'tyre-target@front', answer: 'target' }] },
      });
    const { kase, bench } = await opened({ bike, answers: { 'sag@rear': { measured: '33 %' } } });
    expect(kase.answers[0]).toMatchObject({ answer: 'target' });
    expect(bench.sheet!.ends.rear).toMatchObject({ sagMeasured: 0.33, sagWanted: 0.35 });
  });
  it('is the same after a trial that left the bike as it was', async () => {
    const told = { bike, answers: { 'sag@rear': { measured: '40 %' } } };
    const before = await opened(told);
    const after = await opened({ ...told, results: [{ change: 'rear.rebound.low+2', outcome: 'same' }] });
    expect(after.bench.sheet!.ends.rear.sagMeasured).toBe(0.4);
    expect(after.bench.prior).toEqual(before.bench.prior);
  });
  it('tells of a bike that cannot be read', async () => {
    const answers = { 'sag@rear': { measured: '33 %' } };
    expect(await (await bare).open(record({ bike: 'nowhere.yaml', answers }))).toEqual({
      faults: [expect.stringMatching(/^case\.yaml: bike: .*nowhere\.yaml/)],
    });
    expect(await (await bare).open(record({ bike: 7, answers }))).toEqual({
      faults: [expect.stringMatching(/bike/)],
    });
  });
});
