/** What a trial kept and was turned since goes back first, where what bothers may well have come with it. */
import { expect, it } from 'vitest';
import { workshop, type Workshop } from './place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;
const KEPT = 'front.rebound.low+2';
const PACKS = {
  case: 1,
  id: 'packs',
  bike: 'bike.yaml',
  answers: {
    'safety.found': 'none',
    'safety.brakes': 'good',
    complaint: 'rows',
    'hit-pattern': 'row',
    'repeated-hits.trend@front': 'worse',
    'liveliness@front': 'dead',
  },
};

/** A bike whose trial kept two clicks more, at 10, and which somebody turned to 6 since. */
async function turnedSince(): Promise<Workshop> {
  const shop = workshop();
  await shop.out('trial', 'plan', ...BIKE, '--change', KEPT);
  for (const rating of [3, 6, 3, 6]) {
    const rated = ['overall', 'grip', 'calm', 'hands'].flatMap((id) => ['--rating', `${id}=${rating}`]);
    await shop.out('trial', 'record', ...BIKE, '--hidden', ...rated);
  }
  await shop.out('trial', 'judge', ...BIKE);
  await shop.out('log', 'change', 'front.rebound.low-4', ...BIKE);
  return shop;
}
const first = async (shop: Workshop, answers: object, ...more: string[]) => {
  shop.writeCase('c.yaml', { ...PACKS, answers: { ...PACKS.answers, ...answers } });
  const [result] = await shop.json('diagnose', 'c.yaml', ...more);
  return { ...result, top: result.adjustments.find(({ id }: { id: string }) => id === result.first) };
};

it('goes back before any other step, as far as it was moved', async () => {
  const shop = await turnedSince();
  const { first: id, because, top } = await first(shop, {});
  expect([id, because]).toEqual(['back-to-good', 'put-back']);
  expect(top).toMatchObject({ change: 'front.rebound.low+4', from: 6, to: 10 });
  expect(top.do).toBe('Go back to the setting that a trial kept: front low-speed rebound');
  // It is no evidence: with the log or without, nobody said that it rides worse for that.
  expect((await first(shop, {}, '--no-log')).first).not.toBe('back-to-good');
});

it('comes behind a danger', async () => {
  const { verdict, first: id } = await first(await turnedSince(), { 'safety.found': 'crack' });
  expect(verdict).toBe('stop');
  expect(id).not.toBe('back-to-good');
});

it('is not first where it could not have brought what is felt', async () => {
  const shop = await turnedSince();
  shop.writeCase('rear.yaml', {
    case: 1,
    id: 'rear',
    bike: 'bike.yaml',
    answers: {
      'safety.found': 'none',
      'safety.brakes': 'good',
      complaint: 'air',
      'hit-pattern': 'one',
      'lone-hit.kick@rear': 'kicks',
      'return-speed@rear': 'deep',
    },
  });
  const [{ first: id }] = await shop.json('diagnose', 'rear.yaml');
  expect(id).toBe('rear.rebound.high.close');
});

it('is nothing once it was set back, or where nothing is felt', async () => {
  const shop = await turnedSince();
  const none = { complaint: 'nothing', 'repeated-hits.trend@front': 'same', 'liveliness@front': 'right' };
  expect((await first(shop, none)).first).not.toBe('back-to-good');
  await shop.out('log', 'change', 'front.rebound.low+4', ...BIKE);
  expect((await first(shop, {})).first).not.toBe('back-to-good');
});
