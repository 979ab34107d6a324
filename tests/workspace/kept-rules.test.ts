/** What follows from rules other than the built-in ones is kept by their content, and never believed when it was touched. */
import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Io } from '../../src/host/io.ts';
import { keptNumbers } from '../../src/workspace/rules/precomputed.ts';
import { keptWords } from '../../src/workspace/rules/kept-words.ts';
import { rulesOf } from '../support/compile-text.ts';
import type { CompiledWords } from '../../src/words/compiled-words.ts';
import { SMALL } from '../support/small-rules.ts';

let home: string;
beforeEach(() => (home = mkdtempSync(join(tmpdir(), 'kept-'))));
afterEach(() => rmSync(home, { recursive: true, force: true }));

/** One start of the program: works, and then does what waited for its end. @returns how often the numbers were made */
async function start(digest: string): Promise<number> {
  const waiting: (() => Promise<void>)[] = [];
  const io = {
    env: { EARSHOT_HOME: home },
    cwd: home,
    afterwards: (work: () => Promise<void>) => void waiting.push(work),
  } as unknown as Io;
  let made = 0;
  const keep = keptNumbers(io, { ...rulesOf({ 'a.yaml': SMALL }), digest });
  const { x } = keep('a', () => ({ x: Float64Array.of(++made && 0.1, 7) }));
  expect([...x]).toEqual([0.1, 7]);
  for (const work of waiting) await work();
  return made;
}
const file = (): string => {
  const folder = join(home, 'earshot', 'numbers');
  return join(
    folder,
    readdirSync(folder).find((name) => name.endsWith('.json'))!,
  );
};

describe('numbers of rules that are not built in', () => {
  it('are made by the first start, and read by the second', async () => {
    expect([await start('one'), await start('one'), await start('two'), await start('one')]).toEqual([
      1, 0, 1, 0,
    ]);
  });
  it('are made anew when a bit of them was changed, or others may write them', async () => {
    await start('one');
    const bytes = readFileSync(file());
    bytes[bytes.length - 1]! ^= 1;
    writeFileSync(file(), bytes);
    expect(await start('one')).toBe(1);
    expect(await start('one')).toBe(0);
    chmodSync(file(), 0o666);
    expect(await start('one')).toBe(1);
  });
});

describe('phrases of such rules', () => {
  it('are read as they were cut, and cut anew when they were touched', async () => {
    const io = { env: { EARSHOT_HOME: home }, cwd: home } as unknown as Io;
    const rules = { ...rulesOf({ 'a.yaml': SMALL }), digest: 'one' };
    const cut = await keptWords(io, rules);
    const folder = join(home, 'earshot', 'words');
    const path = join(
      folder,
      readdirSync(folder).find((name) => name.endsWith('.json'))!,
    );
    const told = ({ phrases, meanings, stems, concepts }: CompiledWords) => [
      Array.from({ length: phrases.count }, (_, i) => phrases.at(i)),
      meanings,
      stems(),
      [...concepts.starts],
    ];
    const written = readFileSync(path);
    expect(told(await keptWords(io, rules))).toEqual(told(cut));
    expect(readFileSync(path)).toEqual(written);
    writeFileSync(path, written.toString('utf8').replace('"same"', '"some"'));
    expect(told(await keptWords(io, rules))).toEqual(told(cut));
    expect(readFileSync(path, 'utf8')).toContain('"same"');
  });
});
