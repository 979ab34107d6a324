/** Throws odd input at the program for a while; the same seed throws the same things in the same order. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { earshot } from '../support/io.ts';
import { dice } from './mutate.ts';
import { layOut, target, type Target, type Throw } from './targets.ts';
import { faultsOf } from './verdict.ts';

export interface Finding {
  readonly seed: number;
  readonly target: string;
  readonly thrown: Throw;
  readonly faults: readonly string[];
  readonly said: string;
}

export interface Soaked {
  readonly throws: number;
  /** how many runs ended with each exit code */
  readonly codes: Readonly<Record<number, number>>;
  readonly slowest: number;
  readonly findings: readonly Finding[];
}

export interface Soak {
  /** throw number n uses seed + n */
  readonly seed: number;
  readonly most: number;
  /** stops before the next throw when this says so */
  readonly enough: () => boolean;
  readonly only?: Target | undefined;
  /** gives the new home of a throw what was kept before; else each start works out everything anew */
  readonly furnish?: (home: string) => void;
  /** told before each throw, so that a hang can be named */
  readonly before?: (seed: number, name: string, thrown: Throw) => void;
}

export async function soak({ seed, most, enough, only, furnish, before }: Soak): Promise<Soaked> {
  const findings: Finding[] = [];
  const codes: Record<number, number> = {};
  let throws = 0;
  let slowest = 0;
  const here = mkdtempSync(join(tmpdir(), 'earshot-fuzz-'));
  try {
    for (; throws < most && !enough(); throws++) {
      layOut(here);
      const roll = dice(seed + throws);
      const { name, make } = only ?? target(roll);
      const thrown = make(roll, here);
      furnish?.(join(here, 'home'));
      before?.(seed + throws, name, thrown);
      const started = performance.now();
      const ran = await earshot(thrown.argv, {
        cwd: here,
        env: { EARSHOT_HOME: join(here, 'home'), NO_COLOR: '1' },
        ...(thrown.stdin === undefined ? {} : { stdin: thrown.stdin }),
      });
      const took = performance.now() - started;
      slowest = Math.max(slowest, took);
      codes[ran.code] = (codes[ran.code] ?? 0) + 1;
      const faults = faultsOf(thrown, ran, took);
      if (faults.length > 0)
        findings.push({
          seed: seed + throws,
          target: name,
          thrown,
          faults,
          said: `${ran.out.slice(0, 600)}\n--\n${ran.err.slice(0, 1500)}`,
        });
    }
  } finally {
    rmSync(here, { recursive: true, force: true });
  }
  return { throws, codes, slowest, findings };
}
