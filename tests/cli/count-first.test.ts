/** A change that lacks nothing but where its setting stands: what was counted is asked for, or the line to write it down. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse, stringify } from 'yaml';
import { describe, expect, it } from 'vitest';
import { trialPlan } from '../../src/cli/commands/trial/plan.ts';
import { change as logChange } from '../../src/cli/commands/log/change.ts';
import type { Io } from '../../src/host/io.ts';
import { PLAIN } from '../../src/report/style.ts';
import { scripted, type Press } from '../support/scripted.ts';
import { workshop, type Workshop } from '../story/place.ts';

const SHEET = `bike: 1
id: moth
kind: trail
units: { pressure: psi }
rider-mass: 80
front: { travel: 150, spring: { kind: air }, rebound: { clicks: unknown } }
rear: { travel: 140, stroke: 55, spring: { kind: air, pressure: 180 }, rebound: { clicks: 12 } }
`;
const BIKE = ['--bike', 'bike.yaml'];

function uncounted(): Workshop {
  const shop = workshop();
  writeFileSync(join(shop.folder, 'bike.yaml'), SHEET);
  return shop;
}

function terminal(shop: Workshop): { readonly io: Io; readonly said: () => string } {
  let said = '';
  const io = {
    cwd: shop.folder,
    env: shop.env,
    stdinIsTty: true,
    stdoutIsTty: true,
    out: (text: string) => void (said += text),
    err: (text: string) => void (said += text),
    now: () => new Date('2026-05-04T10:20:30Z'),
  } as unknown as Io;
  return { io, said: () => said };
}

describe('a setting that nobody counted', () => {
  it.each([
    ['log', 'change', ...BIKE, 'front.rebound.low+2'],
    ['trial', 'plan', '--long', ...BIKE, '--change', 'front.rebound.low+2'],
  ])('is refused with the line that writes it down: %s %s', async (...line) => {
    const { err, code } = await uncounted().run(...line);
    expect(code).not.toBe(0);
    expect(err).toContain('earshot bike set front.rebound.low=N --bike bike.yaml');
  });
  it('has its own unit in that line', async () => {
    const { err } = await uncounted().run('log', 'change', ...BIKE, 'front.spring+5psi');
    expect(err).toContain('earshot bike set front.spring=Npsi --bike bike.yaml');
  });
  it('has that line below a diagnosis too', async () => {
    const shop = uncounted();
    const answers = {
      'trouble-end': 'rear',
      'hit-pattern': 'row',
      'repeated-hits.trend@rear': 'worse',
    };
    shop.writeCase('case.yaml', { case: 1, id: 'c', answers });
    expect(await shop.out('diagnose', 'case.yaml', ...BIKE)).toContain(
      'earshot bike set rear.rebound.low=N --bike bike.yaml',
    );
  });
  it('has the line of a check on its own, for this bike and with the packs it was read with', async () => {
    const shop = uncounted();
    mkdirSync(join(shop.folder, 'own rules'));
    writeFileSync(join(shop.folder, 'own rules', 'pack.yaml'), 'pack: own\nversion: 1.0.0\nabout: mine\n');
    const { out } = await shop.run('--rules', 'own rules', 'bike', 'check', 'bike.yaml');
    const lines = out
      .replaceAll(/ \\\n +/g, ' ')
      .split('\n')
      .map((line) => line.trim());
    const written = lines.filter((line) => line.includes('earshot bike set'));
    expect(written.length).toBeGreaterThan(10);
    for (const line of written)
      expect(line).toMatch(/^earshot bike set \S+=N%? --bike bike\.yaml --rules 'own rules'$/);
    // Each of these words is one that the command takes, whatever it says of the number.
    for (const line of written.slice(0, 12)) {
      const { err, code } = await shop.run('bike', 'set', line.split(' ')[3]!.replace('=N', '=30'), ...BIKE);
      expect([line, code === 0 ? '' : err]).toEqual([
        line,
        expect.toBeOneOf(['', expect.stringContaining('no bike goes outside')]),
      ]);
    }
  });
  it('has it below a measurement that is to be made first', async () => {
    const shop = workshop();
    const sheet = parse(shop.sheet()) as { front: { sag?: object } };
    delete sheet.front.sag;
    writeFileSync(join(shop.folder, 'bike.yaml'), stringify(sheet));
    const answers = {
      ...{ 'safety.found': 'none', 'safety.brakes': 'good', 'hit-pattern': 'one' },
      ...{ 'square-edge@front': 'spike', 'travel-ring@front': 'short', 'tyre-pressure@front': 'usual' },
      ...{ 'landing@front': 'hard', 'lever@front': 'open', 'lever@rear': 'open' },
    };
    shop.writeCase('case.yaml', { case: 1, id: 'c', answers });
    const out = await shop.out('diagnose', 'case.yaml', ...BIKE);
    expect(out).toContain('Measure front sag');
    expect(out).toContain('\n  earshot bike set front.sag=N% front.sag.wanted=T% --bike bike.yaml\n');
    expect(out.match(/earshot bike set/g)).toHaveLength(1);
  });
  it('is asked for at the terminal, written down, and the trial planned', async () => {
    const shop = uncounted();
    const { io, said } = terminal(shop);
    const keys: Press[] = [{ choose: 'I counted it' }, { text: 'seven' }, { text: '7' }];
    const prompter = scripted(keys);
    const options = {
      bike: 'bike.yaml',
      bothWays: false,
      long: false,
      paper: false,
      save: true,
      rules: [],
      format: 'text',
      style: PLAIN,
    } as const;
    const change = 'front.rebound.low+2';
    expect(await trialPlan({ ...options, change, prompter: async () => prompter }, io)).toBe(0);
    expect(prompter.closed).toBe(true);
    expect(parse(shop.sheet()).front.rebound.now).toBe(7);
    expect(said()).toContain('7 now, 9 to try');
    const { entries } = await shop.json('log', 'export', ...BIKE);
    expect(entries).toContainEqual(expect.objectContaining({ kind: 'counted', reason: 'counted' }));
  });
  it('is asked for again where the knob has fewer clicks, and may still be left for later', async () => {
    const shop = uncounted();
    const { io } = terminal(shop);
    const counted = { choose: 'I counted it' };
    const prompter = scripted([counted, { text: '99' }, counted, { text: '9' }]);
    const options = { bike: 'bike.yaml', style: PLAIN, prompter: async () => prompter };
    expect(await logChange({ ...options, change: 'rear.rebound.low-1' }, io)).toBe(0);
    expect(prompter.shown.replaceAll(/\s+/g, ' ')).toContain(
      '99 clicks from closed, but the knob has only 12',
    );
    expect(parse(shop.sheet()).rear.rebound.now).toBe(8);
    const again = scripted([counted, { text: '99' }, { choose: 'not now' }]);
    const other = uncounted();
    const refused = logChange(
      { ...options, change: 'rear.rebound.low-1', prompter: async () => again },
      terminal(other).io,
    );
    await expect(refused).rejects.toThrow('earshot bike set rear.rebound.low=N --bike bike.yaml');
    expect(other.sheet()).toBe(SHEET);
  });
  it('can be left for later: then nothing is written', async () => {
    const shop = uncounted();
    const { io } = terminal(shop);
    const prompter = scripted([{ choose: 'not now' }]);
    const options = { bike: 'bike.yaml', style: PLAIN, prompter: async () => prompter };
    await expect(logChange({ ...options, change: 'rear.rebound.low-1' }, io)).rejects.toThrow(
      'earshot bike set rear.rebound.low=N --bike bike.yaml',
    );
    expect(shop.sheet()).toBe(SHEET);
  });
});
