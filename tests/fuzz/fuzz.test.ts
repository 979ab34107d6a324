/** A short soak with a fixed seed; tests/fuzz/long.mjs goes on for as long as asked. */
import { describe, expect, it } from 'vitest';
import { earshot, shareKept, type Ran } from '../support/io.ts';
import { soak } from './soak.ts';
import { targets } from './targets.ts';
import { faultsOf } from './verdict.ts';

const SEED = 20_260_501;
const THROWS: Readonly<Record<string, number>> = { 'broken rule packs': 5, 'broken logs to learn from': 3 };
const USUAL = 15;

describe('whatever is thrown at the program', () => {
  for (const only of targets) {
    it(`${only.name}: no crash, no stack, only the known exit codes`, async () => {
      const most = THROWS[only.name] ?? USUAL;
      const { findings, throws } = await soak({
        seed: SEED,
        most,
        enough: () => false,
        only,
        furnish: shareKept,
      });
      expect(findings).toEqual([]);
      expect(throws).toBe(most);
    });
  }
});

it('says nothing past its own messages when a key is a list or a map', async () => {
  const warned: string[] = [];
  const listen = (warning: Error): void => void warned.push(warning.message);
  process.on('warning', listen);
  try {
    const stdin = 'case: 1\nid: x\nanswers:\n  ? [a]\n  : row\n  ? {}\n  : 1\n';
    const { code, err } = await earshot(['diagnose', '-'], { stdin });
    // A warning is told on the next turn: what is asked for now comes after it.
    await new Promise((resolve) => setImmediate(resolve));
    expect(code).toBe(1);
    expect(err.trim().split('\n')).toHaveLength(3);
    expect(warned).toEqual([]);
  } finally {
    process.off('warning', listen);
  }
});

describe('the verdict on a run', () => {
  const run = (given: Partial<Ran>): string[] =>
    faultsOf({ argv: ['diagnose', '-', '--format', 'ndjson'] }, { code: 0, out: '', err: '', ...given }, 1);

  it('finds a crash, a stack, an unknown exit code, silence, a moved cursor and a torn line', () => {
    expect(run({})).toEqual([]);
    expect(run({ code: 3, err: 'x' })).toEqual(['exit code 3']);
    expect(run({ code: 2, err: 'This is a fault in earshot 1' })).toEqual(['a crash']);
    expect(run({ code: 2, err: 'x\n    at f (file:///a/b.js:1:2)\n' })).toEqual(['a stack trace']);
    expect(run({ code: 2 })).toEqual(['fails without a word']);
    expect(run({ err: 'x\u001b[2J' })).toEqual(['prints the control character "\\u001b"']);
    expect(run({ out: '{"a":1}\n{"a"' })).toEqual(['a line that is not JSON: {"a"']);
  });
});
