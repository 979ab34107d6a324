/** Where the logs of all bikes live. */
import { resolve } from 'node:path';
import envPaths from 'env-paths';

/** `EARSHOT_HOME` if set, else the platform's own place for data. */
export function logHome(env: Readonly<Record<string, string | undefined>>): string {
  const chosen = env['EARSHOT_HOME']?.trim();
  return chosen ? resolve(chosen) : envPaths('earshot', { suffix: '' }).data;
}
