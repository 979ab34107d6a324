/** A home of a test's own in which a start keeps things, and starts of the program in it. */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach } from 'vitest';
import type { Io } from '../../src/host/io.ts';
import { bench } from './told.ts';

export interface KeptHome {
  /** where things of one shelf are kept */
  folder(shelf: string): string;
  files(shelf: string): string[];
  /** one start of the program, with what waits for its end */
  start<T>(run: (io: Io) => T | Promise<T>): Promise<T>;
}

/** A new one for every test of the file. */
export function keptHome(): KeptHome {
  let home = '';
  beforeEach(() => void (home = mkdtempSync(join(tmpdir(), 'kept-'))));
  afterEach(() => rmSync(home, { recursive: true, force: true }));
  const folder = (shelf: string): string => join(home, 'earshot', shelf);
  return {
    folder,
    files: (shelf) => readdirSync(folder(shelf)).filter((name) => name.endsWith('.json')),
    async start(run) {
      const waiting: (() => Promise<void>)[] = [];
      const io = {
        env: { EARSHOT_HOME: home },
        cwd: home,
        afterwards: (later: () => Promise<void>) => void waiting.push(later),
      } as unknown as Io;
      const got = await run(io);
      for (const later of waiting) await later();
      return got;
    },
  };
}

/** The same bench, and one more thing that the sheet says. */
export const withFinding: typeof bench = {
  ...bench,
  findings: [...bench.findings, { setting: 0, reads: 'clicks', deviation: 1, decibans: [] }],
};
