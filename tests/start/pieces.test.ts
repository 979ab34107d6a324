/** The one file in pieces: each hands out what its modules do, and hands it out once. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { runInThisContext } from 'node:vm';
import { expect, it } from 'vitest';
import type { Io } from '../../src/host/io.ts';
import { scriptOf } from '../../src/start/pieces.ts';
import { PROJECT } from '../process/built-tree.ts';

type Exports = Record<string, unknown>;
type Piece = (module: { exports: Exports }, exports: Exports, require: (name: string) => unknown) => void;
type Pieces = Readonly<Record<string, Piece>>;
const from = (script: string) =>
  runInThisContext(script) as (require: (name: string) => unknown, file: string) => Pieces;

it('keeps every name that a piece hands out at what it was when the piece was made', async () => {
  const file = join(PROJECT, 'dist/program.cjs');
  const require = createRequire(file);
  const pieces = from(readFileSync(file, 'latin1'))(require, file);
  const made = new Map<string, { exports: Exports; handed: Exports }>();
  const demand = (name: string): unknown => {
    if (pieces[name] === undefined) return require(name);
    let piece = made.get(name);
    if (piece === undefined) {
      made.set(name, (piece = { exports: {}, handed: {} }));
      pieces[name](piece, piece.exports, demand);
      piece.handed = { ...piece.exports };
    }
    return piece.handed;
  };
  const { run } = demand('./main.js') as { run: (line: readonly string[], io: Io) => Promise<number> };
  for (const name of Object.keys(pieces)) demand(name);
  expect(made.size).toBeGreaterThan(100);
  let out = '';
  const io: Io = {
    out: (text) => void (out += text),
    err: () => undefined,
    stdin: (async function* () {})(),
    cwd: PROJECT,
    env: { EARSHOT_HOME: join(PROJECT, 'no-such-home') },
    stdinIsTty: false,
    stdoutIsTty: false,
    stderrIsTty: false,
    width: 80,
    now: () => new Date(),
  };
  expect(await run(['diagnose', 'examples/cases/chatter-to-the-hands.yaml'], io)).toBe(0);
  expect(out).toContain('Do this first');
  for (const [name, { exports, handed }] of made) expect({ name, ...exports }).toEqual({ name, ...handed });
});

it('puts the helpers of the bundler once before all pieces, and lets a piece ask for another', async () => {
  const contents = new Uint8Array();
  const piece = (name: string, text: string) => ({ path: `/here/${name}.js`, text, contents, hash: '' });
  const script = await scriptOf('/here', [
    piece(
      'main',
      "import { one } from './part.js'; export const later = () => import('./part.js'); export { one };",
    ),
    piece('part', 'export const one = 1;'),
  ]);
  expect(script.match(/__defProp=/g)).toHaveLength(1);
  const pieces = from(script)(createRequire('/here/'), '/here/main.js');
  const part = { one: 1 };
  const module = { exports: {} as Exports };
  pieces['./main.js']!(module, module.exports, (name) => (name === './part.js' ? part : undefined));
  expect(module.exports['one']).toBe(1);
  expect(await (module.exports['later'] as () => Promise<unknown>)()).toBe(part);
});

it('refuses a piece whose names get their values only later', async () => {
  const late = {
    path: '/here/late.js',
    text: 'var x, init = __esm({ a() { x = 1 } });',
    contents: new Uint8Array(),
    hash: '',
  };
  await expect(scriptOf('/here', [late])).rejects.toThrow('./late.js hands out what is made later.');
});
