/**
 * Prints how the program reads the field reports: npm run field-cases (builds first).
 * first: its first cause is right; three: a right one is among its first three; wrong: its first is the opposite of right;
 * tolerated: its first is defensible. `scored` is the half that nobody looks at while working on the rules.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

process.chdir(fileURLToPath(new URL('../../..', import.meta.url)));
const outfile = `${process.cwd()}/node_modules/.cache/earshot/field-cases-${process.pid}.mjs`;
mkdirSync('node_modules/.cache/earshot', { recursive: true });
await build({
  entryPoints: ['tests/published/field-cases/table.ts'],
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  outfile,
});
try {
  const { table } = await import(outfile);
  console.log(table());
} finally {
  rmSync(outfile);
}
