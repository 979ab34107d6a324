/** A change, or its undoing, through the commands, until the n-th writing call. Run as a process of its own. */
import { writeSync } from 'node:fs';
import type { Io } from '../../src/commands/io.ts';
import { logChange, logUndo } from '../../src/commands/log-write.ts';
import { PLAIN } from '../../src/report/style.ts';
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
if (job === 'change')
  await logChange({ bike, change: 'front.rebound.low+1,rear.spring-5psi', style: PLAIN }, io);
else await logUndo({ bike, style: PLAIN }, io);
writeSync(1, 'done\n');
