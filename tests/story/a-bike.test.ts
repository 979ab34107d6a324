/** From a new bike to a change that was tried, kept, counted, and taken back: every step through the command line. */
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { toCaseFile } from '../../src/interview/state.ts';
import { glance, hold, ride, workshop } from './place.ts';

/** A fork that packs down in a row, as its rider would tell it. */
const PACKS = {
  complaint: 'rows',
  'hit-pattern': 'row',
  'trouble-end': 'front',
  'return-speed@front': 'deep',
  'repeated-hits.trend@front': 'worse',
  'repeated-hits.depth@front': 'deeper',
  'repeated-hits.reset@front': 'back',
  'follows@front': 'late',
  'brake-front': 'harsh',
  'run-trend': 'section',
};
/** Invented ratings, all four feelings alike: more open is clearly better. */
const RATED: Readonly<Record<string, number>> = { reference: 3, plus: 6, minus: 2 };

describe('the story of one bike', () => {
  it('goes from an interview over a judged trial to another interview, and back to the start', async () => {
    const shop = workshop();
    const start = shop.sheet();
    expect((await shop.json('next', '--bike', 'bike.yaml')).next.kind).toBe('interview');

    const first = await hold(shop, 'first', PACKS);
    shop.writeCase('first.yaml', toCaseFile(first));
    const told = (await shop.json('diagnose', 'first.yaml', '--bike', 'bike.yaml'))[0];
    expect(told.verdict).toBe('change');
    const change: string = told.adjustments[0].change;
    expect(change).toBe('front.rebound.high+2');
    expect(told.adjustments[0]).toMatchObject({ from: 2, to: 4 });

    const paper = await shop.out('trial', 'plan', '--long', '--bike', 'bike.yaml', '--case', 'first.yaml');
    expect(paper).toContain('Never force an adjuster against its stop');
    expect(Math.max(...paper.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect((await shop.json('next', '--bike', 'bike.yaml')).next.kind).toBe('ride');

    await ride(shop, RATED);
    expect((await shop.json('next', '--bike', 'bike.yaml')).next.kind).toBe('judge');

    const judged = await shop.json('trial', 'judge', '--bike', 'bike.yaml');
    expect(['keep', 'further']).toContain(judged.verdict);
    expect(judged).toMatchObject({ arm: 'plus', set: 4, recorded: true });
    expect(judged.results).toContainEqual(expect.objectContaining({ change, outcome: 'better', kept: true }));
    expect(shop.sheet()).toContain('high: { clicks: 8, now: 4, maker: 4 }');
    expect((await shop.json('next', '--bike', 'bike.yaml')).doubts).toEqual([]);

    // The same complaint again: the way is shorter, and goes on from where the bike stands now.
    shop.writeCase('second.yaml', { ...toCaseFile(first), id: 'second' });
    const [second] = await shop.json('diagnose', 'second.yaml', '--bike', 'bike.yaml');
    expect(second.warnings.join(' ')).toMatch(
      /rated better, kept\. Front high-speed rebound too slow less likely/,
    );
    expect(second.adjustments[0]).toMatchObject({ change, from: 4, to: 6 });
    const [blind] = await shop.json('diagnose', 'second.yaml', '--bike', 'bike.yaml', '--no-log');
    expect(blind.warnings).toEqual([]);
    expect(blind.causes).not.toEqual(second.causes);
    const { code, err } = await glance(shop);
    expect(code).toBe(130);
    expect(err).toMatch(
      /Earlier trials on this bike count[^]*Front\s+high-speed rebound 2 clicks out: rated\s+better/,
    );
    const again = await hold(shop, 'again', PACKS);
    expect(again.earlier).toHaveLength(1);
    expect(again.steps.length).toBeLessThan(first.steps.length);

    // A rider who has nothing to complain of now: leave it alone.
    shop.writeCase('content.yaml', toCaseFile(await hold(shop, 'content', {})));
    expect((await shop.json('diagnose', 'content.yaml', '--bike', 'bike.yaml'))[0].verdict).toBe('leave');

    await shop.out('log', 'undo', '--bike', 'bike.yaml');
    expect(shop.sheet().replaceAll(' ', '')).toBe(start.replaceAll(' ', ''));
    const [back] = await shop.json('diagnose', 'second.yaml', '--bike', 'bike.yaml');
    expect(back.warnings.join(' ')).toMatch(/rated better, not kept/);
    expect(back.adjustments[0]).toMatchObject({ change, from: 2, to: 4 });
    expect((await shop.run('log', 'undo', '--bike', 'bike.yaml')).err).toContain('no change to undo');
  });

  it("ends well on the maker's sheet after a trial that found nothing better", async () => {
    const shop = workshop();
    await shop.out('log', 'change', 'front.rebound.high+2,front.compression.low+1', '--bike', 'bike.yaml');
    await shop.out(
      'trial',
      'plan',
      '--long',
      '--bike',
      'bike.yaml',
      '--change',
      'rear.rebound.low+2',
      '--id',
      'rear',
    );
    await ride(shop, { reference: 6, plus: 3, minus: 2 });
    const judged = await shop.out('trial', 'judge', '--bike', 'bike.yaml');
    expect(judged).toMatch(/^(?:Put|Leave) the rear low-speed rebound (?:back to|at) 7 clicks/);
    expect(judged).toContain('That is a good result');
    const { results } = await shop.json('trial', 'judge', '--bike', 'bike.yaml', '--trial', 'rear');
    expect(results).toMatchObject([{ outcome: 'worse', kept: false }]);

    shop.writeCase('rows.yaml', {
      case: 1,
      id: 'rows',
      answers: { complaint: 'rows', 'hit-pattern': 'row', 'repeated-hits.trend@rear': 'worse' },
    });
    const suspect = async (...flags: string[]): Promise<number> => {
      const [told] = await shop.json('diagnose', 'rows.yaml', '--bike', 'bike.yaml', '--full', ...flags);
      const cause = told.causes.find((c: { id: string }) => c.id === 'rear.rebound.low.too-slow');
      return cause?.probability ?? 0;
    };
    expect(await suspect()).toBeLessThan(0.7 * (await suspect('--no-log')));
    const told = await shop.out('diagnose', 'rows.yaml', '--bike', 'bike.yaml');
    expect(told).toContain('Earlier trials on this bike');
    expect(told).toContain('That is a good result');
  });

  it("counts the log of a bike that only the case names, and says when that bike goes before --bike's", async () => {
    const shop = workshop();
    await shop.out(
      'trial',
      'plan',
      '--long',
      '--bike',
      'bike.yaml',
      '--change',
      'rear.rebound.low+2',
      '--id',
      'rear',
    );
    await ride(shop, { reference: 6, plus: 3, minus: 2 });
    await shop.out('trial', 'judge', '--bike', 'bike.yaml');
    shop.writeCase('own.yaml', {
      case: 1,
      id: 'own',
      bike: 'bike.yaml',
      // Few, because the reasons move every strength behind an answer.
      answers: { complaint: 'rows', 'repeated-hits.trend@rear': 'worse' },
    });
    const [counted] = await shop.json('diagnose', 'own.yaml');
    const [blind] = await shop.json('diagnose', 'own.yaml', '--no-log');
    expect(counted.warnings.join(' ')).toContain('Rear low-speed rebound 2 clicks');
    expect(blind.warnings).toEqual([]);
    expect(blind.causes).not.toEqual(counted.causes);
    for (const command of ['explain', 'report']) {
      const [with_, without] = [
        await shop.run(command, 'own.yaml'),
        await shop.run(command, 'own.yaml', '--no-log'),
      ];
      expect(with_.err).toMatch(/Earlier trials on this bike count[^]*Rear low-speed rebound 2 clicks/);
      expect(without.err).toBe('');
      expect(without.out).not.toBe(with_.out);
    }
    cpSync(new URL('../../examples/bikes/coil.yaml', import.meta.url), join(shop.folder, 'other.yaml'));
    const { err } = await shop.run('diagnose', 'own.yaml', '--bike', 'other.yaml');
    expect(err.match(/own bike \(bike\.yaml\), so --bike other\.yaml was not used/g)).toHaveLength(1);
    // One that is not there is taken from the line, whatever the case gives: words, or a number held against the sheet.
    const answers = { complaint: 'rows', 'sag@rear': { measured: '33%' } };
    for (const answered of [answers, { complaint: 'rows' }]) {
      shop.writeCase('gone.yaml', { case: 1, id: 'gone', bike: 'gone-bike.yaml', answers: answered });
      expect((await shop.run('diagnose', 'gone.yaml')).err).toContain('gone-bike.yaml: no such file');
      const found = await shop.run('diagnose', 'gone.yaml', '--bike', 'other.yaml');
      expect(found.err).toBe(
        'gone: its own bike (gone-bike.yaml) is not there, so --bike other.yaml was used.\n',
      );
      expect(found.out).toContain('the larch bike');
    }
  });
});
