import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { trialRecord } from '../../src/commands/trial-record.ts';
import type { Io } from '../../src/commands/io.ts';
import { ROOT } from '../../src/commands/root.ts';
import { Left, type Asked, type Prompter } from '../../src/console/prompter.ts';
import { openLog } from '../../src/logbook/log.ts';
import { PLAIN } from '../../src/report/style.ts';
import { ride, workshop, type Workshop } from '../story/place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;
const plan = (shop: Workshop, ...more: string[]) =>
  shop.run('trial', 'plan', ...BIKE, '--change', 'front.rebound.low+2', ...more);
const record = (shop: Workshop, ...more: string[]) => shop.run('trial', 'record', ...BIKE, ...more);
const judge = (shop: Workshop, ...more: string[]) => shop.run('trial', 'judge', ...BIKE, ...more);

describe('trial plan', () => {
  it('prints runs in order with what to set, what to feel for, cautions and blanks, in 80 columns', async () => {
    const { code, out, err } = await plan(workshop());
    expect(code).toBe(0);
    const [setter, rider] = out.split('For the rider');
    expect(setter).toMatch(/^ {3}1 {7}8 {2}leave it$/m);
    expect(setter).toMatch(/^ {3}3 {6}10 {2}2 clicks open$/m);
    expect(rider).toMatch(/^ {3}3 {2}_{7} {2}_{4}/m);
    expect(rider).not.toMatch(/2 clicks (?:open|closed)/);
    expect(out).toContain('Feel for: whether the front is back up');
    expect(out).toContain('Never force an adjuster against its stop');
    expect(out.split('\n').every((line) => line.length <= 80)).toBe(true);
    expect(err).toContain('earshot trial record --bike bike.yaml --trial front-rebound-low-1');
  });

  it('keeps nothing with --no-save', async () => {
    const shop = workshop();
    expect((await plan(shop, '--no-save')).code).toBe(0);
    expect(readdirSync(shop.folder)).toEqual(['bike.yaml']);
  });

  it('writes down where the bike stood, so that there is a way back', async () => {
    const shop = workshop();
    await plan(shop);
    expect((await shop.json('log', 'export', ...BIKE)).entries[0]).toMatchObject({
      kind: 'start',
      changes: expect.arrayContaining([{ setting: 'front.rebound.low', to: 8, unit: 'clicks' }]),
    });
  });

  it('refuses a second trial while one is open, and says how to go on', async () => {
    const shop = workshop();
    await plan(shop);
    const { code, err } = await plan(shop, '--id', 'other');
    expect(code).toBe(2);
    expect(err).toMatch(/still open.*trial record.*\n.*--close/);
  });

  it.each([
    ['two changes', ['--change', 'front.rebound.low+2,rear.rebound.low+1'], /one change at a time/],
    ['past a stop', ['--change', 'front.rebound.low+9'], /beyond its stop.*At most front.rebound.low\+8/],
    ['no change', ['--change', 'front.rebound'], /is no change\. Write the setting/],
    ['neither change nor case', [], /Say what to try/],
    ['both', ['--change', 'bars+5mm', '--case', 'x.yaml'], /Say what to try/],
  ])('refuses %s in words', async (_, argv, said) => {
    const ran = await workshop().run('trial', 'plan', ...BIKE, ...argv);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(said);
  });

  it.each([
    ['something dangerous', { 'safety.noise': 'front' }, /Do not ride this bike/],
    ['nothing off', { complaint: 'nothing', 'hit-pattern': 'neither' }, /asks for no change/],
  ])('plans nothing for a case with %s', async (_, answers, said) => {
    const shop = workshop();
    shop.writeCase('case.yaml', { case: 1, id: 'case', answers });
    const ran = await shop.run('trial', 'plan', ...BIKE, '--case', 'case.yaml');
    expect(ran.err).toMatch(said);
    expect(ran.code).toBe(2);
  });

  it('tells where the reason is to be read, with the bike and the packs it was asked with', async () => {
    const shop = workshop();
    shop.writeCase('case.yaml', { case: 1, id: 'case', answers: { 'safety.noise': 'front' } });
    const pack = join(ROOT, 'examples/packs/night-ride');
    const ran = await shop.run('--rules', pack, 'trial', 'plan', ...BIKE, '--case', 'case.yaml');
    expect(ran.err).toContain(`This says why: earshot diagnose case.yaml --bike bike.yaml --rules ${pack}\n`);
  });
});

