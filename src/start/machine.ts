/** The loops of the model, and those over all sets, as machine code. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { ROOT } from '../host/root.ts';

/** Stands in for `numbers.ts` among the loops. */
const NUMBERS = join(ROOT, 'src', 'physics', 'machine', 'numbers-in-memory.ts');
/** Folders of loops, each a program of its own, because a case without a bike needs none of the model. */
const PROGRAMS = [
  { sources: 'physics/machine/loops', bytes: 'physics/machine/bytes.js' },
  { sources: 'diagnosis/fast/loops', bytes: 'diagnosis/fast/bytes.js' },
] as const;
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
  const before = kept();
  const all: Record<string, Made> = {};
  for (const program of PROGRAMS) {
    const sources = join(ROOT, 'src', program.sources);
    const of = stamp(asc.version, sources);
    const known = before?.[program.sources];
    const made = known?.of === of ? known : { of, bytes: await compile(asc, sources) };
    all[program.sources] = made;
    writeFileSync(join(ROOT, 'dist', program.bytes), `export const bytes = ${JSON.stringify(made.bytes)};\n`);
  }
  writeFileSync(MADE, JSON.stringify(all));
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

function stamp(version: string, sources: string): string {
  const hash = createHash('sha256').update(version).update(OPTIONS.join(' ')).update(readFileSync(NUMBERS));
  for (const name of readdirSync(sources).sort()) hash.update(name).update(sourceOf(join(sources, name)));
  return hash.digest('hex');
}

/** A loop's text as the compiler takes it: in place of the types that TypeScript has of numbers, its own. */
function sourceOf(path: string): string {
  if (basename(path) === 'numbers.ts') return readFileSync(NUMBERS, 'utf8');
  return readFileSync(path, 'utf8')
    .replace(/^import type .* from '[./\w]*\/numbers.ts';$/m, "import { Counts, Numbers } from './numbers';")
    .replaceAll(/(?<= from ')[./\w]*\/numbers\.ts(?=';$)/gm, './numbers')
    .replaceAll(/(?<=^(?:(?:im|ex)port .*|\}) from '.*)\.ts(?=';$)/gm, '');
}

/** Cut off or spoilt, it is made again. */
function kept(): Readonly<Record<string, Made>> | undefined {
  try {
    return JSON.parse(readFileSync(MADE, 'utf8')) as Record<string, Made>;
  } catch {
    return undefined;
  }
}

async function compile(asc: Compiler, sources: string): Promise<string> {
  const files = new Map<string, Uint8Array>();
  const { error, stderr } = await asc.main(['index.ts', '-o', 'machine.wasm', ...OPTIONS], {
    readFile: (name, base) => {
      const path = join(base === '.' ? sources : base, name);
      if (path === join(sources, 'numbers.ts')) return sourceOf(path);
      if (!existsSync(path)) return null;
      return path.startsWith(sources) ? sourceOf(path) : readFileSync(path, 'utf8');
    },
    writeFile: (name, contents) =>
      void files.set(name, typeof contents === 'string' ? Buffer.from(contents) : contents),
  });
  const code = files.get('machine.wasm');
  if (error !== null || code === undefined)
    throw new Error(`The machine code does not compile.\n${stderr.toString()}`, { cause: error });
  return Buffer.from(code).toString('base64');
}
