/**
 * Before all tests: builds when a source or a rule is newer than what was built, so that no test runs on a stale program,
 * and makes the home that tests share which need none of their own, and names the folder for programs made by tests. After them: looks that nothing but what is kept by content was left there.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';

const ROOT = join(import.meta.dirname, '../..');

/** When something in this folder was changed last, in ms. */
function newest(folder: string): number {
  return Math.max(
    ...readdirSync(folder, { recursive: true, withFileTypes: true }).map(
      (entry) => statSync(join(entry.parentPath, entry.name)).mtimeMs,
    ),
  );
}

export default function beforeAll(): () => void {
  // Node reads these at every start, which costs more than the rest of it, and nothing here asks the network.
  delete process.env['NODE_EXTRA_CA_CERTS'];
  freshBuild();
  const home = mkdtempSync(join(tmpdir(), 'earshot-home-'));
  process.env['EARSHOT_TESTS_HOME'] = home;
  const programs = join(ROOT, 'node_modules/.cache/earshot', basename(home));
  process.env['EARSHOT_TESTS_PROGRAMS'] = programs;
  return () => {
    const left = readdirSync(home, { recursive: true, encoding: 'utf8' });
    rmSync(home, { recursive: true });
    rmSync(programs, { recursive: true, force: true });
    const more = left.filter(
      (path) => !/^earshot(\/(bikes|results|rules|numbers|tipping|words)(\/[^/]+)?)?$/.test(path),
    );
    if (more.length > 0) throw new Error(`A test without a home of its own left: ${more.join(' ')}`);
  };
}

function freshBuild(): void {
  if (process.env['EARSHOT_TESTS_FROM'] === 'src') return;
  // The last two things that a build writes.
  const made = ['dist/rules/base.stamp.json', 'dist/program.cjs.cache'].map((path) => join(ROOT, path));
  const since = made.every(existsSync) ? Math.min(...made.map((path) => statSync(path).mtimeMs)) : 0;
  if (Math.max(newest(join(ROOT, 'src')), newest(join(ROOT, 'rules'))) <= since) return;
  process.stderr.write('A source is newer than what was built: building first.\n');
  const run = (...argv: string[]): void =>
    void execFileSync(process.execPath, argv, { cwd: ROOT, stdio: 'inherit' });
  // Types are looked at by `npm run types`.
  run('node_modules/typescript/bin/tsc', '-p', 'tsconfig.json', '--noCheck', '--declaration', 'false');
  run('dist/start/build.js');
}
