/** The step that an interview advised, ridden without a trial: how it went is told there, and gone on from. */
import { describe, expect, it } from 'vitest';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { interview } from '../../src/cli/commands/interview.ts';
import type { Io } from '../../src/host/io.ts';
import { PLAIN } from '../../src/report/style.ts';
import { afterwards } from '../support/io.ts';
import { scripted, type Player, type Press } from '../support/scripted.ts';
import { workshop, type Workshop } from '../story/place.ts';

const ANSWERS = {
  'hit-pattern': 'row',
  'trouble-end': 'front',
  'repeated-hits.trend@either': 'worse',
  'safety.found': 'none',
  'safety.brakes': 'good',
  'recent-change': 'none',
  'liveliness@front': 'dead',
};
const TOLD = { case: 1, id: 'told', said: 'each hit harsher', tried: [], answers: ANSWERS };

/** Ends every question at once, and presses these at "What now?" and behind it; then it is done. */
function atTheEnd(...keys: Press[]): Player {
  const left = [...keys];
  return ({ message }) => {
    if (message === 'What now?') return left.shift() ?? { choose: 'done for now' };
    return message === 'How did it go?' ? left.shift() : 'f';
  };
}

async function resume(shop: Workshop, file: string, player: Player, more = {}) {
  let said = '';
  const later = afterwards();
  const io = {
    afterwards: later.afterwards,
    cwd: shop.folder,
    env: shop.env,
    stdinIsTty: true,
    stdoutIsTty: true,
    stderrIsTty: true,
    width: 80,
    out: (text: string) => void (said += text),
    err: (text: string) => void (said += text),
    stdin: (async function* () {})(),
    now: () => new Date('2026-05-04T10:20:30Z'),
  } as unknown as Io;
  const prompter = scripted(player, 'interrupt', PLAIN);
  const code = await interview(
    {
      for: 'mechanic',
      log: true,
      rules: [],
      resume: file,
      save: file,
      ...more,
      prompter: async () => prompter,
    },
    io,
  );
  await later.finish();
  const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
  return { code, said: flat(said), shown: flat(prompter.shown), prompter };
}
const RODE: Press = { choose: 'I rode it' };
const onBike = (): { readonly shop: Workshop; readonly file: string } => {
  const shop = workshop();
  return { shop, file: shop.writeCase('told.yaml', { ...TOLD, bike: 'bike.yaml' }) };
};
interface Entry {
  readonly kind: string;
  readonly result?: object;
}
const entriesOf = async (shop: Workshop): Promise<readonly Entry[]> =>
  (await shop.json('log', 'history', '--bike', 'bike.yaml')).entries;

