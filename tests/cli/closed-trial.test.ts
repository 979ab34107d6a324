/** A trial with a verdict stands as it is. */
import { expect, it } from 'vitest';
import { openLog } from '../../src/logbook/log.ts';
import { workshop } from '../story/place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;

it.each([
  ['takes no run', ['--rating', 'overall=5']],
  ['has no run put right', ['--run', '1', '--rating', 'overall=5']],
  ['has no run taken off', ['--drop-last']],
])('a closed trial %s', async (_, argv) => {
  const shop = workshop();
  await shop.out('trial', 'plan', '--long', ...BIKE, '--change', 'front.rebound.low+2', '--id', 't');
  await shop.out('trial', 'record', ...BIKE, '--rating', 'overall=4');
  await shop.out('trial', 'judge', ...BIKE, '--close');
  const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
  const before = (await log.loadTrials()).papers[0]!.data;
  expect(before['verdict']).toBeDefined();
  const { code, err } = await shop.run('trial', 'record', ...BIKE, '--trial', 't', ...argv);
  expect(code).toBe(2);
  expect(err).toContain('is closed');
  expect((await log.loadTrials()).papers[0]!.data).toEqual(before);
});
