/**
 * A long stream through `diagnose -`: nothing lost, order kept, memory flat, also when the reader is slow.
 * node tests/bench/million.mjs [records, default 1000000] [--broken] [further flags of diagnose]
 * With --broken every hundredth record is cut off: it must be told with its line, in order, and the others must stand.
 * Reads the peak memory of the program from /proc, so the memory column needs Linux. Ends with 1 when a record is
 * lost, doubled or out of order.
 */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout as sleep } from 'node:timers/promises';

const ROOT = path.resolve(import.meta.dirname, '../..');
const records = Number(process.argv[2] ?? 1_000_000);
const broken = process.argv.includes('--broken');
const flags = process.argv.slice(3).filter((flag) => flag !== '--broken');
const isBroken = (i) => broken && i % 100 === 99;
const samples = readFileSync(path.join(ROOT, 'examples/batch.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => line.replace(/"id":"[^"]*"/, '"id":"@"'));

/** Feeds as fast as the program takes it, and counts how far ahead of the answers the feeding got. */
async function feed(child, count, state) {
  for (let from = 0; from < count; from += 500) {
    let block = '';
    for (let i = from; i < Math.min(count, from + 500); i++) {
      const line = samples[i % samples.length].replace('@', `n-${i}`);
      block += `${isBroken(i) ? line.slice(0, line.length >> 1) : line}\n`;
    }
    const room = child.stdin.write(block);
    state.fed = Math.min(count, from + 500);
    state.ahead = Math.max(state.ahead, state.fed - state.read);
    if (!room) await new Promise((resolve) => child.stdin.once('drain', resolve));
  }
  child.stdin.end();
}

function peakOf(pid) {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
  } catch {
    return Number.NaN;
  }
}

/** The messages of broken lines, each with the number of its line, in order. */
async function told(stream) {
  const state = { lines: 0, wrong: 0 };
  for await (const line of createInterface({ input: stream })) {
    const at = /:(\d+)(:\d+)?: /.exec(line)?.[1];
    if (at === undefined) continue;
    state.lines++;
    if (Number(at) !== state.lines * 100) state.wrong++;
  }
  return state;
}

async function stream(count, slow) {
  const started = performance.now();
  const child = spawn(
    process.execPath,
    [path.join(ROOT, 'bin/earshot.js'), 'diagnose', '-', '--format', 'ndjson', ...flags],
    {
      stdio: ['pipe', 'pipe', broken ? 'pipe' : 'inherit'],
      env: { ...process.env, EARSHOT_HOME: '/nonexistent' },
    },
  );
  const closed = new Promise((resolve) => child.once('close', resolve));
  const state = { fed: 0, read: 0, ahead: 0 };
  const telling = broken ? told(child.stderr) : Promise.resolve({ lines: 0, wrong: 0 });
  const feeding = feed(child, count, state);
  let wrong = 0;
  let out = 0;
  let peak = 0;
  for await (const line of createInterface({ input: child.stdout })) {
    if (isBroken(state.read)) state.read++;
    if (!line.startsWith(`{"format":1,"case":"n-${state.read}",`) || !line.endsWith('}')) wrong++;
    state.read++;
    out++;
    if (out % 2_000 === 0) {
      peak = Math.max(peak, peakOf(child.pid));
      if (slow) await sleep(250);
    }
  }
  await feeding;
  const code = await closed;
  const faults = await telling;
  const seconds = (performance.now() - started) / 1000;
  console.log(
    [
      String(count).padStart(9),
      slow ? 'slow reader' : 'fast reader',
      `${out} out`,
      ...(broken ? [`${faults.lines} told as broken, ${faults.wrong} of them wrong`] : []),
      `${wrong} wrong`,
      `exit ${code}`,
      `peak ${peak.toFixed(0)} MiB`,
      `fed at most ${state.ahead} ahead`,
      `${Math.round(count / seconds)}/s`,
    ].join('  '),
  );
  const bad = broken ? Math.floor(count / 100) : 0;
  return (
    out === count - bad && faults.lines === bad && wrong + faults.wrong === 0 && code === (bad > 0 ? 1 : 0)
  );
}

let good = true;
good = (await stream(Math.min(records, 10_000), false)) && good;
good = (await stream(Math.min(records, 60_000), true)) && good;
if (records > 10_000) good = (await stream(records, false)) && good;
process.exitCode = good ? 0 : 1;
