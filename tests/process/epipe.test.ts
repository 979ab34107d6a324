/** The program between other programs: readers that stop early, read slowly, or are not there at all. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { builtTree, type Tree } from './built-tree.ts';

const RECORDS = 100;
/** Letters of a line, most of them blanks: a few cases fill a pipe. */
const WIDTH = 10_000;
let tree: Tree;
beforeAll(() => {
  tree = builtTree();
  const batch = readFileSync(join(tree.folder, 'examples/batch.ndjson'), 'utf8').trim().split('\n');
  const lines = Array.from({ length: RECORDS }, (_, i) =>
    batch[i % batch.length]!.replace(/"id":"[^"]*"/, `"id":"n-${i}"`).padEnd(WIDTH),
  );
  writeFileSync(join(tree.folder, 'many.ndjson'), `${lines.join('\n')}\n`);
  writeFileSync(join(tree.folder, 'faulty.ndjson'), `${lines.map((line) => `${line}\nno case\n`).join('')}`);
});
afterAll(() => tree.remove());

/** A line of bash in the tree, with `earshot` in it; `code` is that of the program, not of the pipe. */
function bash(line: string): { out: string; err: string; code: number } {
  const script = `earshot() { "${process.execPath}" bin/earshot.js "$@"; echo $? > code; }\n${line}`;
  const { stdout, stderr } = spawnSync('bash', ['-c', script], {
    cwd: tree.folder,
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  return { out: stdout, err: stderr, code: Number(readFileSync(join(tree.folder, 'code'), 'utf8')) };
}

it('says nothing and ends with 0 when the reader has seen enough', () => {
  const ran = bash('earshot diagnose - --format ndjson < many.ndjson | head -n 1');
  expect(ran.out.split('\n')[0]).toContain('"case":"n-0"');
  expect(ran).toMatchObject({ err: '', code: 0 });
  expect(bash('earshot diagnose many.ndjson | head -n 1')).toMatchObject({ err: '', code: 0 });
});

it('loses no record of standard output when nobody reads the messages any more', () => {
  const ran = bash('earshot diagnose faulty.ndjson --format ndjson 2> >(head -c 5 > /dev/null) | cat');
  expect(ran.out.trim().split('\n')).toHaveLength(RECORDS);
  expect(ran.code).toBe(1);
});

it.skipIf(!existsSync('/dev/full'))('says in one line that the disk is full, and ends with 2', () => {
  const ran = bash('earshot diagnose many.ndjson --format ndjson > /dev/full');
  expect(ran.err).toBe(
    'The output could not be written: there is no room left. What was written so far is not all of it.\n',
  );
  expect(ran.code).toBe(2);
});

it('waits for a slow reader: it reads on only as fast as its answers are taken, and loses none', async () => {
  const child = spawn(process.execPath, ['bin/earshot.js', 'diagnose', '-', '--format', 'ndjson'], {
    cwd: tree.folder,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const closed = new Promise<number | null>((resolve) => child.once('close', resolve));
  const lines = readFileSync(join(tree.folder, 'many.ndjson'), 'utf8');
  // Twelve times the file: far more than the pipes and buffers between the two hold.
  let fed = 0;
  const feeding = (async () => {
    for (; fed < 12; fed++)
      if (!child.stdin.write(lines)) await new Promise((resolve) => child.stdin.once('drain', resolve));
    child.stdin.end();
  })();
  let fedWhileWaiting = fed;
  for (let still = 0; still < 5;) {
    await sleep(200);
    still = fed === fedWhileWaiting ? still + 1 : 0;
    fedWhileWaiting = fed;
  }
  expect(fedWhileWaiting).toBeLessThan(6);
  let out = '';
  for await (const chunk of child.stdout) out += String(chunk);
  await feeding;
  expect(await closed).toBe(0);
  const ids = out
    .trim()
    .split('\n')
    .map((line) => /"case":"n-(\d+)"/.exec(line)?.[1]);
  expect(ids).toEqual(Array.from({ length: 12 * RECORDS }, (_, i) => String(i % RECORDS)));
});
