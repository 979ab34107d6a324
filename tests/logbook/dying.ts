/**
 * Ends this process like a kill at the n-th writing call to the file system: before it, or (of a write) with half of it
 * done. Counting calls instead of waiting for a while meets every step, on any machine.
 */
import fs from 'node:fs';
import { open } from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';

type Call = (...args: unknown[]) => unknown;
const OF_PROMISES = ['rename', 'rm', 'link', 'mkdir', 'unlink'] as const;
const SYNC = ['mkdirSync', 'renameSync', 'linkSync', 'rmSync', 'writeFileSync', 'openSync'] as const;

function writes(flags: unknown): boolean {
  return typeof flags === 'string'
    ? /[wa+]/.test(flags)
    : typeof flags === 'number' && (flags & (fs.constants.O_WRONLY | fs.constants.O_RDWR)) !== 0;
}

/** @param n 1 for the first; what was begun before this call does not count */
export async function dieAt(n: number): Promise<void> {
  let left = n;
  const step = (): void => {
    left -= 1;
    if (left === 0) process.kill(process.pid, 'SIGKILL');
  };
  const wrap = (holder: object, name: string, before: (args: unknown[]) => void): void => {
    const methods = holder as Record<string, Call>;
    const real = methods[name]!;
    methods[name] = function wrapped(this: unknown, ...args: unknown[]) {
      before(args);
      return real.apply(this, args);
    };
  };
  for (const name of OF_PROMISES) wrap(fs.promises, name, step);
  wrap(fs.promises, 'open', ([, flags]) => void (writes(flags) && step()));
  for (const name of SYNC)
    wrap(fs, name, ([, flags]) => void ((name !== 'openSync' || writes(flags)) && step()));
  const probe = await open(process.execPath, 'r');
  const handles = Object.getPrototypeOf(probe) as object;
  await probe.close();
  for (const name of ['sync', 'truncate', 'chmod']) wrap(handles, name, step);
  const write = (handles as Record<string, Call>)['writeFile']!;
  (handles as Record<string, Call>)['writeFile'] = async function half(this: unknown, text: unknown) {
    step();
    const bytes = Buffer.from(text as string);
    await write.call(this, bytes.subarray(0, bytes.length >> 1));
    step();
    await write.call(this, bytes.subarray(bytes.length >> 1));
  };
  syncBuiltinESMExports();
}
