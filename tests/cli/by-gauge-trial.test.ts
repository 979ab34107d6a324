/** A step that a gauge asks for: kept unless it rides worse, and followed by the next one while it is off its target. */
import { expect, it } from 'vitest';
import { ride, workshop, type Workshop } from '../story/place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;

async function test(shop: Workshop, change: string, plus: number): Promise<string> {
  await shop.out('trial', 'plan', ...BIKE, '--change', change);
  await ride(shop, { reference: 5, plus, minus: plus });
  return (await shop.out('trial', 'judge', ...BIKE)).replaceAll(/\s+/g, ' ');
}
const next = async (shop: Workshop): Promise<string> => {
  const { next: thing } = await shop.json('next', ...BIKE);
  return `${thing.do} ${thing.command}`;
};

it('a spring is kept where the sag asks for it, until it is measured again and on target', async () => {
  const shop = workshop();
  await shop.out('bike', 'set', ...BIKE, 'front.sag=30%');
  const said = await test(shop, 'front.spring+5psi', 5);
  expect(said).toContain(
    'Keep the front spring at 89 psi: the gauge asks for it, and it was not clearly rated worse.',
  );
  expect(shop.sheet()).toContain('pressure: 89');
  expect(await next(shop)).toContain('earshot bike set front.sag=N%');
  await shop.out('bike', 'set', ...BIKE, 'front.sag=27%');
  expect(await next(shop)).toMatch(
    /still off its target.*trial plan --bike bike\.yaml --change front\.spring\+/,
  );
  await shop.out('bike', 'set', ...BIKE, 'front.sag=21%');
  expect(await next(shop)).not.toContain('front.spring');
});

it('a spring that rides worse goes back, whatever the gauge says, and so does a click that rides no better', async () => {
  const shop = workshop();
  await shop.out('bike', 'set', ...BIKE, 'front.sag=30%');
  expect(await test(shop, 'front.spring+5psi', 2)).toContain('Put the front spring back to 84 psi');
  expect(await test(shop, 'front.rebound.high+2', 5)).not.toContain('Keep');
});

it('a tyre that was better and is still far off its target has a next step', async () => {
  const shop = workshop();
  await shop.out('bike', 'set', ...BIKE, 'rear.tyre=34psi');
  expect(await test(shop, 'rear.tyre-2psi', 7)).toContain('Keep the rear tyre at 32 psi');
  expect(await next(shop)).toMatch(
    /rear tyre is kept at 32 psi, and is still off its target.*--change rear\.tyre-/,
  );
});
