/** The folder one stands in was removed, or put anew, since the shell went there. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { ROOT } from '../../src/host/root.ts';

const top = mkdtempSync(join(tmpdir(), 'earshot-removed-'));
afterAll(() => rmSync(top, { recursive: true, force: true }));

/** A line of sh, with the program as `earshot`, run in a folder that the line may remove. */
function sh(line: string, env: Readonly<Record<string, string>> = {}): { out: string; err: string } {
  const script = `earshot() { "${process.execPath}" "${ROOT}/bin/earshot.js" "$@"; }
    mkdir -p "${top}/in"; cp "${ROOT}/examples/bikes/coil.yaml" "${top}/in"; cd "${top}/in"; ${line}`;
  const { stdout, stderr } = spawnSync('sh', ['-c', script], {
    encoding: 'utf8',
    timeout: 30_000,
    env: { PATH: process.env['PATH'] ?? '', EARSHOT_HOME: join(top, 'home'), ...env },
  });
  return { out: stdout, err: stderr };
}

const REMOVED = 'rm -r ../in';

it('says in a line that the sheet is not there any more', () => {
  expect(sh(`${REMOVED}; earshot log note hi --bike coil.yaml`).err).toBe(
    'coil.yaml: no such file. Check the name and the folder.\n',
  );
  expect(sh(`${REMOVED}; earshot --version`).out).toMatch(/^earshot /);
});

it('works in the folder that was put in its place', () => {
  const { out, err } = sh(
    'cp -r ../in ../new; rm -r ../in; mv ../new ../in; earshot log note hi --bike coil.yaml',
  );
  expect(err).toBe('');
  expect(out).toMatch(/note +hi\n$/);
});

it('says so when the place of the log is named from there', () => {
  const { err } = sh(`mv coil.yaml ..; ${REMOVED}; earshot log note hi --bike ${top}/coil.yaml`, {
    EARSHOT_HOME: 'home',
  });
  expect(err).toMatch(/^The folder you are in was removed, .*: home\. Change to another folder/);
});
