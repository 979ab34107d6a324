import { utimesSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { mulberry32 } from '../trials/simulate.ts';
import { BIKE, childProgram, ended, open, start, tempFolder } from './places.ts';

const KILLS = 200;
const LANES = 4;
const KILLS_A_HOME = 10;
const HOMES = KILLS / LANES / KILLS_A_HOME;
let program = '';
beforeAll(async () => {
  program = await childProgram();
});

interface Found {
  readonly entries: number;
  readonly paper: number;
}

/** What a log holds after a kill; throws when anything in it is half. */
async function read(home: string): Promise<Found> {
  const log = await open(home);
  const { entries } = await log.readHistory();
  entries.forEach((entry, i) => {
    expect(entry.entry).toBe(i + 1);
    expect(entry.reason).toMatch(new RegExp(`^${i} (long )+${i}$`));
  });
  const { papers, problems } = await log.loadTrials();
  expect(problems).toEqual([]);
  const data = papers[0]?.data;
  expect(data?.['first']).toBe(data?.['last']);
  return { entries: entries.length, paper: (data?.['first'] as number | undefined) ?? -1 };
}

/** Kills one writer after a while; the log must hold what was acknowledged, or one write more. */
async function killOnce(home: string, wait: number, length: number): Promise<'early' | 'late'> {
  const before = await read(home);
  const child = start(program, [home, BIKE, 'forever', '', String(length)]);
  const ending = ended(child);
  child.stdout!.once('data', () => setTimeout(() => child.kill('SIGKILL'), wait));
  const { out, signal } = await ending;
  expect(signal).toBe('SIGKILL');
  const told = (what: string, none: number): number =>
    Math.max(
      none,
      ...[...out.matchAll(new RegExp(`^${what} (\\d+)$`, 'gm'))].map((match) => Number(match[1])),
    );
  const found = await read(home);
  const entries = told('entry', before.entries - 1) + 1;
  const paper = told('paper', before.paper);
  expect([entries, entries + 1]).toContain(found.entries);
  expect(found.paper === paper || found.paper === found.entries - 1).toBe(true);
  // The dead writer's lock is old by the time somebody comes back.
  const old = new Date(Date.now() - 60_000);
  try {
    utimesSync(join(home, 'bikes', BIKE, '.lock'), old, old);
  } catch {
    return 'early'; // between two writes: there was no lock
  }
  return 'late';
}

test(
  `killed at ${KILLS} random moments, a log always opens with the old or the new state`,
  { timeout: 120_000 },
  async () => {
    const lanes = Array.from({ length: LANES }, async (_, lane) => {
      const random = mulberry32(lane + 1);
      let inside = 0;
      for (let i = 0; i < KILLS / LANES; i++) {
        const home = homes[lane * HOMES + Math.floor(i / KILLS_A_HOME)]!;
        if ((await killOnce(home, random() * 40, 1 + Math.floor(random() * 20_000))) === 'late') inside += 1;
      }
      return inside;
    });
    const inside = (await Promise.all(lanes)).reduce((sum, one) => sum + one, 0);
    expect(inside).toBeGreaterThan(KILLS / 2); // most kills met a writer at work
  },
);

const homes = Array.from({ length: LANES * HOMES }, () => tempFolder());
