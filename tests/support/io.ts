/**
 * A made-up Io: what a command read and wrote, and where. Without a home of its own a test has the one of the whole run,
 * in which nothing may be but what any start may keep: the models of bikes, and rules of one's own.
 */
import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { run } from '../../src/main.ts';
import type { Io } from '../../src/host/io.ts';

/**
 * Gives a home of a test's own the shelves of the whole run for what is kept by content, so that each bike is worked out once a run.
 * Not for tests of what is kept, nor of how a home is made.
 */
export function shareKept(home: string): void {
  const shelves = join(process.env['EARSHOT_TESTS_HOME']!, 'earshot');
  for (const folder of [home, shelves]) mkdirSync(folder, { recursive: true, mode: 0o700 });
  symlinkSync(shelves, join(home, 'earshot'));
}

/** What a start does once its output is out. */
export interface Afterwards {
  readonly afterwards: (work: () => Promise<void>) => void;
  finish(): Promise<void>;
}

export function afterwards(): Afterwards {
  const waiting: (() => Promise<void>)[] = [];
  return {
    afterwards: (work) => void waiting.push(work),
    async finish() {
      for (const work of waiting) await work();
    },
  };
}

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export interface Given {
  readonly stdin?: string | Uint8Array;
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly tty?: boolean;
  readonly width?: number;
}

export async function earshot(argv: readonly string[], given: Given = {}): Promise<Ran> {
  let out = '';
  let err = '';
  const stdin = given.stdin ?? '';
  const later = afterwards();
  const io: Io = {
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    stdin: (async function* () {
      yield typeof stdin === 'string' ? new TextEncoder().encode(stdin) : stdin;
    })(),
    cwd: given.cwd ?? process.cwd(),
    env: { EARSHOT_HOME: process.env['EARSHOT_TESTS_HOME']!, ...given.env },
    stdinIsTty: given.tty ?? false,
    stdoutIsTty: given.tty ?? false,
    stderrIsTty: given.tty ?? false,
    width: given.width ?? 80,
    now: () => new Date('2026-05-04T10:20:30Z'),
    afterwards: later.afterwards,
  };
  const code = await run(argv, io);
  await later.finish();
  return { code, out, err };
}
