import { mkdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { ROOT } from '../../src/host/root.ts';
import { keptNote } from '../../src/logbook/entry.ts';
import { openLog } from '../../src/logbook/log.ts';
import { workshop, type Workshop } from '../story/place.ts';

const next = (shop: Workshop) => shop.json('next', '--bike', 'bike.yaml');

/** An interview as the prompt keeps it. */
function kept(
  shop: Workshop,
  id: string,
  answers: Readonly<Record<string, string>>,
  interview?: object,
  more: object = {},
): string {
  const folder = join(shop.env['EARSHOT_HOME']!, 'interviews');
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${id}.yaml`);
  writeFileSync(
    path,
    stringify({
      case: 1,
      id,
      bike: join(shop.folder, 'bike.yaml'),
      answers,
      ...(interview === undefined ? {} : { interview }),
      ...more,
    }),
  );
  return path;
}

const PACKS = {
  'safety.found': 'none',
  'safety.brakes': 'good',
  complaint: 'rows',
  'hit-pattern': 'row',
  'return-speed@front': 'deep',
  'repeated-hits.trend@front': 'worse',
};

/** Four runs of the open trial, those with the step rated far better. */
async function rideWell(shop: Workshop, after?: (run: number) => Promise<void>): Promise<void> {
  for (const [run, mark] of [1, 6, 1, 6].entries()) {
    const marks = ['overall', 'grip', 'calm', 'hands'].flatMap((id) => ['--rating', `${id}=${mark}`]);
    await shop.out('trial', 'record', '--bike', 'bike.yaml', '--hidden', '--run', String(run + 1), ...marks);
    await after?.(run);
  }
}

describe('next', () => {
  it('begins with an interview when nothing is known of the bike, and writes nothing', async () => {
    const shop = workshop();
    const out = await shop.out('next', '--bike', 'bike.yaml');
    expect(out).toMatch(/^Nothing is open on this bike[^]*earshot interview --bike bike\.yaml/);
    const flat = out.replaceAll(/\s+/g, ' ');
    expect(flat).toContain('front high-speed rebound 2 (recommended 4)');
    expect(flat).toContain('rear volume spacers 1 spacer,');
    expect(out.split('\n').every((line) => line.length <= 80)).toBe(true);
    expect((await next(shop)).done).toEqual([]);
  });

  it('does not rest on a kept change that was taken back, and says where an open trial left the bike', async () => {
    const shop = workshop();
    const bike = ['--bike', 'bike.yaml'];
    await shop.out('trial', 'plan', ...bike, '--change', 'front.rebound.low+2');
    await rideWell(shop, async (run) => {
      const { doubts } = await next(shop);
      if (run % 2 === 1)
        expect(doubts).toEqual([expect.stringMatching(/at 10 clicks from closed, not at 8 as below/)]);
      else expect(doubts).toEqual([]);
    });
    expect(await shop.out('trial', 'judge', ...bike)).toMatch(/^Keep/);
    expect((await next(shop)).next.do).toContain('Nothing to do');
    await shop.out('log', 'undo', ...bike);
    const off = (await next(shop)).next.do;
    expect(off).toContain('taken back since');
    expect(off).toContain('put the change on again: earshot log redo --bike bike.yaml\n');
    await shop.out('log', 'redo', ...bike);
    expect(await next(shop)).toMatchObject({
      next: { do: expect.stringContaining('Nothing to do') },
      open: [],
    });
    await shop.out('log', 'undo', ...bike);
    await shop.out('bike', 'set', ...bike, 'front.rebound.low=10');
    const { next: again, open } = await next(shop);
    expect(again.do).toContain('Nothing to do');
    expect(open).toEqual([]);
  });

  it('names what a trial kept where it was turned away from since, in a diagnosis too', async () => {
    const shop = workshop();
    const bike = ['--bike', 'bike.yaml'];
    await shop.out('trial', 'plan', ...bike, '--change', 'front.rebound.low+2');
    await rideWell(shop);
    await shop.out('trial', 'judge', ...bike);
    await shop.out('log', 'change', 'front.rebound.low+3', ...bike);
    const good =
      /kept the front low-speed rebound at 10 clicks from closed, and it stands at 13 clicks from closed; .* go back to that first/;
    const { next: asked } = await next(shop);
    expect(asked.do).toMatch(good);
    expect(asked.command).toContain('--change front.rebound.low-3');
    const file = kept(shop, 'worse', PACKS, { finished: true });
    expect((await shop.out('diagnose', file, ...bike)).replaceAll(/\s+/g, ' ')).toMatch(good);
  });

  it('asks for the rebound once a firmer spring was kept, until that is noted', async () => {
    const shop = workshop();
    const bike = ['--bike', 'bike.yaml'];
    await shop.out('trial', 'plan', ...bike, '--change', 'front.spring+4psi');
    await rideWell(shop);
    expect(await shop.out('trial', 'judge', ...bike)).toMatch(/^Keep/);
    const { next: asked } = await next(shop);
    expect(asked.do).toMatch(
      /Check the front rebound by hand: after a firmer spring, .*\. When it is done:$/,
    );
    expect(asked.command).toBe("earshot log note 'check the front rebound by hand' --bike bike.yaml");
    await shop.out('log', 'note', 'check the front rebound by hand', ...bike);
    expect((await next(shop)).next.do).toContain('Nothing to do');
  });

  it('goes on with an interview that was broken off', async () => {
    const shop = workshop();
    kept(shop, 'broken-off', { 'safety.found': 'none' });
    expect((await next(shop)).next).toMatchObject({
      kind: 'resume',
      command: 'earshot interview --resume broken-off',
    });
  });

  it('takes the word of a user who ended an interview early', async () => {
    const shop = workshop();
    kept(shop, 'ended', { complaint: 'rows', 'hit-pattern': 'row' }, { finished: true });
    expect((await next(shop)).next.kind).not.toBe('resume');
  });

  it('goes on with the packs it was asked with', async () => {
    const shop = workshop();
    kept(shop, 'broken-off', { 'safety.found': 'none' });
    const pack = join(ROOT, 'examples/packs/night-ride');
    const { next: found } = await shop.json('--rules', pack, 'next', '--bike', 'bike.yaml');
    expect(found.command).toMatch(new RegExp(`^earshot interview --resume .* --rules ${pack}$`));
  });

  it('takes no notice of an interview about another bike', async () => {
    const shop = workshop();
    kept(workshop(), 'elsewhere', { 'safety.found': 'none' });
    expect((await next(shop)).next.kind).toBe('interview');
  });

  it('plans the trial of what a finished interview found, once', async () => {
    const shop = workshop();
    const path = kept(shop, 'packs', PACKS, { finished: true });
    const { next: found } = await next(shop);
    expect(found).toMatchObject({
      kind: 'plan',
      command: 'earshot trial plan --bike bike.yaml --case packs',
    });
    await shop.out('trial', 'plan', '--long', '--bike', 'bike.yaml', '--case', path);
    expect((await next(shop)).next.kind).toBe('ride');
    expect((await next(shop)).open).toEqual([]);
  });

  it('names a sag that was measured and has no target, with what writes one down', async () => {
    const shop = workshop();
    const path = join(shop.folder, 'bike.yaml');
    const whole = shop.sheet();
    const without = whole.replace(/(front:[^]*?sag: \{ measured: \d+%), wanted: \d+%/, '$1');
    expect(without).not.toBe(whole);
    expect((await next(shop)).open.join()).not.toContain('target');
    writeFileSync(path, without);
    const { open } = await next(shop);
    const [, line] = /sag is \d+ %, and its target is not recorded[^]*\n(.*)/.exec(open.join('\n'))!;
    expect(line).toBe('earshot bike set front.sag.wanted=T% --bike bike.yaml');
    await shop.out(...line!.replace('T%', '20%').split(' ').slice(1));
    expect((await next(shop)).open.join()).not.toContain('target');
  });

  it('puts a danger before everything else', async () => {
    const shop = workshop();
    await shop.out('trial', 'plan', '--long', '--bike', 'bike.yaml', '--change', 'front.rebound.low+2');
    kept(shop, 'knocks', { 'safety.found': 'loose' });
    const { next: found, open } = await next(shop);
    expect(found.kind).toBe('repair');
    expect(found.do).toContain('Do not ride this bike');
    const record = 'earshot trial record --bike bike.yaml';
    expect(open).toEqual([expect.stringMatching(new RegExp(`^Next is run 1: [^]*\n${record}$`))]);
    expect((await shop.out('next', '--bike', 'bike.yaml')).split('\n')).toContain(`    ${record}`);
  });

  describe('a danger found by an interview', () => {
    const DANGER = { 'safety.found': 'loose' };
    const later = (path: string, minutes: number): void =>
      utimesSync(path, new Date(), new Date(Date.now() + 60_000 * minutes));
    /** What an interview leaves in the log: see the tests of the interview. */
    const noted = async (shop: Workshop, file: string, stop: boolean): Promise<void> => {
      const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
      await log.append(keptNote('elsewhere', file, stop));
    };
    const own = (shop: Workshop, answers: Readonly<Record<string, string>>): string => {
      shop.writeCase('own.yaml', { case: 1, id: 'elsewhere', bike: 'bike.yaml', answers });
      return join(shop.folder, 'own.yaml');
    };

    it('counts where its answers are in a file of the user, read as it is now', async () => {
      const shop = workshop();
      await noted(shop, own(shop, DANGER), true);
      expect((await next(shop)).next).toMatchObject({
        kind: 'repair',
        do: expect.stringMatching(
          /^Do not ride this bike: interview elsewhere[^]*earshot diagnose \S*own\.yaml/,
        ),
        command: 'earshot interview --bike bike.yaml',
      });
      own(shop, { ...DANGER, 'safety.found': 'none' });
      expect((await next(shop)).next.kind).toBe('resume');
    });

    it('counts when its file is gone', async () => {
      const shop = workshop();
      await noted(shop, join(shop.folder, 'gone.yaml'), true);
      expect((await next(shop)).next).toMatchObject({
        kind: 'repair',
        command: 'earshot interview --bike bike.yaml',
      });
    });

    it('is cleared by a newer interview that asked the same and found nothing, and by no other', async () => {
      const shop = workshop();
      await noted(shop, own(shop, DANGER), true);
      later(kept(shop, 'not-asked', { complaint: 'rows' }), 1);
      expect((await next(shop)).next.kind).toBe('repair');
      later(kept(shop, 'cannot-tell', { 'safety.found': 'cannot-tell' }), 2);
      expect((await next(shop)).next.kind).toBe('repair');
      later(kept(shop, 'sound', { 'safety.found': 'none' }), 3);
      expect((await next(shop)).next.kind).toBe('resume');
    });

    it('of two answers together is not cleared by half of it, nor by what leaves it as it was', async () => {
      const shop = workshop();
      const SOUND = { 'safety.found': 'none', 'safety.brakes': 'good' };
      const knob = 'knob-effect@front';
      const push = 'push-return@front';
      await noted(shop, own(shop, { ...SOUND, [knob]: 'none', [push]: 'springs' }), true);
      expect((await next(shop)).next.kind).toBe('repair');
      later(kept(shop, 'half', { ...SOUND, [knob]: 'none' }), 1);
      expect((await next(shop)).next.kind).toBe('repair');
      later(kept(shop, 'beside', { ...SOUND, [push]: 'once' }), 2);
      expect((await next(shop)).next.kind).toBe('resume');
    });

    it('of an end not known is cleared once both ends were looked at, and by none of them', async () => {
      const shop = workshop();
      await noted(shop, own(shop, { 'safety.found': 'none', 'push-return@either': 'undamped' }), true);
      later(kept(shop, 'front', { 'safety.found': 'none', 'push-return@front': 'once' }), 1);
      expect((await next(shop)).next.kind).toBe('repair');
      later(kept(shop, 'rear', { 'safety.found': 'none', 'push-return@rear': 'once' }), 2);
      expect((await next(shop)).next.kind).toBe('resume');
    });

    it('is not cleared by what an interview that was taken up again had asked before it', async () => {
      const shop = workshop();
      const at = (hour: number) => ({ begun: new Date(Date.now() - 3_600_000 * (24 - hour)).toISOString() });
      later(kept(shop, 'loose', DANGER, at(10)), 1);
      later(kept(shop, 'before', { 'safety.found': 'none', complaint: 'rows' }, at(9)), 2);
      expect((await next(shop)).next).toMatchObject({
        kind: 'repair',
        do: expect.stringContaining('interview loose'),
      });
      later(kept(shop, 'after', { 'safety.found': 'none' }, at(11)), 0);
      // Nothing stops it any more, and what was held last is what is gone on with.
      expect((await next(shop)).next).toMatchObject({
        kind: 'resume',
        command: 'earshot interview --resume before',
      });
    });

    it('is as new as the log has it, where it was found by an interview that was begun before', async () => {
      const shop = workshop();
      const hour = (n: number) => ({ begun: new Date(Date.now() - 3_600_000 * n).toISOString() });
      const path = kept(shop, 'taken-up', DANGER, hour(3));
      later(kept(shop, 'between', { 'safety.found': 'none' }, hour(2)), 5);
      expect((await next(shop)).next.kind).toBe('resume');
      await noted(shop, path, true);
      expect((await next(shop)).next.kind).toBe('repair');
    });

    it('lets no trial be planned', async () => {
      const shop = workshop();
      await noted(shop, own(shop, DANGER), true);
      const ran = await shop.run(
        'trial',
        'plan',
        '--long',
        '--bike',
        'bike.yaml',
        '--change',
        'front.rebound.low+2',
      );
      expect(ran).toMatchObject({ code: 2, out: '' });
      expect(ran.err).toMatch(/^Do not ride this bike: interview elsewhere found/);
    });

    it('lets no further run of a trial be ridden, and keeps the one that was', async () => {
      const shop = workshop();
      const at = ['--bike', 'bike.yaml'];
      await shop.out('trial', 'plan', ...at, '--change', 'front.rebound.low+2');
      await noted(shop, own(shop, DANGER), true);
      const record = () => shop.out('trial', 'record', ...at, '--rating', 'grip=4');
      expect(await record()).toMatch(
        /^Run 1: [^]*\nDo not ride this bike: interview elsewhere found[^]*\n {2}earshot next --bike bike\.yaml\n$/,
      );
      later(kept(shop, 'sound', { 'safety.found': 'none' }), 1);
      expect(await record()).toMatch(/^Run 2: [^]*\nNext is run 3/);
    });

    it('leaves an interview in a file of the user that found none to be gone on with', async () => {
      const shop = workshop();
      await noted(shop, own(shop, { 'safety.found': 'none' }), false);
      expect((await next(shop)).next).toMatchObject({
        kind: 'resume',
        command: `earshot interview --resume ${join(shop.folder, 'own.yaml')}`,
      });
    });
  });

  describe('what must be checked before riding', () => {
    const { 'safety.found': _, 'safety.brakes': __, ...RIDE } = PACKS;
    const KNOCKS = { said: 'the fork knocks' };
    const FINISHED = { finished: true };
    /** Rated worse, and of so little weight that it is still what looks best. */
    const VAIN = {
      results: [{ change: 'front.rebound.high+2', outcome: 'worse', kept: false, points: -0.1, error: 3 }],
    };
    const ALARM = /^Check before riding: "fork knocks" was said\. Anything loose[^]*\n/;

    it.each([
      ['a change is advised', RIDE, FINISHED, KNOCKS, 'plan'],
      ['a smaller step is left', RIDE, FINISHED, { ...KNOCKS, ...VAIN }, 'plan'],
      ['something is to be found out', { 'trouble-end': 'cannot-tell' }, FINISHED, KNOCKS, 'find-out'],
      ['the interview was broken off', { complaint: 'rows' }, undefined, KNOCKS, 'resume'],
      ['nothing is to be done', { complaint: 'nothing', 'hit-pattern': 'neither' }, FINISHED, KNOCKS, 'rest'],
    ])(
      'stands in front where words tell of a danger and %s',
      async (_case, answers, interview, more, kind) => {
        const shop = workshop();
        const path = kept(shop, 'knocks', answers, interview, more);
        const alarm = (await shop.out('diagnose', path)).replaceAll(/\s+/g, ' ');
        expect(alarm).toContain('! Check before riding: "fork knocks" was said. Anything loose');
        const { next: found } = await next(shop);
        expect(found).toMatchObject({ kind, do: expect.stringMatching(ALARM) });
        // Asked once, and not put off to a ride.
        expect(found.do.match(/Anything loose/g)).toHaveLength(1);
        expect(found.do).not.toMatch(/next ride: Anything loose/);
      },
    );

    it.each([
      ['a change', {}],
      ['a smaller step', VAIN],
    ])('is the question of the brakes that is open before %s', async (_case, more) => {
      const shop = workshop();
      kept(shop, 'brakes', { 'safety.found': 'none', ...RIDE }, FINISHED, more);
      expect((await next(shop)).next.do).toMatch(/^Check before riding: Do both brakes bite and hold\?\n/);
    });

    it('is told as that where it is what would tell', async () => {
      const shop = workshop();
      kept(shop, 'open', { complaint: 'rows' }, FINISHED);
      expect((await next(shop)).next.do).toMatch(/^To check before riding: Anything loose/);
    });
  });

  describe('of what was tried and is to be put back', () => {
    const SOUND = { 'safety.found': 'none', 'safety.brakes': 'good', complaint: 'rows' };
    const FINISHED = { finished: true };
    const tried = (change: string) => ({ tried: [{ change, result: 'worse', 'put-back': 'no' }] });
    /** The sheet with no front rebound counted. */
    const uncounted = (shop: Workshop): void => {
      const sheet = parse(shop.sheet()) as { front: { rebound: Record<string, { now?: number }> } };
      for (const knob of Object.values(sheet.front.rebound)) delete knob.now;
      writeFileSync(join(shop.folder, 'bike.yaml'), stringify(sheet));
    };

    it('asks for no number of several knobs at once, and is never a line without a setting', async () => {
      const shop = workshop();
      uncounted(shop);
      kept(shop, 'several', SOUND, FINISHED, tried('front.rebound.low+2,front.compression.low-2'));
      const { next: found } = await next(shop);
      expect(found.do).toMatch(/^Put back what made it worse: front low-speed compression/);
      expect(found).toMatchObject({ kind: 'repair', command: expect.stringMatching(/^earshot log note /) });
    });

    it('asks for the number of one knob that nobody counted, with the line that diagnose gives', async () => {
      const shop = workshop();
      uncounted(shop);
      const path = kept(shop, 'one', SOUND, FINISHED, tried('front.rebound.low+2'));
      const { next: found } = await next(shop);
      expect(found).toMatchObject({
        kind: 'count',
        command: 'earshot bike set front.rebound.low=N --bike bike.yaml',
      });
      expect(await shop.out('diagnose', path)).toContain(
        `Write it down, with your number in place of N:\n  ${found.command}`,
      );
    });
  });

  it('asks for a trial of what was turned without one', async () => {
    const shop = workshop();
    await shop.out('log', 'change', 'rear.rebound.low+2', '--bike', 'bike.yaml');
    expect((await next(shop)).next).toMatchObject({
      kind: 'try',
      command: 'earshot trial plan --bike bike.yaml --change rear.rebound.low-2',
    });
  });

  it.each([
    ['nothing tried was worth keeping', ['4', '4', '4', '4', '4', '4', '4'], 'interview'],
    ['a step is worth keeping', ['3', '6', '3', '6', '3', '3', '6'], 'rest'],
  ])('asks again about what a trial did not help: %s', async (_, ratings, kind) => {
    const shop = workshop();
    await shop.out('trial', 'plan', '--long', '--bike', 'bike.yaml', '--change', 'front.rebound.low+1');
    for (const overall of ratings)
      await shop.out('trial', 'record', '--bike', 'bike.yaml', '--rating', `overall=${overall}`);
    await shop.out('trial', 'judge', '--bike', 'bike.yaml', '--close');
    const { next: found } = await next(shop);
    if (kind === 'rest') expect(found.do).not.toContain('not kept');
    else expect(found).toMatchObject({ kind, do: expect.stringContaining('was not kept') });
  });

  it('says where an open trial no longer begins where the bike stands', async () => {
    const shop = workshop();
    await shop.out('trial', 'plan', '--bike', 'bike.yaml', '--change', 'front.rebound.low+2');
    expect((await next(shop)).doubts).toEqual([]);
    await shop.out('bike', 'set', '--bike', 'bike.yaml', 'front.rebound.low=5');
    const { doubts } = await next(shop);
    expect(doubts).toEqual([
      'Trial front-rebound-low-1 began with the front low-speed rebound at 8 clicks from closed, and the sheet says 5 now. Set it back for the trial, or end the trial: earshot trial judge --bike bike.yaml --trial front-rebound-low-1 --close',
    ]);
    await shop.out('trial', 'judge', '--bike', 'bike.yaml', '--trial', 'front-rebound-low-1', '--close');
    expect((await next(shop)).doubts).toEqual([]);
  });

  it('shows where sheet and log do not agree', async () => {
    const shop = workshop();
    const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
    await log.append({ kind: 'start', changes: [{ setting: 'front.rebound.low', to: 5, unit: 'clicks' }] });
    const { doubts } = await next(shop);
    expect(doubts).toEqual([
      expect.stringMatching(/front low-speed rebound: the sheet says 8 clicks from closed, the log 5/),
    ]);
  });

  it.each([
    ['with the step in', [4, 1, 4, 1], true],
    ['without it', [4, 1, 4, 1, 4], false],
  ])('does not take a step for put back that nobody put back: ridden last %s', async (_, ratings, asked) => {
    const shop = workshop();
    await shop.out('trial', 'plan', '--bike', 'bike.yaml', '--change', 'front.rebound.low+2');
    for (const [run, overall] of ratings.entries())
      await shop.out(
        ...['trial', 'record', '--bike', 'bike.yaml', '--rating', `overall=${overall}`],
        ...['--run', run % 2 === 0 ? 'reference' : 'plus'],
      );
    await shop.out('trial', 'judge', '--bike', 'bike.yaml', '--close');
    const { next: found, done } = await next(shop);
    expect(found.do.includes('Check that the front low-speed rebound is back at 8 clicks from closed.')).toBe(
      asked,
    );
    expect(done[0]).toMatch(/worse, not kept$/);
  });

  it('takes sag that was measured again after a change for what it is, not for a doubt', async () => {
    const shop = workshop();
    await shop.out('log', 'change', 'front.spring-5psi', '--bike', 'bike.yaml');
    const sheet = join(shop.folder, 'bike.yaml');
    const text = readFileSync(sheet, 'utf8');
    expect(text).toContain('  sag: { wanted: 20% }');
    writeFileSync(sheet, text.replace('  sag: { wanted: 20% }', '  sag: { measured: 21%, wanted: 20% }'));
    expect((await next(shop)).doubts).toEqual([]);
  });
});
