/** The loops of the model as machine code, compiled from `physics/machine/loops/`. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from '../host/root.ts';

const SOURCES = join(ROOT, 'src', 'physics', 'machine', 'loops');
/** Stands in for `numbers.ts` among them. */
const NUMBERS = join(SOURCES, '..', 'numbers-in-memory.ts');
const BYTES = join(ROOT, 'dist', 'physics', 'machine', 'bytes.js');
/** The code made last, by what it was made of: compiling takes seconds, and the sources seldom change. */
const MADE = join(ROOT, 'dist', 'start', 'machine.json');

interface Made {
  readonly of: string;
  readonly bytes: string;
}

/** Where the compiler is not installed, the loops run as they stand. */
export async function writeMachine(): Promise<void> {
  const asc = await compiler();
  if (asc === undefined) {
    process.stderr.write(
      'The compiler of the machine code is not installed, so the model stays slow to start. In this folder: npm ci\n',
    );
    return;
  }
  const of = stamp(asc.version);
  let made = kept();
  if (made?.of !== of) {
    made = { of, bytes: await compile(asc) };
    writeFileSync(MADE, JSON.stringify(made));
  }
  writeFileSync(BYTES, `export const bytes = ${JSON.stringify(made.bytes)};\n`);
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

function stamp(version: string): string {
  const hash = createHash('sha256').update(version).update(OPTIONS.join(' '));
  for (const name of readdirSync(SOURCES).sort()) hash.update(name).update(sourceOf(join(SOURCES, name)));
  return hash.digest('hex');
}

/** A loop's text as the compiler takes it: in place of the types that TypeScript has of numbers, its own. */
function sourceOf(path: string): string {
  if (path === join(SOURCES, 'numbers.ts')) return readFileSync(NUMBERS, 'utf8');
  return readFileSync(path, 'utf8')
    .replace(/^import type .* from '.\/numbers.ts';$/m, "import { Numbers } from './numbers';")
    .replaceAll(/(?<=^(?:(?:im|ex)port .*|\}) from '.*)\.ts(?=';$)/gm, '');
}

/** Cut off or spoilt, it is made again. */
function kept(): Made | undefined {
  try {
    return JSON.parse(readFileSync(MADE, 'utf8')) as Made;
  } catch {
    return undefined;
  }
}

async function compile(asc: Compiler): Promise<string> {
  const files = new Map<string, Uint8Array>();
  const { error, stderr } = await asc.main(['index.ts', '-o', 'machine.wasm', ...OPTIONS], {
    readFile: (name, base) => {
      const path = join(base === '.' ? SOURCES : base, name);
      if (!existsSync(path)) return null;
      return path.startsWith(SOURCES) ? sourceOf(path) : readFileSync(path, 'utf8');
    },
    writeFile: (name, contents) =>
      void files.set(name, typeof contents === 'string' ? Buffer.from(contents) : contents),
  });
  const code = files.get('machine.wasm');
  if (error !== null || code === undefined)
    throw new Error(`The machine code does not compile.\n${stderr.toString()}`, { cause: error });
  return Buffer.from(code).toString('base64');
}
