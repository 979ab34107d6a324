/** Threads that each tell batches of lines, with rules and bikes of their own. */
import { once } from 'node:events';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { BatchOptions, Told } from './batch-runner.ts';
import type { Hands } from './ordered.ts';
import type { LineBatch } from '../../workspace/cases/records.ts';
import { ROOT } from '../../host/root.ts';

/** What a thread is given to begin with; only data. */
export interface ThreadStart {
  readonly options: Omit<BatchOptions, 'style'>;
  readonly rules: readonly string[];
  readonly bike: string | undefined;
  readonly bikes: readonly string[];
  readonly log: boolean;
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
}

interface Waiting {
  readonly resolve: (told: Told) => void;
  readonly reject: (error: Error) => void;
}

/** A batch being told and one to begin with at once. */
const AHEAD = 2;

export async function threads(count: number, start: ThreadStart): Promise<Hands> {
  const all = Array.from({ length: count }, () => thread(start));
  await Promise.all(all.map(({ begun }) => begun));
  return {
    most: AHEAD * count,
    tell: (batch) => all.reduce((a, b) => (b.busy() < a.busy() ? b : a)).tell(batch),
    close: async () => void (await Promise.all(all.map(({ end }) => end()))),
  };
}

function thread(start: ThreadStart) {
  const worker = new Worker(join(ROOT, 'dist', 'cli', 'batch', 'batch-worker.js'), { workerData: start });
  const waiting: Waiting[] = [];
  worker.on('message', (told: Told) => waiting.shift()!.resolve(told));
  let gone: Error | undefined;
  worker.on('error', (error) => {
    gone = error;
    for (const { reject } of waiting.splice(0)) reject(error);
  });
  return {
    begun: once(worker, 'online'),
    busy: () => waiting.length,
    tell: (batch: LineBatch) =>
      new Promise<Told>((resolve, reject) => {
        // A thread that has ended answers nothing any more.
        if (gone !== undefined) return reject(gone);
        waiting.push({ resolve, reject });
        worker.postMessage(batch);
      }),
    end: () => worker.terminate(),
  };
}
