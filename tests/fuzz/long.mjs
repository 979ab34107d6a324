/**
 * Throws odd input at the program for as long as asked: node tests/fuzz/long.mjs [seconds] [seed].
 * A worker does the throwing; a throw that does not come back within a minute is a hang and ends the script with 1.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort as parent, Worker, workerData } from 'node:worker_threads';

const HANG = 60_000;

if (isMainThread) {
  const seconds = Number(process.argv[2] ?? 60);
  const seed = Number(process.argv[3] ?? 1);
  process.chdir(fileURLToPath(new URL('../..', import.meta.url)));
  // Inside the project, so that the bundle finds the project's folder the way the program does.
  const outfile = `${process.cwd()}/node_modules/.cache/earshot/soak-${process.pid}.mjs`;
  const { build } = await import('esbuild');
  mkdirSync('node_modules/.cache/earshot', { recursive: true });
  await build({
    entryPoints: ['tests/fuzz/soak.ts'],
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    outfile,
  });
  const worker = new Worker(new URL(import.meta.url), { workerData: { outfile, seconds, seed } });
  let last = { at: performance.now(), what: 'the start' };
  let peak = 0;
  const watch = setInterval(() => {
    peak = Math.max(peak, process.memoryUsage.rss());
    if (performance.now() - last.at < HANG) return;
    console.log(`HANG: ${last.what}`);
    process.exit(1);
  }, 500);
  worker.on('message', ({ before, soaked }) => {
    if (before !== undefined) last = { at: performance.now(), what: before };
    if (soaked === undefined) return;
    clearInterval(watch);
    rmSync(outfile);
    for (const finding of soaked.findings) console.log(JSON.stringify(finding, null, 1));
    console.log(
      `seed ${seed}: ${soaked.throws} throws in ${seconds} s, exit codes ${JSON.stringify(soaked.codes)}, slowest ${Math.round(soaked.slowest)} ms, most memory ${Math.round(peak / 1e6)} MB, findings ${soaked.findings.length}`,
    );
    process.exitCode = soaked.findings.length === 0 ? 0 : 1;
  });
} else {
  const tell = (message) => parent?.postMessage(message);
  const { outfile, seconds, seed } = workerData;
  const { soak } = await import(outfile);
  const end = performance.now() + seconds * 1000;
  const soaked = await soak({
    seed,
    most: Infinity,
    enough: () => performance.now() > end,
    before: (at, name, thrown) => tell({ before: `seed ${at}, ${name}: ${JSON.stringify(thrown.argv)}` }),
  });
  tell({ soaked });
}
