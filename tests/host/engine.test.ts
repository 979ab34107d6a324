import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { runsForLong } from '../../src/host/engine.ts';
import { ROOT } from '../../src/host/root.ts';

it.each([
  ['diagnose case.yaml', false],
  ['diagnose case.json --format json', false],
  ['explain case.yaml --for rider', false],
  ['--rules my-pack diagnose case.yaml', false],
  ['interview', true],
  ['rules audit', true],
  ['diagnose -', true],
  ['diagnose cases.ndjson', true],
  ['diagnose a.yaml --format csv', true],
  ['diagnose a.yaml --format=ndjson', true],
  ['diagnose a.yaml --jobs 2', true],
])('takes `%s` for a line that runs for long: %s', (line, long) => {
  expect(runsForLong(line.split(' '))).toBe(long);
});

it.each([undefined, '99.1'])('asks the engine %s for nothing that it does not know', (engine) => {
  const file = JSON.stringify(join(ROOT, 'dist/host/engine.js'));
  const code = `import(${file}).then((m) => m.compileLess(${JSON.stringify(engine)}))`;
  expect(spawnSync(process.execPath, ['-e', code], { encoding: 'utf8' })).toMatchObject({
    stderr: '',
    status: 0,
  });
});
