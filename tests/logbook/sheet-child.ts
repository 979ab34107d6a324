/** A change, or its undoing, through the commands, until the n-th writing call. Run as a process of its own. */
import { writeSync } from 'node:fs';
import type { Io } from '../../src/host/io.ts';
import { run } from '../../src/main.ts';
import { dieAt } from './dying.ts';

const [home, bike, job, at] = process.argv.slice(2) as [string, string, 'change' | 'undo', string];
const io: Io = {
  out: () => undefined,
  err: (text) => void writeSync(1, text),
  stdin: (async function* () {})(),
  cwd: process.cwd(),
  env: { EARSHOT_HOME: home },
  stdinIsTty: false,
  stdoutIsTty: false,
  stderrIsTty: false,
  width: 80,
  now: () => new Date(),
};

await dieAt(Number(at));
const change = job === 'change' ? ['front.rebound.low+1,rear.spring-5psi'] : [];
await run(['log', job, ...change, '--bike', bike], io);
writeSync(1, 'done\n');
