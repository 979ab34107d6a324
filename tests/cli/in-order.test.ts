import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import type { Told } from '../../src/cli/batch/batch-runner.ts';
import { toldInOrder, type Hands } from '../../src/cli/batch/ordered.ts';
import type { Batch } from '../../src/workspace/cases/records.ts';

const linesOf = (n: number): Batch => ({ file: 'f', folder: '/', first: n, lines: ['x'] });
const records = (n: number): Batch => ({ records: [{ name: `${n}`, folder: '/' }] });
const told = (batch: Batch, by: string): Told => {
  const name = 'lines' in batch ? batch.first : batch.records[0]!.name;
  return { out: `${name}${by} `, err: '', told: 1, failed: 0, failing: [], unreadable: 0 };
};
async function* from(batches: readonly Batch[]): AsyncGenerator<Batch> {
  yield* batches;
}
const here = async (batch: Batch): Promise<Told> => told(batch, '');

/** Hands that take so many turns of the event loop for each batch, and count how many they hold. */
function slowHands(turns: readonly number[], most: number) {
  const seen = { hired: 0, out: 0, most: 0, closed: 0, batches: 0 };
  const hire = async (): Promise<Hands> => {
    seen.hired++;
    return {
      most,
      tell: async (batch) => {
        seen.most = Math.max(seen.most, ++seen.out);
        const wait = turns[seen.batches++ % Math.max(1, turns.length)] ?? 0;
        for (let i = 0; i < wait; i++) await new Promise((resolve) => setImmediate(resolve));
        seen.out--;
        return told(batch, "'");
      },
      close: async () => void seen.closed++,
    };
  };
  return { hire, seen };
}

describe('batches told by several', () => {
  test('come out in the order they came in, however long each takes, with no more out than allowed', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }),
        fc.array(fc.nat(4)),
        fc.integer({ min: 1, max: 5 }),
        async (areLines, turns, most) => {
          const { hire, seen } = slowHands(turns, most);
          const batches = areLines.map((isLines, i) => (isLines ? linesOf(i) : records(i)));
          let out = '';
          for await (const one of toldInOrder(from(batches), here, hire)) out += one.out;
          expect(out.replaceAll("'", '')).toBe(batches.map((_, i) => `${i} `).join(''));
          expect(seen.most).toBeLessThanOrEqual(most);
          expect(seen.closed).toBe(seen.hired);
        },
      ),
    );
  });
  it('are told here while there is but one', async () => {
    const { hire, seen } = slowHands([], 2);
    for await (const one of toldInOrder(from([linesOf(0)]), here, hire)) expect(one.out).toBe('0 ');
    expect(seen.hired).toBe(0);
  });
  it('end the hands when nobody wants more, and when one of them fails', async () => {
    const { hire, seen } = slowHands([], 2);
    for await (const _ of toldInOrder(from([0, 1, 2, 3, 4, 5].map(linesOf)), here, hire))
      if (seen.hired > 0) break;
    expect(seen.closed).toBe(1);
    let closed = 0;
    const failing = async (): Promise<Hands> => ({
      most: 2,
      tell: async () => {
        throw new Error('a thread is gone');
      },
      close: async () => void closed++,
    });
    const all = async () => {
      for await (const _ of toldInOrder(from([0, 1, 2, 3].map(linesOf)), here, failing));
    };
    await expect(all()).rejects.toThrow('a thread is gone');
    expect(closed).toBe(1);
  });
});