describe('on a bike with a sheet', () => {
  it('writes what is better and not gone on the sheet and in the log, and goes the same way on', async () => {
    const { shop, file } = onBike();
    const { said, shown, code } = await resume(shop, file, atTheEnd(RODE, { choose: 'not gone' }));
    expect(code).toBe(0);
    expect(shown).toMatch(
      /low-speed rebound: 2 clicks out \(8 → 10.*Open the front low-speed rebound: 1 click out \(10 → 11/,
    );
    expect(said).toContain('The bike sheet now says front low-speed rebound 10 clicks from closed.');
    expect(shop.sheet()).toContain('low: { clicks: 16, now: 10,');
    const [change, result] = (await entriesOf(shop)).slice(-2);
    expect(change).toMatchObject({ kind: 'change', case: 'told' });
    expect(result!.result).toEqual({
      change: 'front.rebound.low+2',
      setting: 'front.rebound.low',
      outcome: 'better',
      kept: true,
    });
    // The one that it went on with is another interview, told of the bike as it is now.
    const [name] = readdirSync(join(shop.env['EARSHOT_HOME']!, 'interviews')).filter((n) =>
      n.endsWith('.yaml'),
    );
    const next = parse(readFileSync(join(shop.env['EARSHOT_HOME']!, 'interviews', name!), 'utf8'));
    expect(next).toMatchObject({ said: TOLD.said, answers: ANSWERS });
    expect(next.id).not.toBe('told');
    expect((await shop.json('next', '--bike', 'bike.yaml')).next.do).toContain('1 click out (10 → 11');
  });
  it('has what was no better put back, and counts it', async () => {
    const { shop, file } = onBike();
    const before = shop.sheet();
    const { said, shown } = await resume(shop, file, atTheEnd(RODE, { choose: 'worse' }));
    expect(said).toContain('Put it back now: front low-speed rebound 8 clicks from closed.');
    expect(shop.sheet()).toBe(before);
    expect((await entriesOf(shop)).findLast(({ kind }) => kind === 'result')?.result).toMatchObject({
      outcome: 'worse',
      kept: false,
    });
    expect(shown).toMatch(
      /Do this first Open the front low-speed .* Do this first Open the front high-speed/,
    );
  });
  it('says what is next where what bothered is gone', async () => {
    const { shop, file } = onBike();
    const { said } = await resume(shop, file, atTheEnd(RODE, { choose: 'is gone' }));
    expect(said).toContain('Nothing to do: the last change was kept.');
    expect((await entriesOf(shop)).findLast(({ kind }) => kind === 'result')?.result).toMatchObject({
      outcome: 'better',
      kept: true,
    });
  });
  it('is not offered where the knob was never counted, so that nothing told of it is lost', async () => {
    const { shop, file } = onBike();
    writeFileSync(
      join(shop.folder, 'bike.yaml'),
      shop.sheet().replace('low: { clicks: 16, now: 8,', 'low: { clicks: 16,'),
    );
    const { prompter, shown } = await resume(shop, file, atTheEnd());
    expect(shown).toContain('Open the front low-speed rebound');
    expect(prompter.shown).not.toContain('I rode it');
  });
  it('is gone back from without a word written', async () => {
    const { shop, file } = onBike();
    const { prompter } = await resume(shop, file, atTheEnd(RODE, 'b'));
    expect(prompter.asked.filter(({ message }) => message === 'What now?')).toHaveLength(2);
    expect((await entriesOf(shop)).some(({ kind }) => kind === 'result')).toBe(false);
  });
  it('is not asked where the log is left out', async () => {
    const { shop, file } = onBike();
    const { prompter } = await resume(shop, file, atTheEnd(), { log: false });
    const last = prompter.asked.findLast(({ message }) => message === 'What now?');
    expect(last?.choices.map(({ name }) => name)).not.toContain('I rode it: say how it went');
  });
});

describe('on a bike that was told of', () => {
  const has = { front: { spring: 'air', rebound: 'one' }, rear: { spring: 'air', rebound: 'one' } };

  it('knows that a lever which was opened stands open, and advises it no more', async () => {
    const shop = workshop();
    const safe = { 'safety.found': 'none', 'safety.brakes': 'good' };
    const answers = { ...safe, complaint: 'stiff', 'trouble-end': 'front', 'lever@front': 'closed' };
    const closed = { kind: 'hardtail', front: { spring: 'air', rebound: 'one', lever: 'closed' } };
    const file = shop.writeCase('told.yaml', { ...TOLD, has: closed, answers });
    const { shown } = await resume(shop, file, atTheEnd(RODE, { choose: 'not gone' }));
    expect(shown.match(/Do this first (?:Flick|Open) the front climb lever/g)).toHaveLength(1);
    const kept = parse(readFileSync(join(shop.folder, file), 'utf8'));
    expect(kept.has.front.lever).toBe('open');
    expect(kept.answers).not.toHaveProperty('lever@front');
    expect(kept.earlier[0].answers).toMatchObject({ 'lever@front': 'closed' });
  });
  it('knows so too where nothing is left of what bothered', async () => {
    const shop = workshop();
    const safe = { 'safety.found': 'none', 'safety.brakes': 'good' };
    const answers = { ...safe, complaint: 'stiff', 'trouble-end': 'front', 'lever@front': 'closed' };
    const closed = { kind: 'hardtail', front: { spring: 'air', rebound: 'one', lever: 'closed' } };
    const file = shop.writeCase('told.yaml', { ...TOLD, has: closed, answers });
    await resume(shop, file, atTheEnd(RODE, { choose: 'is gone' }));
    expect(parse(readFileSync(join(shop.folder, file), 'utf8')).has.front.lever).toBe('open');
  });
  it('keeps the round that ended better, and goes the same way on', async () => {
    const shop = workshop();
    const file = shop.writeCase('told.yaml', { ...TOLD, has });
    const { shown } = await resume(shop, file, atTheEnd(RODE, { choose: 'not gone' }));
    expect(shown.match(/Do this first/g)).toHaveLength(2);
    const kept = parse(readFileSync(join(shop.folder, file), 'utf8'));
    expect(kept.earlier).toEqual([
      {
        tried: [],
        answers: ANSWERS,
        results: [{ change: 'front.rebound.low+2', outcome: 'better', kept: true }],
      },
    ]);
    expect(kept.answers).toEqual(ANSWERS);
    expect(kept).not.toHaveProperty('results');
  });
  it.each([
    ['worse', 'worse', false],
    ['is gone', 'better', true],
  ])('counts what was %s', async (choose, outcome, kept) => {
    const shop = workshop();
    const file = shop.writeCase('told.yaml', { ...TOLD, has });
    await resume(shop, file, atTheEnd(RODE, { choose }));
    const { results } = parse(readFileSync(join(shop.folder, file), 'utf8'));
    expect(results).toEqual([{ change: 'front.rebound.low+2', outcome, kept }]);
  });
});

describe('an interview that was over, with questions left open', () => {
  const left = (shop: Workshop): string =>
    shop.writeCase('told.yaml', {
      ...TOLD,
      bike: 'bike.yaml',
      interview: { finished: true },
      answers: { ...ANSWERS, 'push-return@front': 'cannot-tell', 'kerb-drop@front': 'cannot-tell' },
    });
  it('asks first whether what it advised was ridden, and how that went', async () => {
    const shop = workshop();
    const end = atTheEnd({ choose: 'worse' });
    const { prompter, code } = await resume(shop, left(shop), (asked) =>
      asked.message === 'Did you ride it?'
        ? RODE
        : asked.message === 'What now?'
          ? { choose: 'done for now' }
          : end(asked, 0),
    );
    expect(code).toBe(0);
    expect(prompter.asked.map(({ message }) => message).slice(0, 2)).toEqual([
      'Did you ride it?',
      'How did it go?',
    ]);
    const results = (await entriesOf(shop)).flatMap(({ result }) => result ?? []);
    expect(results).toEqual([expect.objectContaining({ outcome: 'worse', kept: false })]);
  });
  it('goes on with what was left open where it was not', async () => {
    const shop = workshop();
    const { prompter } = await resume(shop, left(shop), ({ message }) =>
      message === 'Did you ride it?'
        ? { choose: 'not yet' }
        : message === 'What now?'
          ? { choose: 'done for now' }
          : 'f',
    );
    expect(prompter.asked[1]!.message).toMatch(/How does it come back|fall back|kerb/i);
  });
});
