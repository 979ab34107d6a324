/** Builds before the tests when a source or a rule is newer than what was built, so that no test runs on a stale program. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const ROOT = join(import.meta.dirname, '../..');

/** When something in this folder was changed last, in ms. */
function newest(folder: string): number {
  return Math.max(
    ...readdirSync(folder, { recursive: true, withFileTypes: true }).map(
      (entry) => statSync(join(entry.parentPath, entry.name)).mtimeMs,
    ),
  );
}

export default function freshBuild(): void {
  if (process.env['EARSHOT_TESTS_FROM'] === 'src') return;
  // The last two things that a build writes.
  const made = ['dist/rules/base.stamp.json', 'dist/quick.cjs'].map((path) => join(ROOT, path));
  const since = made.every(existsSync) ? Math.min(...made.map((path) => statSync(path).mtimeMs)) : 0;
  if (Math.max(newest(join(ROOT, 'src')), newest(join(ROOT, 'rules'))) <= since) return;
  process.stderr.write('A source is newer than what was built: building first.\n');
  execFileSync('npm', ['run', '--silent', 'build'], { cwd: ROOT, stdio: 'inherit' });
}
