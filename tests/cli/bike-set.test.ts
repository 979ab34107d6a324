/** What was counted goes onto the sheet and into the log; a bike with a log is found by its id. */
import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { describe, expect, it } from 'vitest';
import { workshop, type Workshop } from '../story/place.ts';

const BIKE = ['--bike', 'bike.yaml'];
const set = (shop: Workshop, ...values: string[]) => shop.run('bike', 'set', ...BIKE, ...values);
const lastEntry = async (shop: Workshop) => (await shop.json('log', 'export', ...BIKE)).entries.at(-1);

describe('bike set', () => {
  it('touches nothing of the file but what was said', async () => {
    const shop = workshop();
    const before = shop.sheet();
    expect((await set(shop, 'front.rebound.low=5', 'rear.sag=27%', 'rider-mass=80')).code).toBe(0);
    const changed = (text: string): string[] =>
      text.split('\n').filter((line, i) => line !== before.split('\n')[i]);
    expect(changed(shop.sheet())).toEqual([
      'rider-mass: 80',
      '  rebound: { low: { clicks: 16, now: 5, maker: 8 }, high: { clicks: 8, now: 2, maker: 4 } }',
      '  sag: { measured: 27%, wanted: 29% }',
    ]);
  });
  it('keeps comments and short forms: one rebound knob, a value alone', async () => {
    const shop = workshop();
    const text = `bike: 1
id: one
kind: trail
front: # the fork
  travel: 140
  spring: { kind: air }
  rebound: { clicks: 20, now: 9 } # one knob
rear: { travel: 130, spring: { kind: coil, rate: 80 } }
`;
    writeFileSync(join(shop.folder, 'bike.yaml'), text);
    expect((await set(shop, 'front.rebound.low=5', 'rear.spring=85N/mm')).code).toBe(0);
    expect(shop.sheet()).toBe(text.replace('now: 9', 'now: 5').replace('rate: 80', 'rate: 85'));
  });
  it.each([
    ['rear.spring=80psi', 'rear.spring is not in psi on this bike. Write rear.spring.rate (N/mm, lb/in) or'],
    [
      'rear.spring.pressure=80psi',
      'rear.spring: pressure is not known here. Known keys: kind, rate, preload,',
    ],
    ['rear.preload=3', 'A bike sheet has no rear.preload. Did you mean rear.spring.preload?'],
    ['rear.rebound.loww=3', 'rear.rebound: loww is not known here.'],
  ])('asks of a coil what a coil has: %s', async (value, said) => {
    const { code, err } = await set(workshop('coil'), value);
    expect(code).toBe(1);
    expect(err).toContain(said);
  });
  it('takes over the unit of the first number of its kind, and keeps the sheet in it from then on', async () => {
    const shop = workshop();
    const ends = 'front: { spring: { kind: air } }\nrear: { spring: { kind: air } }\n';
    const text = `bike: 1\nid: one\nkind: trail\nunits: { pressure: psi, mass: kg }\n${ends}`;
    writeFileSync(join(shop.folder, 'bike.yaml'), text);
    const first = await set(shop, 'rear.spring=12.5BAR');
    expect(first.err + first.out).toContain('rear spring 12.5 bar');
    expect(parse(shop.sheet())).toMatchObject({
      units: { pressure: 'bar', mass: 'kg' },
      rear: { spring: { pressure: 12.5 } },
    });
    const second = await set(shop, 'front.spring=85 psi', 'rider-mass=176lb');
    expect(second.code).toBe(0);
    expect(parse(shop.sheet())).toMatchObject({
      units: { pressure: 'bar', mass: 'lb' },
      'rider-mass': 176,
      front: { spring: { pressure: 5.86 } },
    });
  });
  it('takes a side with one knob for that knob, and asks which where there are two, or which end', async () => {
    const shop = workshop();
    const text = `bike: 1
id: one
kind: trail
front:
  travel: 140
  spring: { kind: air }
  rebound: { clicks: 20, now: 9 }
rear: { travel: 130, spring: { kind: coil, rate: 80 } }
`;
    const two = await set(shop, 'front.rebound=5');
    expect(two.err).toContain('there are two knobs. Write front.rebound.low or front.rebound.high.');
    expect((await set(shop, 'rebound=8')).err).toContain(
      'front or rear? Write front.rebound or rear.rebound',
    );
    writeFileSync(join(shop.folder, 'bike.yaml'), text);
    expect((await set(shop, 'front.rebound=5')).code).toBe(0);
    expect(shop.sheet()).toBe(text.replace('now: 9', 'now: 5'));
    expect((await set(shop, 'rear.rebound=5')).err).toContain('no such knob');
  });
  it('takes none for a knob, on a sheet with it and without, and says it once more without complaint', async () => {
    const shop = workshop();
    expect((await set(shop, 'front.compression=none')).code).toBe(0);
    expect(parse(shop.sheet()).front.compression).toBeUndefined();
    const again = await set(shop, 'front.compression=none', 'front.compression.low=none');
    expect([again.code, again.err]).toEqual([0, 'The sheet says so already.\n']);
    expect((await set(shop, 'front.compression.low.clicks=9')).code).toBe(0);
    expect((await set(shop, 'front.rebound.high=none')).code).toBe(0);
    expect(parse(shop.sheet()).front.compression.low).toEqual({ clicks: 9 });
    expect(await shop.out('bike', 'show', 'bike.yaml')).not.toContain('high-speed rebound, front');
  });
  it('is written down as counted, which is no change to try or to take back', async () => {
    const shop = workshop();
    await shop.out('log', 'change', ...BIKE, 'rear.rebound.low+1');
    await set(shop, 'front.rebound.low=5', '--reason', 'after the service');
    expect(await lastEntry(shop)).toMatchObject({
      kind: 'counted',
      changes: [{ setting: 'front.rebound.low', from: 8, to: 5, unit: 'clicks' }],
      reason: 'after the service',
    });
    expect(await shop.out('log', 'undo', ...BIKE)).toContain('rear low-speed rebound 8 → 7 clicks');
    expect(parse(shop.sheet()).front.rebound.low.now).toBe(5);
  });
  it('takes no reading off the sheet: nothing was turned', async () => {
    const shop = workshop();
    await set(shop, 'front.spring=80psi', 'front.ramp-up=3');
    expect(parse(shop.sheet()).front.sag.measured).toBe('20%');
  });
  it('keeps in words what stands nowhere in a log', async () => {
    const shop = workshop();
    await set(shop, 'front.compression.high.clicks=9');
    expect(await lastEntry(shop)).toMatchObject({
      kind: 'note',
      reason: 'on the sheet: front.compression.high.clicks=9',
    });
  });
  it('refuses what cannot stand there, every mistake in a line of its own, and writes nothing', async () => {
    const shop = workshop();
    const before = shop.sheet();
    const { code, err } = await set(
      shop,
      'front.rebound.low=60',
      'rear.sag=98%',
      'front.sprung=3',
      'bars=5psi',
    );
    const lines = err.trim().split('\n');
    expect(lines).toHaveLength(4);
    for (const line of [
      'A bike sheet has no front.sprung. Did you mean front.spring?',
      'cockpit.spacers-under-stem: "5psi": the unit psi does not fit; use mm, in. Write a number, or one with its unit: 5 mm.',
      'front.rebound.low: now is 60 clicks from closed, but the knob has only 16. Count again from fully closed, without force.',
      'rear.sag: measured is 98%; no bike goes outside 0 to 60 %. Check the number and its unit.',
    ])
      expect(lines).toContain(line);
    expect(code).toBe(1);
    expect(shop.sheet()).toBe(before);
  });
  it.each([
    [['front.rebound.low'], 2, 'write a setting, = and its value'],
    [['front.rebound.low=8'], 1, 'The sheet says so already'],
    [['front.rebound.low=5', 'front.rebound.low=6'], 1, 'is set twice'],
  ])('refuses %j', async (values, exit, message) => {
    const { code, err } = await set(workshop(), ...values);
    expect(err).toContain(message);
    expect(code).toBe(exit);
  });
});

