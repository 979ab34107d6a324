/** Prints how often the judge of trials is wrong, and how often it finds what is there. node tests/bench/trials.mjs [trials] */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const trials = Number(process.argv[2] ?? 4000);
const here = path.dirname(new URL(import.meta.url).pathname);
const folder = mkdtempSync(path.join(tmpdir(), 'earshot-bench-'));
try {
  const outfile = path.join(folder, 'simulate.mjs');
  await build({
    stdin: {
      contents: "export * from '../trials/simulate.ts'; export * from '../trials/riders.ts';",
      resolveDir: here,
      loader: 'ts',
    },
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
  });
  const { simulate, kept, NOTHING_THERE, ONE_SIDE_BAD, SOMETHING_THERE } = await import(
    pathToFileURL(outfile).href
  );
  const started = performance.now();
  print(
    `Nothing there: every keep is wrong (${trials} trials a rider; 95 % error about ${margin(0.05)} points)`,
    NOTHING_THERE,
  );
  const worst = Math.max(...NOTHING_THERE.map((rider) => kept(simulate(rider, trials, 1))));
  console.log(`\nWorst rate of false keep: ${percent(worst)} (bound: 5 %)\n`);
  print('One direction is bad, the other does nothing: a keep is wrong, but harmless', ONE_SIDE_BAD);
  console.log('');
  print('Something there: plus / minus, points', SOMETHING_THERE);
  console.log(`\n${Math.round(performance.now() - started)} ms`);

  function print(title, riders) {
    console.log(`${title}\n${'rider'.padEnd(44)}    keep further    half    back  cannot tell`);
    for (const rider of riders) {
      const rates = simulate(rider, trials, 1);
      const cells = [rates.keep, rates.further, rates.half, rates.back].map((rate) =>
        percent(rate).padStart(8),
      );
      console.log(`${rider.name.padEnd(44)}${cells.join('')}${percent(rates['cannot-tell']).padStart(13)}`);
    }
  }
} finally {
  rmSync(folder, { recursive: true });
}

function percent(rate) {
  return `${(100 * rate).toFixed(1)} %`;
}

function margin(rate) {
  return (196 * Math.sqrt((rate * (1 - rate)) / trials)).toFixed(1);
}
