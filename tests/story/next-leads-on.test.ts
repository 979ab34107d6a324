/** Whatever state a bike is in: what `next` says leads on, never round in a circle, to riding or to a new interview. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { interview } from '../../src/cli/commands/interview.ts';
import type { Io } from '../../src/host/io.ts';
import { openLog } from '../../src/logbook/log.ts';
import { readTrial } from '../../src/trials/trial-file.ts';
import { scripted, type Player } from '../support/scripted.ts';
import { workshop, type Workshop } from './place.ts';

const SOUND = { 'safety.found': 'none', 'safety.brakes': 'good' };
const PACKS = {
  ...SOUND,
  complaint: 'rows',
  'hit-pattern': 'row',
  'return-speed@front': 'deep',
  'repeated-hits.trend@front': 'worse',
};
const SPIKE = {
  ...SOUND,
  'hit-pattern': 'one',
  'square-edge@front': 'spike',
  'travel-ring@front': 'short',
  'tyre-pressure@front': 'usual',
  'landing@front': 'hard',
  'lever@front': 'open',
  'lever@rear': 'open',
};
/** More than any honest way through the loop takes; a trial of eleven runs is eleven steps. */
const MOST_STEPS = 40;

interface Next {
  readonly kind: string;
  readonly do: string;
  readonly command?: string;
}

/** An interview as the prompt keeps it. */
function kept(shop: Workshop, answers: Readonly<Record<string, string>>, finished = true): void {
  const folder = join(shop.env['EARSHOT_HOME']!, 'interviews');
  mkdirSync(folder, { recursive: true });
  const bike = join(shop.folder, 'bike.yaml');
  const notes = finished ? { interview: { finished: true } } : {};
  writeFileSync(join(folder, 'told.yaml'), stringify({ case: 1, id: 'told', bike, answers, ...notes }));
}

/** The sheet with the number of a knob taken off, as where nobody counted. */
function uncounted(shop: Workshop): void {
  const sheet = parse(shop.sheet()) as { front: { rebound: Record<string, { now?: number }> } };
  for (const knob of Object.values(sheet.front.rebound)) delete knob.now;
  writeFileSync(join(shop.folder, 'bike.yaml'), stringify(sheet));
}

/** The sheet without any sag, measured or wanted. */
function unmeasured(shop: Workshop): void {
  const sheet = parse(shop.sheet()) as { front: { sag?: object } };
  delete sheet.front.sag;
  writeFileSync(join(shop.folder, 'bike.yaml'), stringify(sheet));
}

/** A rider on whose bike nothing is wrong any more: the default to everything, and then home. */
const content: Player = (asked) => {
  if (asked.message === 'What now?') return { choose: 'done for now' };
  return 'listens' in asked && asked.listens === true ? { choose: 'just ask' } : '1';
};

/** Does what a command line of `next` says: at the prompt, with ratings, with a number counted on the bike. */
async function follow(shop: Workshop, command: string, rating: (arm: string) => number): Promise<void> {
  const argv = [...command.matchAll(/'([^']*)'|(\S+)/g)].map((m) => m[1] ?? m[2]!).slice(1);
  const [name, sub] = argv;
  if (name === 'interview') return await hold(shop, argv);
  const { ratings, arm } = sub === 'record' ? await run(shop) : { ratings: [], arm: '' };
  const extra = ratings.flatMap((id) => ['--rating', `${id}=${rating(arm)}`]);
  await shop.out(
    ...argv.map((word) => word.replace(/=[NT]+/, word.includes('sag') ? '=23' : '=3')),
    ...extra,
  );
}

async function hold({ folder, env }: Workshop, argv: readonly string[]): Promise<void> {
  const option = (name: string): string | undefined => {
    const at = argv.indexOf(name);
    return at < 0 ? undefined : argv[at + 1];
  };
  const io = {
    cwd: folder,
    env,
    stdinIsTty: true,
    stdoutIsTty: true,
    out: () => undefined,
    err: () => undefined,
    now: () => new Date(),
  };
  await interview(
    {
      for: 'mechanic',
      log: true,
      rules: [],
      bike: option('--bike'),
      resume: option('--resume'),
      prompter: async () => scripted(content),
    },
    io as unknown as Io,
  );
}

/** What the next run of the open trial is rated by, and where it is ridden. */
async function run(shop: Workshop): Promise<{ ratings: readonly string[]; arm: string }> {
  const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
  const open = (await log.loadTrials()).papers.find((paper) => paper.data['verdict'] === undefined)!;
  const trial = readTrial(open.data);
  if (trial.value === undefined) throw new Error(JSON.stringify(trial.problems));
  const { nextArm } = await import('../../src/trials/sequence.ts');
  return { ratings: trial.value.feelings.map(({ id }) => id), arm: nextArm(trial.value) };
}

