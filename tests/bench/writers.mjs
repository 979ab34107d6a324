/**
 * Eight processes that write to one log at once: node tests/bench/writers.mjs [writers, default 8] [writes, default 500].
 * Build first. Every write that was acknowledged must be there, once and in order; one that was refused must have left
 * nothing. Ends with 1 otherwise.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { openLog } from '../../dist/logbook/log.js';

const [, self, role = '8', second = '500', name, count] = process.argv;
if (role === 'write') {
  const log = await openLog(second, 'birch', { now: () => new Date() });
  for (let i = 0; i < Number(count); i++)
    await log.append({ kind: 'note', reason: `${name} ${i}` }).then(
      () => process.stdout.write(`${name} ${i}\n`),
      (error) => process.stdout.write(`refused ${name} ${i}: ${error.code}\n`),
    );
} else {
  const home = mkdtempSync(path.join(tmpdir(), 'earshot-writers-'));
  const [writers, writes] = [Number(role), Number(second)];
  const begun = performance.now();
  const told = await Promise.all(
    Array.from({ length: writers }, (_, i) => {
      const own = Math.floor(writes / writers) + (i < writes % writers ? 1 : 0);
      const child = spawn(process.execPath, [self, 'write', home, `w${i}`, String(own)], {
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      let out = '';
      child.stdout.setEncoding('utf8').on('data', (text) => (out += text));
      return new Promise((resolve) => child.on('close', () => resolve(out.trim().split('\n'))));
    }),
  );
  const took = (performance.now() - begun) / 1000;
  const log = await openLog(home, 'birch', { now: () => new Date() });
  const { entries } = await log.readHistory();
  const reasons = entries.map(({ reason }) => reason);
  const acknowledged = told.flat().filter((line) => !line.startsWith('refused'));
  const refused = told.flat().length - acknowledged.length;
  const inOrder = entries.every(({ entry }, i) => entry === i + 1);
  const same = told.every((lines) => {
    const own = lines.filter((line) => !line.startsWith('refused'));
    const there = reasons.filter((reason) =>
      reason.startsWith(`${lines[0].replace(/^refused /, '').split(' ')[0]} `),
    );
    return JSON.stringify(own) === JSON.stringify(there);
  });
  const left = readdirSync(home, { recursive: true }).filter((one) => String(one).endsWith('.aside'));
  const well = inOrder && same && left.length === 0 && reasons.length === acknowledged.length;
  console.log(
    `${writers} writers, ${acknowledged.length} writes acknowledged, ${refused} refused, ${reasons.length} in the log, ${inOrder ? 'numbered in order' : 'OUT OF ORDER'}, ${same ? 'each writer’s in its order' : 'NOT THE SAME'}, ${took.toFixed(1)} s`,
  );
  rmSync(home, { recursive: true, force: true });
  process.exitCode = well ? 0 : 1;
}
