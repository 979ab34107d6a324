/** Writes to a log as told by its arguments, and says after each write that it is done. Run as a process of its own. */
import { writeSync } from 'node:fs';
import { dieAt } from './dying.ts';
import { LogError } from '../../src/disk/errors.ts';
import { withLock } from '../../src/logbook/lock.ts';
import { openLog } from '../../src/logbook/log.ts';

const [home, bike, job, name, number] = process.argv.slice(2) as [string, string, string, string, string];

async function main(): Promise<void> {
  const log = await openLog(home, job === 'hold' ? 'held' : bike, { now: () => new Date() });
  const count = Number(number);
  switch (job) {
    case 'append':
      for (let i = 0; i < count; i++) {
        await log.append({ kind: 'note', reason: `${name} ${i}` });
        say(`${i}`);
      }
      break;
    case 'die':
      // The paper holds its own number twice, far apart.
      await dieAt(count);
      await log.append({ kind: 'note', reason: `1 ${'long '.repeat(4000)}1` });
      say('entry');
      await log.saveTrial('t', () => ({ first: 1, filling: 'x'.repeat(40_000), last: 1 }));
      say('paper');
      break;
    case 'hold':
      // The second argument is the folder here. A test that was ended first must not leave this running.
      await withLock(bike, async () => {
        say('held');
        const parent = process.ppid;
        while (process.ppid === parent) await new Promise((resolve) => setTimeout(resolve, 50));
      });
      break;
    case 'once':
      // Under a limit of file size a full disk is an error, as on a disk, and not the end of the process.
      process.on('SIGXFSZ', () => undefined);
      await log.append({ kind: 'note', reason: 'y'.repeat(count) });
      say('written');
      break;
    default:
      say(`unknown job ${job}`);
  }
}

function say(text: string): void {
  writeSync(1, `${text}\n`);
}

main().catch((error: unknown) => {
  say(error instanceof LogError ? `LogError ${error.code}: ${error.message} ${error.remedy}` : String(error));
  process.exitCode = 1;
});
