/** Folders for the tests, and a program that writes to a log in a process of its own. */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { chmodSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll } from 'vitest';
import { openLog, type BikeLog } from '../../src/logbook/log.ts';

export const BIKE = 'park-bike';

/** A folder that is gone after the test file, readable by everyone. */
export function tempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'earshot-log-'));
  chmodSync(folder, 0o755);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A clock that moves on by a minute with every look at it. */
export function clock(start = '2026-05-01T10:00:00Z'): () => Date {
  let time = Date.parse(start) - 60_000;
  return () => new Date((time += 60_000));
}

export function open(home: string, bike = BIKE): Promise<BikeLog> {
  return openLog(home, bike, { now: clock() });
}

const programs = new Map<string, Promise<string>>();

/**
 * A program of this folder as one file for node, inside the project so that it finds the libraries it needs. Made once a worker;
 * the folder goes at the end of the run.
 */
export function childProgram(name = 'child'): Promise<string> {
  let made = programs.get(name);
  if (made === undefined) programs.set(name, (made = bundled(name)));
  return made;
}

async function bundled(name: string): Promise<string> {
  const outfile = join(process.env['EARSHOT_TESTS_PROGRAMS']!, `${name}-${randomUUID()}.mjs`);
  await build({
    entryPoints: [join(import.meta.dirname, `${name}.ts`)],
    bundle: true,
    platform: 'node',
    format: 'esm',
    // Only what cannot be in one file: starting a hundred times over, every file read costs.
    external: ['fs-native-extensions'],
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    minify: true,
    outfile,
    logLevel: 'error',
  });
  return outfile;
}

export interface Ended {
  readonly out: string;
  readonly signal: NodeJS.Signals | null;
}

export function start(
  program: string,
  args: readonly string[],
  ids?: { uid: number; gid: number },
): ChildProcess {
  return spawn(process.execPath, [program, ...args], { stdio: ['ignore', 'pipe', 'inherit'], ...ids });
}

/** All that it printed, once it has ended. */
export function ended(child: ChildProcess): Promise<Ended> {
  let out = '';
  child.stdout!.setEncoding('utf8').on('data', (text: string) => (out += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (_code, signal) => resolve({ out, signal }));
  });
}

/** A disk of so many kB, or undefined where that is not permitted. */
export function smallDisk(kilobytes: number): string | undefined {
  const folder = join(tempFolder(), 'disk');
  mkdirSync(folder);
  try {
    execFileSync('/bin/mount', ['-t', 'tmpfs', '-o', `size=${kilobytes}k`, 'none', folder], {
      stdio: 'ignore',
    });
  } catch {
    return undefined;
  }
  afterAll(() => execFileSync('/bin/umount', [folder]));
  return folder;
}