describe('a bike with a log', () => {
  it('is found by its id, and where there is only one, without it', async () => {
    const shop = workshop();
    expect((await shop.run('bike', 'show', 'birch')).code).toBe(2);
    await shop.out('bike', 'set', ...BIKE, 'front.rebound.low=5');
    expect(await shop.out('bike', 'show', 'birch')).toContain('the birch bike');
    for (const command of ['show', 'check', 'start']) {
      const told = await shop.run('bike', command, 'birch');
      expect(told.out).toContain('the birch bike');
      expect(await shop.run('bike', command, '--bike', 'birch')).toEqual(told);
      // The only one there is.
      expect(await shop.run('bike', command)).toEqual(told);
    }
    expect((await shop.run('bike', 'show', 'birch', '--bike', 'bike.yaml')).err).toContain(
      'Name one: birch, or --bike bike.yaml.',
    );
    await shop.out('bike', 'set', 'front.rebound.low=6');
    expect(parse(shop.sheet()).front.rebound.low.now).toBe(6);
    const answers = { 'hit-pattern': 'row', 'trouble-end': 'front' };
    shop.writeCase('case.yaml', { case: 1, id: 'c', answers });
    for (const line of [
      ['log', '--bike', 'birch'],
      ['next', '--bike', 'birch'],
      ['diagnose', 'case.yaml', '--bike', 'birch'],
      ['predict', '--bike', 'birch', '--change', 'front.rebound.low+1'],
      ['bike', 'check', 'birch'],
    ])
      expect(await shop.run(...line)).not.toMatchObject({ code: 2 });
  });
  it('is told of by its near name, and where several are known, by all', async () => {
    const shop = workshop();
    await shop.out('bike', 'set', ...BIKE, 'front.rebound.low=5');
    expect((await shop.run('bike', 'show', 'brich')).err).toContain('Did you mean birch?');
    cpSync(new URL('../../examples/bikes/few-knobs.yaml', import.meta.url), join(shop.folder, 'other.yaml'));
    await shop.out('bike', 'set', '--bike', 'other.yaml', 'front.rebound.low=5');
    expect((await shop.run('bike', 'set', 'front.rebound.low=5')).err).toContain(
      'Say which bike: --bike birch or --bike hazel.',
    );
  });
  it('whose sheet is gone says where it was', async () => {
    const shop = workshop();
    await shop.out('bike', 'set', ...BIKE, 'front.rebound.low=5');
    const place = readFileSync(join(shop.env['EARSHOT_HOME']!, 'bikes/birch/sheet-place'), 'utf8').trim();
    rmSync(join(shop.folder, 'bike.yaml'));
    expect((await shop.run('bike', 'show', 'birch')).err).toBe(
      `The sheet of birch was at ${place}, and is no longer there. Name its file: --bike FILE. Or write it anew, and its log goes on: earshot bike new birch.yaml --id birch\n`,
    );
  });
});

it('says a mass with its unit, where that is all that was written down', async () => {
  const shop = workshop();
  expect((await set(shop, 'rider-mass=170')).out).toContain('rider-mass=170 kg');
});
