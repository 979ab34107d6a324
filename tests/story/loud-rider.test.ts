/** A rider who names a sign whatever he is asked: after three interviews with their trials the log says so, and it counts. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openLog } from '../../src/logbook/log.ts';
import { workshop } from './place.ts';

/** A fork that packs down: a trial is planned from it. */
const PACKS = {
  complaint: 'rows',
  'hit-pattern': 'row',
  'trouble-end': 'front',
  'return-speed@front': 'deep',
  'repeated-hits.trend@front': 'worse',
  'run-trend': 'section',
  'sag@front': 'target',
};
/** Signs that no one thing explains; with them alone nothing would be tried. */
const LOUD = {
  'noises@front': 'squeak',
  'noises@rear': 'whoosh',
  'tyre-feel@front': 'pings',
  'tyre-feel@rear': 'folds',
  'turn-in': 'falls',
  kickback: 'kicks',
  lip: 'crooked',
  'grip@rear': 'climbing',
  'landing@rear': 'bounced',
};

it('is counted from the third interview on, in words, and not with --no-log', async () => {
  const shop = workshop();
  const log = await openLog(join(shop.folder, 'home'), 'birch', {
    now: () => new Date('2026-05-04T10:20:30Z'),
  });
  const told: string[] = [];
  for (const n of [1, 2, 3]) {
    shop.writeCase('now.yaml', { case: 1, id: 'now', answers: { complaint: 'rows', 'back-ache': 'aches' } });
    told.push(await shop.out('diagnose', 'now.yaml', '--bike', 'bike.yaml'));
    shop.writeCase('loud.yaml', { case: 1, id: `loud-${n}`, answers: PACKS });
    await shop.out('trial', 'plan', '--long', '--bike', 'bike.yaml', '--case', 'loud.yaml', '--id', `t${n}`);
    // The rest of what he said, put into the paper that the log keeps of the interview.
    await log.saveCase(`loud-${n}`, { case: 1, id: `loud-${n}`, answers: { ...PACKS, ...LOUD } });
    // Broken off before it shows anything, so that the same is tried again.
    for (let run = 0; run < 3; run++)
      await shop.out('trial', 'record', '--bike', 'bike.yaml', '--hidden', '--rating', 'overall=4');
    await shop.out('trial', 'judge', '--bike', 'bike.yaml', '--close');
    // Another bike each time: said again of the same one, it would count once.
    await shop.out('log', 'change', 'rear.rebound.low-1', '--bike', 'bike.yaml', '--reason', 'felt like it');
  }
  const line = /The answers so far tell of problems more readily than most riders do\. That is allowed for\./;
  for (const text of told) expect(text).not.toMatch(line);
  const first = await shop.out('diagnose', 'now.yaml', '--bike', 'bike.yaml');
  expect(first.replace(/\s+/g, ' ')).toMatch(line);
  // From what was kept: the same again.
  expect(await shop.out('diagnose', 'now.yaml', '--bike', 'bike.yaml')).toBe(first);
  expect(await shop.out('diagnose', 'now.yaml', '--bike', 'bike.yaml', '--no-log')).not.toMatch(/readily/);
});
