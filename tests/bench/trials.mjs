/** Prints how often the judge of trials is wrong, and how often it finds what is there. node tests/bench/trials.mjs [trials] [short] */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const trials = Number(process.argv[2] ?? 4000);
const short = process.argv[3] === 'short';
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
  const { simulate, ADVISED, HARM_THERE, NOTHING_BUT_BENT, NOTHING_THERE, ON_OTHER_DAYS, SOMETHING_THERE } =
    await import(pathToFileURL(outfile).href);
  console.log(
    `${trials} trials a rider of ${short ? 4 : 6} runs a block; 95 % error about ${margin(0.05)} points at 5 %, ${margin(0.5)} at 50 %.`,
  );
  console.log(`The diagnosis expects help ${percent(ADVISED.helps)}, harm ${percent(ADVISED.harms)}.\n`);
  print('Nothing there: every keep is wrong', NOTHING_THERE);
  print('Nothing there, bent ratings: every keep is wrong', NOTHING_BUT_BENT);
  print('Something there: plus / minus, points', SOMETHING_THERE);
  print('Harm there: every keep is harmful (both ways: of the step; the other way is right)', HARM_THERE);
  if (!short)
    print('Open trials of four runs, believed in by 0.5: the step does so many points', ON_OTHER_DAYS);

  function print(title, riders) {
    console.log(`${title}\n${'rider'.padEnd(46)}    keep further    half    back  cannot tell`);
    for (const rider of riders) {
      if (short && rider.short === true) continue;
      const rates = simulate({ ...rider, short: short || rider.short === true }, trials, 1);
      const cells = [rates.keep, rates.further, rates.half, rates.back].map((rate) =>
        percent(rate).padStart(8),
      );
      console.log(`${rider.name.padEnd(46)}${cells.join('')}${percent(rates['cannot-tell']).padStart(13)}`);
    }
    console.log('');
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
