/**
 * A made-up Io: what a command read and wrote, and where. Without a home of its own a test has the one of the whole run,
 * in which nothing may be but what any start may keep: the models of bikes, and rules of one's own.
 */
import { run } from '../../src/main.ts';
import type { Io } from '../../src/host/io.ts';

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
  };
  const code = await run(argv, io);
  return { code, out, err };
}
