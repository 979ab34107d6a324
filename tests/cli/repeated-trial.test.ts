/** The same step planned again: its earlier trials count with it, as long as the bike stands as it stood. */
import { expect, it } from 'vitest';
import type { Trial } from '../../src/trials/trial.ts';
import { ride, workshop, type Workshop } from '../story/place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;
const STEP = ['--change', 'front.rebound.low+2'] as const;
const RATED = { reference: 4, plus: 5 };

/** Planned, ridden and ended without a verdict. */
async function day(shop: Workshop, ...more: string[]): Promise<void> {
  await shop.out('trial', 'plan', ...BIKE, ...STEP, ...more);
  await ride(shop, RATED);
  await shop.out('trial', 'judge', ...BIKE, '--close');
}

const before = async (shop: Workshop, ...more: string[]): Promise<string[] | undefined> => {
  const { trial } = (await shop.json(
    'trial',
    'plan',
    ...BIKE,
    ...(more.length > 0 ? more : STEP),
    '--no-save',
  )) as {
    trial: Trial;
  };
  return trial.before?.map(({ id }) => id);
};

it('counts every trial of it on the bike as it stands, and those of no other step', async () => {
  const shop = workshop();
  expect(await before(shop)).toBeUndefined();
  await day(shop);
  await day(shop);
  expect(await before(shop)).toEqual(['front-rebound-low-1', 'front-rebound-low-2']);
  expect(await before(shop, '--change', 'front.rebound.low+1')).toBeUndefined();
  expect(await before(shop, '--change', 'front.rebound.low-2')).toBeUndefined();
  const judged = await day(shop).then(() =>
    shop.out('trial', 'judge', ...BIKE, '--trial', 'front-rebound-low-3'),
  );
  expect(judged.replaceAll(/\s+/g, ' ')).toContain('Ridden 6 times, in 3 trials together.');
});

it('counts none of a bike that was changed since', async () => {
  const shop = workshop();
  await day(shop);
  await shop.out('log', 'change', ...BIKE, 'rear.rebound.low-1');
  expect(await before(shop)).toBeUndefined();
});
