/**
 * Whether nine-in-ten intervals of `rules learn` hold nine times in ten, and how often luck moves a word.
 * node tests/bench/coverage.mjs [logs] [unlike]      unlike: only the row of riders unlike the pack
 */
import { mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const logs = Number(process.argv[2] ?? 40);
process.chdir(fileURLToPath(new URL('../..', import.meta.url)));
const outfile = `${process.cwd()}/node_modules/.cache/earshot/coverage-${process.pid}.mjs`;
mkdirSync('node_modules/.cache/earshot', { recursive: true });
await build({
  entryPoints: ['tests/evaluation/coverage.ts'],
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  outfile,
});
try {
  const { coverage } = await import(outfile);
  for (const [cases, careless] of [
    [50, false],
    [300, false],
    [1000, false],
    [300, true],
  ].filter(([, careless]) => careless || process.argv[3] !== 'unlike')) {
    const c = coverage(cases, logs, careless);
    console.log(
      `${logs} logs of ${cases} cases${careless ? ' of riders unlike the pack' : ''}: ${((100 * c.within) / c.all).toFixed(1)} % of ${c.all} intervals hold; of ${c.plain} by the pack's own words, ${c.moved} moved any`,
    );
  }
} finally {
  rmSync(outfile);
}