describe('trial record', () => {
  it('says what to set next, and when all is ridden', async () => {
    const shop = workshop();
    await plan(shop);
    const { out } = await record(shop, '--rating', 'grip=4', '--time', '1:01.2');
    expect(out).toContain('Run 1: front low-speed rebound at 8; grip 4, 61.2 s.');
    expect(out).toContain('Next is run 2: front low-speed rebound at 8 clicks (leave it).');
    await record(shop, '--rating', 'grip=4');
    expect((await record(shop, '--rating', 'grip=4', '--run', 'plus')).out).toContain('at 10; grip 4.');
  });

  it('puts an earlier run right by its number, and takes the last one off', async () => {
    const shop = workshop();
    await plan(shop);
    await record(shop, '--rating', 'grip=4');
    expect((await record(shop, '--run', '1', '--rating', 'grip=5')).out).toContain('takes the place');
    expect((await record(shop, '--drop-last')).out).toContain('Next is run 1');
    expect((await record(shop, '--drop-last')).err).toContain('has no run');
  });

  it('names every mistake at once and writes nothing', async () => {
    const shop = workshop();
    await plan(shop);
    const { code, err } = await record(shop, '--rating', 'grip=9', '--rating', 'colour=3');
    expect(code).toBe(2);
    expect(err).toMatch(/ratings\.grip: 9 is no rating.*\n.*"colour" is not rated/);
    expect((await record(shop, '--run', '4', '--rating', 'grip=3')).err).toContain('run 1 is next');
    expect((await record(shop, '--rating', 'grip=3', '--time', 'soon')).err).toContain('--time soon');
    expect((await record(shop, '--trial', 'none', '--rating', 'grip=3')).err).toContain('no trial none');
  });

  it('asks at the prompt, a feeling a question; leaving writes nothing down', async () => {
    const shop = workshop();
    await plan(shop);
    const asked: string[] = [];
    const answers = ['reference', '5', '6', 'none', '4'];
    let said = '';
    const prompter = (texts: string[], leaves = false): Prompter => ({
      style: PLAIN,
      ask: async (question: Asked) => {
        asked.push(question.message);
        if (leaves) throw new Left('interrupt');
        return { value: answers[asked.length - 1]!, sure: 'sure' };
      },
      text: async () => texts.shift()!,
      say: (text) => void (said += text),
      close: async () => undefined,
    });
    let out = '';
    const io = {
      cwd: shop.folder,
      env: shop.env,
      stdinIsTty: true,
      stdoutIsTty: true,
      out: (text: string) => void (out += text),
      err: () => undefined,
      now: () => new Date('2026-05-04T10:20:30Z'),
    } as unknown as Io;
    const options = { bike: 'bike.yaml', rating: [], dropLast: false };
    expect(await trialRecord({ ...options, prompter: async () => prompter([], true) }, io)).toBe(130);
    asked.length = 0;
    expect(
      await trialRecord({ ...options, prompter: async () => prompter(['1:62', '62,5', 'dusty']) }, io),
    ).toBe(0);
    expect(said).toBe('  1:62: write seconds, 61.2, or minutes and seconds, 1:01.2.\n');
    expect(asked[0]).toContain('The plan says 8 clicks');
    expect(out).toContain('Run 1: front low-speed rebound at 8; overall 5, grip 6, hands 4, 62.5 s.');
  });
});

describe('trial judge', () => {
  it('says how many runs are missing before anything was ridden', async () => {
    const shop = workshop();
    await plan(shop);
    const { code, out } = await judge(shop);
    expect(code).toBe(0);
    expect(out).toMatch(/^Cannot tell\./);
    expect(out).toContain('Ride 7 more runs');
  });

  it('only looks while planned runs are left', async () => {
    const shop = workshop();
    await plan(shop);
    const rated: Record<string, number> = { reference: 3, plus: 6 };
    for (const run of ['reference', 'reference', 'plus', 'reference', 'plus', 'plus'])
      await record(
        shop,
        '--run',
        run,
        ...['overall', 'grip', 'calm'].flatMap((id) => ['--rating', `${id}=${rated[run]}`]),
      );
    const before = shop.sheet();
    expect((await judge(shop)).out).toMatch(/^Cannot tell\..*Ride 1 more run to finish the block/s);
    expect(shop.sheet()).toBe(before);
  });

  it('cannot tell when the ratings say little, and closes when told to, back at the reference', async () => {
    const shop = workshop();
    const before = shop.sheet();
    await plan(shop);
    for (const rating of [4, 4, 5, 4, 4, 5, 4])
      await record(shop, '--rating', `overall=${rating}`, '--hidden');
    const { verdict } = await shop.json('trial', 'judge', ...BIKE);
    expect(verdict).toBe('cannot-tell');
    const { out } = await judge(shop, '--close');
    expect(out).toMatch(/^Ended without a verdict: put the front low-speed rebound back to 8 clicks/);
    expect(out).not.toContain('would tell');
    expect(out).toContain('Written into the log');
    expect(shop.sheet()).toBe(before);
    expect((await record(shop, '--rating', 'grip=4')).err).toContain('No trial is open');
    expect((await judge(shop, '--trial', 'front-rebound-low-1')).out).toContain('already');
  });

  it('judged again after it was cut short, writes only what is missing', async () => {
    const shop = workshop();
    await plan(shop);
    await ride(shop, { reference: 3, plus: 6, minus: 2 });
    const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
    const [open] = (await log.loadTrials()).papers;
    expect((await judge(shop)).out).toContain('The bike sheet now says front low-speed rebound 10 clicks');
    const { entries } = await log.readHistory();
    await log.saveTrial(open!.id, () => open!.data);
    await judge(shop);
    expect((await log.readHistory()).entries).toEqual(entries);
    expect((await log.loadTrials()).papers[0]!.data['verdict']).toBeDefined();
  });
});
