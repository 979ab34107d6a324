/**
 * Where the tests take the program from, and which of them share a worker.
 *
 * An import of `src/` in a test goes to the built file in `dist/`, as node runs it: it costs about half of what it costs
 * through the test runner, and it is what ships. `tests/support/fresh-build.ts` builds first when a source is newer.
 * EARSHOT_TESTS_FROM=src takes the sources instead, as the runs with faults put in do.
 */
import { dirname, resolve, sep } from 'node:path';
import { defineConfig, type TestProjectInlineConfiguration, type ViteUserConfig } from 'vitest/config';
import { ALONE, PROMPTS } from './kinds.ts';

const ROOT = resolve(import.meta.dirname, '..');
const SRC = resolve(ROOT, 'src') + sep;
const fromSources = process.env['EARSHOT_TESTS_FROM'] === 'src';

const built = {
  name: 'built',
  enforce: 'pre' as const,
  resolveId(source: string, importer: string | undefined): string | undefined {
    if (importer === undefined || !source.startsWith('.')) return undefined;
    const path = resolve(dirname(importer), source);
    return path.startsWith(SRC)
      ? resolve(ROOT, 'dist', path.slice(SRC.length).replace(/\.ts$/, '.js'))
      : undefined;
  },
};

function project(
  name: string,
  files: { include: readonly string[]; exclude?: readonly string[] },
  { isolate, sources = fromSources }: { isolate: boolean; sources?: boolean },
): TestProjectInlineConfiguration {
  return {
    plugins: sources ? [] : [built],
    test: {
      name,
      root: ROOT,
      include: [...files.include],
      exclude: [...(files.exclude ?? [])],
      isolate,
      server: {
        deps: {
          // inquirer must pass through vite so that the prompt library's testing kit can replace its terminal.
          inline: sources ? [/inquirer/] : [],
          external: sources ? [] : [/\/dist\//],
        },
      },
      // Against hanging only: no test is meant to hold a time.
      testTimeout: 600_000,
      hookTimeout: 600_000,
      pool: 'threads',
      setupFiles: [],
    },
  };
}

/** @param without files that are left out */
export function configOf(without: readonly string[]): ViteUserConfig {
  return defineConfig({
    test: {
      root: ROOT,
      maxWorkers: 2,
      globalSetup: [resolve(import.meta.dirname, 'support/fresh-build.ts')],
      projects: [
        project(
          'shared',
          { include: ['tests/**/*.test.ts'], exclude: [...ALONE, ...PROMPTS, ...without] },
          { isolate: false },
        ),
        project('alone', { include: ALONE }, { isolate: true }),
        project('prompts', { include: PROMPTS }, { isolate: true, sources: true }),
      ],
    },
  });
}

export default configOf([]);
