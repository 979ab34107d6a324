/** A real browser for the tests, where the machine has one; what to do where it has none. */
import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';

const CHROMIUM = '/usr/bin/chromium';

export interface NoBrowser {
  /** whether that is a failure, or only worth a notice */
  readonly fails: boolean;
  readonly says: string;
}

/**
 * On a machine of a continuous integration a missing browser is a failure, unless EARSHOT_NO_BROWSER=1 says that it is
 * meant; anywhere else the tests that need one are skipped, and say so.
 */
export function missingBrowser(
  env: Readonly<Record<string, string | undefined>>,
  found: boolean = existsSync(CHROMIUM),
): NoBrowser | undefined {
  if (env['EARSHOT_NO_BROWSER'] === '1')
    return { fails: false, says: 'EARSHOT_NO_BROWSER=1: nothing was looked at in a browser.' };
  if (found) return undefined;
  const says = `There is no ${CHROMIUM}, so nothing was looked at in a browser. On Debian: apt-get install chromium`;
  return { fails: env['CI'] !== undefined && env['CI'] !== '', says };
}

/** Headless, and silent on the network. */
export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
