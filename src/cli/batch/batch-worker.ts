/** The inside of such a thread: batches in, what is told of them out, one after the other. */
import { parentPort, workerData } from 'node:worker_threads';
import { PLAIN } from '../../report/style.ts';
import { openWorkspace } from '../../workspace/workspace.ts';
import { teller } from './batch-runner.ts';
import type { Io } from '../../host/io.ts';
import type { LineBatch } from '../../workspace/cases/records.ts';
import type { ThreadStart } from './worker-pool.ts';

const { options, rules, bike, bikes, log, cwd, env } = workerData as ThreadStart;
const io: Io = {
  out: () => undefined,
  err: () => undefined,
  stdin: (async function* () {})(),
  cwd,
  env,
  bikes,
  stdinIsTty: false,
  stdoutIsTty: false,
  stderrIsTty: false,
  width: 80,
  now: () => new Date(),
};
const tell = openWorkspace(io, rules, bike, log).then((workspace) =>
  teller(workspace, { ...options, style: PLAIN }),
);
// One at a time: the arrays of a workspace are those of one case.
let last: Promise<unknown> = tell;
parentPort!.on('message', (batch: LineBatch) => {
  // The very first case of all was told elsewhere, so this batch has some before it.
  last = last.then(async () => parentPort!.postMessage(await (await tell)(batch, 1)));
});
