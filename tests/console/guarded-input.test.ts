import { PassThrough } from 'node:stream';
import { expect, it } from 'vitest';
import { guardInput } from '../../src/console/guarded-input.ts';

it('takes no key that waited in the terminal while the machine held the program up, however late it is heard', async () => {
  let now = 0;
  const timers = new Set<() => void>();
  const clock = {
    now: () => now,
    after: (_: number, then: () => void) => {
      timers.add(then);
      return () => void timers.delete(then);
    },
  };
  const turn = (): Promise<void> => new Promise((resolve) => setImmediate(() => setImmediate(resolve)));
  const ring = async (): Promise<void> => {
    for (const one of timers) {
      timers.delete(one);
      one();
    }
    await turn();
  };
  const input = new PassThrough();
  const guarded = guardInput(input, new PassThrough(), () => undefined, clock);
  let got = '';
  guarded.stream.on('data', (chunk: Buffer) => (got += chunk.toString()));
  guarded.open('choice');
  // Five seconds in which it did not run; the key came before the prompt.
  now = 5000;
  input.write('1');
  await turn();
  await ring();
  expect(got).toBe('');
  now = 6000;
  input.write('2');
  await turn();
  now = 6100;
  await ring();
  expect(got).toBe('2');
  guarded.close();
  expect(timers.size).toBe(0);
});
