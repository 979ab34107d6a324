/** Changes and takes back through the commands, until it is killed. Run as a process of its own. */
import { writeSync } from 'node:fs';
import type { Io } from '../../src/commands/io.ts';
import { logChange, logUndo } from '../../src/commands/log-write.ts';
import { PLAIN } from '../../src/report/style.ts';

const [home, bike] = process.argv.slice(2) as [string, string];
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

async function main(): Promise<void> {
  // What the last one left standing.
  for (let more = true; more;)
    more = await logUndo({ bike, style: PLAIN }, io).then(
      () => true,
      () => false,
    );
  writeSync(1, 'ready\n');
  // A test that was ended before it could kill this process must not leave it running.
  const parent = process.ppid;
  while (process.ppid === parent) {
    await logChange({ bike, change: 'front.rebound.low+1,rear.spring-5psi', style: PLAIN }, io);
    await logUndo({ bike, style: PLAIN }, io);
  }
}

void main();
