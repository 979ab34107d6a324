/** The loops of the model and those over all sets as machine code, compiled from the folders `machine/assembly/`. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../host/root.ts';

/** Rooms that have machine code. */
const ROOMS = ['physics', 'diagnosis'] as const;
type Room = (typeof ROOMS)[number];

const sourcesOf = (room: Room): string => join(ROOT, 'src', room, 'machine', 'assembly');
const bytesOf = (room: Room): string => join(ROOT, 'dist', room, 'machine', 'bytes.js');
/** The code made last, by what it was made of: compiling takes seconds, and the sources seldom change. */
const madeOf = (room: Room): string => join(ROOT, 'dist', 'start', `machine-${room}.json`);

interface Made {
  readonly of: string;
  readonly bytes: string;
}

/** Where the compiler is not installed, the loops written in TypeScript do all. */
export async function writeMachine(): Promise<void> {
  const asc = await compiler();
  if (asc === undefined) {
    process.stderr.write(
      'The compiler of the machine code is not installed, so the program stays slow to start. In this folder: npm ci\n',
    );
    return;
  }
  for (const room of ROOMS) {
    const of = stamp(asc.version, room);
    let made = kept(room);
    if (made?.of !== of) {
      made = { of, bytes: await compile(asc, sourcesOf(room)) };
      writeFileSync(madeOf(room), JSON.stringify(made));
    }
    writeFileSync(bytesOf(room), `export const bytes = ${JSON.stringify(made.bytes)};\n`);
  }
}

type Compiler = typeof import('assemblyscript/asc');

async function compiler(): Promise<Compiler | undefined> {
  try {
    return await import('assemblyscript/asc');
  } catch {
    return undefined;
  }
}

const OPTIONS = ['-O3', '--runtime', 'stub', '--noAssert', '--initialMemory', '1'] as const;

function stamp(version: string, room: Room): string {
  const sources = sourcesOf(room);
  const hash = createHash('sha256').update(version).update(OPTIONS.join(' '));
  for (const name of readdirSync(sources).sort()) hash.update(name).update(readFileSync(join(sources, name)));
  return hash.digest('hex');
}

/** Cut off or spoilt, it is made again. */
function kept(room: Room): Made | undefined {
  try {
    return JSON.parse(readFileSync(madeOf(room), 'utf8')) as Made;
  } catch {
    return undefined;
  }
}

async function compile(asc: Compiler, sources: string): Promise<string> {
  const files = new Map<string, Uint8Array>();
  const { error, stderr } = await asc.main(['index.ts', '-o', 'machine.wasm', ...OPTIONS], {
    readFile: (name, base) => {
      const path = join(base === '.' ? sources : base, name);
      return existsSync(path) ? readFileSync(path, 'utf8') : null;
    },
    writeFile: (name, contents) =>
      void files.set(name, typeof contents === 'string' ? Buffer.from(contents) : contents),
  });
  const code = files.get('machine.wasm');
  if (error !== null || code === undefined)
    throw new Error(`The machine code does not compile.\n${stderr.toString()}`, { cause: error });
  return Buffer.from(code).toString('base64');
}
