/** Writes to a log as told by its arguments, and says after each write that it is done. Run as a process of its own. */
import { writeSync } from 'node:fs';
import { LogError } from '../../src/logbook/errors.ts';
import { openLog } from '../../src/logbook/log.ts';

const [home, bike, job, name, number] = process.argv.slice(2) as [string, string, string, string, string];

async function main(): Promise<void> {
  const log = await openLog(home, bike, { now: () => new Date() });
  const count = Number(number);
  switch (job) {
    case 'append':
      for (let i = 0; i < count; i++) {
        await log.append({ kind: 'note', reason: `${name} ${i}` });
        say(`${i}`);
      }
      break;
    case 'forever': {
      // History and a paper in turn; the paper holds its own number twice, far apart.
      const before = (await log.readHistory()).entries.length;
      say('ready');
      for (let i = before; ; i++) {
        await log.append({ kind: 'note', reason: `${i} ${'long '.repeat(count)}${i}` });
        say(`entry ${i}`);
        await log.saveTrial('t', { first: i, filling: 'x'.repeat(4 * count), last: i });
        say(`paper ${i}`);
      }
    }
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
