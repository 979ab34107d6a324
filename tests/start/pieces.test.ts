/** The program in pieces: each hands out what its modules do, once it is made. */
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { runInThisContext } from 'node:vm';
import { expect, it } from 'vitest';
import { scriptOf } from '../../src/start/pieces.ts';
import { PROJECT } from '../process/built-tree.ts';

type Demand = (name: string) => unknown;
type Piece = (module: { exports: unknown }, require: Demand) => void;
const from = (script: string) =>
  runInThisContext(script) as (require: Demand, file: string) => Readonly<Record<string, Piece>>;
const output = (name: string, text: string) => ({
  path: `/here/${name}.js`,
  text,
  contents: new Uint8Array(),
  hash: '',
});
const make = (piece: Piece, require: Demand): Record<string, unknown> => {
  const module = { exports: {} };
  piece(module, require);
  return module.exports;
};

it('holds no piece that asks for itself, by whatever way, and none that hands out what is not there yet', () => {
  const file = join(PROJECT, 'dist/program.cjs');
  const require = createRequire(file);
  const [first, rest] = ['program.cjs', 'rest.cjs'].map((name) =>
    from(readFileSync(join(PROJECT, 'dist', name), 'latin1'))(require, file),
  );
  const pieces = { ...first, ...rest };
  const made = new Map<string, Record<string, unknown>>();
  const making = new Set<string>();
  const circles: string[] = [];
  const demand: Demand = (name) => {
    const piece = pieces[name];
    if (piece === undefined) return require(name);
    if (making.has(name)) circles.push(name);
    making.add(name);
    const one = made.get(name) ?? make(piece, demand);
    making.delete(name);
    made.set(name, one);
    return one;
  };
  for (const name of Object.keys(pieces)) demand(name);
  expect(made.size).toBeGreaterThan(100);
  expect(circles).toEqual([]);
  const missing = [...made].flatMap(([name, one]) =>
    Object.keys(one).flatMap((key) => (one[key] === undefined ? [`${name} ${key}`] : [])),
  );
  expect(missing).toEqual([]);
});

it('puts the helpers of the bundler once before all pieces, and lets a piece ask for another', async () => {
  const script = await scriptOf('/here', [
    output(
      'main',
      "import { one as first } from './part.js'; import fs from 'node:fs'; export const later = () => import('./part.js'); export { first, fs as default };",
    ),
    output('part', 'export const one = 1;'),
  ]);
  expect(script.match(/__defProp=/g)).toHaveLength(1);
  const pieces = from(script)(createRequire('/here/'), '/here/main.js');
  const part = make(pieces['./part.js']!, createRequire('/here/'));
  expect(part).toEqual({ one: 1 });
  const main = make(pieces['./main.js']!, (name) => (name === './part.js' ? part : 'of node'));
  expect(main).toMatchObject({ first: 1, default: 'of node' });
  expect(await (main['later'] as () => Promise<unknown>)()).toBe(part);
});

it('is asked on demand for no library that hands out all it has under one name', () => {
  const folder = join(PROJECT, 'src');
  const asked = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && !file.startsWith('start'))
    .flatMap((file) => [...readFileSync(join(folder, file), 'utf8').matchAll(/import\('([a-z][\w-]*)'\)/g)])
    .map(([, name]) => name!)
    // It finds its own compiled part, and stays outside.
    .filter((name) => name !== 'fs-native-extensions');
  expect(asked.length).toBeGreaterThan(0);
  for (const name of asked) {
    const { type } = JSON.parse(
      readFileSync(join(PROJECT, 'node_modules', name, 'package.json'), 'utf8'),
    ) as { type?: string };
    expect([name, type]).toEqual([name, 'module']);
  }
});

it('refuses a piece whose names get their values only later, and what is no piece', async () => {
  const late = output('late', 'export var x, init = __esm({ a() { x = 1 } });');
  await expect(scriptOf('/here', [late])).rejects.toThrow('./late.js hands out what is made later.');
  await expect(scriptOf('/here', [output('none', 'console.log(1)')])).rejects.toThrow(
    './none.js does not begin as a piece does.',
  );
});