/** Follows `next` until the bike is ridden or a new interview begins the loop anew. @returns the kinds on the way */
async function walk(shop: Workshop, rating: (arm: string) => number = () => 4): Promise<string[]> {
  const seen = new Set<string>();
  const kinds: string[] = [];
  for (let n = 0; n < MOST_STEPS; n++) {
    const { next } = (await shop.json('next', '--bike', 'bike.yaml')) as { next: Next };
    kinds.push(next.kind);
    const state = `${next.kind}: ${next.do} ${next.command}`;
    expect(next.command, state).toMatch(/^earshot /);
    expect(seen, `next says this twice: ${state}`).not.toContain(state);
    seen.add(state);
    if (next.kind === 'rest' || next.kind === 'interview') return kinds;
    await follow(shop, next.command!, rating);
  }
  throw new Error(`No end in sight: ${kinds.join(', ')}`);
}

describe('what next says leads on', () => {
  it.each<[string, (shop: Workshop) => void | Promise<unknown>, string[], ((arm: string) => number)?]>([
    ['from a new bike', () => undefined, ['interview']],
    [
      'from an interview that was broken off',
      (shop) => kept(shop, { 'safety.found': 'none' }, false),
      ['resume'],
    ],
    ['from a change that is advised, over its trial', (shop) => kept(shop, PACKS), ['plan', 'ride', 'judge']],
    [
      'from a change that is advised and makes no difference at all',
      (shop) => kept(shop, PACKS),
      ['plan', 'ride'],
      () => 4,
    ],
    [
      'from a change of a knob that nobody counted',
      (shop) => {
        uncounted(shop);
        kept(shop, PACKS);
      },
      ['count', 'plan', 'ride'],
    ],
    [
      'from sag that nobody measured, which is not asked for again once its number is on the sheet',
      (shop) => {
        unmeasured(shop);
        kept(shop, SPIKE);
      },
      ['count', 'plan', 'ride'],
    ],
    [
      'from a repair, which is said to be done',
      (shop) =>
        kept(shop, {
          ...SOUND,
          'stiction@front': 'sticky',
          complaint: 'chatter',
          'chatter@front': 'through',
        }),
      ['repair', 'interview'],
    ],
    ['from a bike to leave alone', (shop) => kept(shop, { ...SOUND, complaint: 'nothing' }), ['rest']],
    [
      'from what the rider could not tell',
      (shop) => kept(shop, { ...SOUND, 'trouble-end': 'cannot-tell' }),
      ['find-out'],
    ],
    [
      'from a bike that must not be ridden, once it is mended',
      (shop) => kept(shop, { ...SOUND, 'safety.found': 'loose' }),
      ['repair'],
    ],
    [
      'from a change that was made without a trial',
      (shop) => shop.out('log', 'change', 'front.rebound.low+2', '--bike', 'bike.yaml'),
      ['try', 'ride'],
    ],
  ])('%s', async (_, make, way, rating = (arm) => ({ reference: 3, plus: 6 })[arm] ?? 2) => {
    const shop = workshop();
    await make(shop);
    const kinds = await walk(shop, rating);
    expect(kinds.filter((kind, i) => kind !== kinds[i - 1]).slice(0, way.length)).toEqual(way);
    expect(['rest', 'interview']).toContain(kinds.at(-1));
  });

  it('names the place of what is measured, with the target where the sheet has none', async () => {
    const shop = workshop();
    unmeasured(shop);
    kept(shop, SPIKE);
    const { next } = (await shop.json('next', '--bike', 'bike.yaml')) as { next: Next };
    expect(next.do).toMatch(/^Measure front sag/);
    expect(next.command).toBe('earshot bike set front.sag=N% front.sag.wanted=T% --bike bike.yaml');
    expect(next.do).toContain("your number in place of N, and the manufacturer's target in place of T");
  });

  it('and needs no bike named while only one has a log', async () => {
    const shop = workshop();
    expect((await shop.run('next')).err).toBe('No bike has a log yet. Name the sheet: --bike bike.yaml.\n');
    await shop.out('log', 'note', 'fresh oil', '--bike', 'bike.yaml');
    expect((await shop.json('next')).next.kind).toBe('interview');
    expect(readFileSync(join(shop.folder, 'bike.yaml'), 'utf8')).toBe(shop.sheet());
  });
});
