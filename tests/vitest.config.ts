import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    // inquirer must pass through vite so that the prompt library's testing kit can replace its terminal.
    server: { deps: { inline: [/inquirer/] } },
    testTimeout: 120_000,
    pool: 'threads',
    maxWorkers: 2,
  },
});
