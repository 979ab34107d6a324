/** Runs lines of one command in a process of its own, and writes what the engine compiled for them beside the program. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Script } from 'node:vm';
import type { Io } from '../host/io.ts';
import { ROOT } from '../host/root.ts';

/**
 * By the first word of a line; the empty name is that of all others. The engine lets go of what was not used for long, so
 * the plain case is last.
 */
export const LINES: Readonly<Record<string, readonly (readonly string[])[]>> = {
  '': [
    ['predict', '--bike', 'examples/bikes/all-knobs.yaml', '--change', 'front.rebound.low+2'],
    ['report', 'examples/cases/fork-packs-down.yaml'],
    ['explain', 'examples/cases/fork-packs-down.yaml'],
    ['diagnose', 'examples/cases/fork-packs-down.yaml'],
    ['diagnose', 'examples/cases/chatter-to-the-hands.yaml'],
  ],
  '--version': [['--version']],
  diagnose: [
    ['diagnose', 'examples/cases/fork-packs-down.yaml'],
    ['diagnose', 'examples/cases/fork-packs-down.yaml'],
    ['diagnose', 'examples/cases/chatter-to-the-hands.yaml'],
  ],
  explain: [
    ['explain', 'examples/cases/fork-packs-down.yaml'],
    ['explain', 'examples/cases/fork-packs-down.yaml'],
  ],
  predict: [['predict', '--bike', 'examples/bikes/all-knobs.yaml', '--change', 'front.rebound.low+2']],
  report: [
    ['report', 'examples/cases/fork-packs-down.yaml'],
    ['report', 'examples/cases/fork-packs-down.yaml'],
  ],
};

/** Where the compiled form of the program for these lines is. */
export function cacheOf(program: string, name: string): string {
  return `${program}${name === '' ? '' : `.${name}`}.cache`;
}

interface Loader {
  readonly load: (file: string) => {
    /** by file */
    readonly scripts: ReadonlyMap<string, Script>;
    readonly program: { readonly run: (line: readonly string[], io: Io) => Promise<number> };
  };
}

async function compile(program: string, name: string): Promise<void> {
  const { load } = createRequire(import.meta.url)(join(ROOT, 'bin', 'earshot.js')) as Loader;
  const loaded = load(program);
  const home = mkdtempSync(join(tmpdir(), 'earshot-build-'));
  let waiting: (() => Promise<void>)[] = [];
  const io: Io = {
    out: () => undefined,
    err: () => undefined,
    stdin: (async function* () {})(),
    cwd: ROOT,
    env: { EARSHOT_HOME: home },
    stdinIsTty: false,
    stdoutIsTty: false,
    stderrIsTty: false,
    width: 80,
    now: () => new Date(),
    afterwards: (work) => void waiting.push(work),
  };
  try {
    for (const line of LINES[name]!) {
      await loaded.program.run(line, io);
      for (const work of waiting.splice(0)) await work();
    }
    for (const [file, script] of loaded.scripts)
      writeFileSync(cacheOf(file, name), script.createCachedData());
  } finally {
    rmSync(home, { recursive: true });
  }
}

const [program, name] = process.argv.slice(2);
if (program !== undefined && name !== undefined) await compile(program, name);
