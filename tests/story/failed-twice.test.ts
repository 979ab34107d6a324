import { describe, expect, it } from 'vitest';
import { workshop, type Workshop } from './place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;
const KICKS = {
  case: 1,
  id: 'kick',
  answers: {
    'safety.found': 'none',
    complaint: 'air',
    'hit-pattern': 'one',
    'lone-hit.kick@rear': 'kicks',
    'return-speed@rear': 'deep',
  },
};
const CHANGE = 'rear.rebound.high-2';

async function rate(shop: Workshop, ratings: readonly number[]): Promise<void> {
  for (const rating of ratings) {
    const rated = ['overall', 'grip', 'calm', 'hands'].flatMap((id) => ['--rating', `${id}=${rating}`]);
    await shop.out('trial', 'record', ...BIKE, '--hidden', ...rated);
  }
}
const diagnose = async (shop: Workshop) => (await shop.json('diagnose', 'kick.yaml', ...BIKE))[0];
const suspect = async (shop: Workshop): Promise<number> => {
  const [{ causes }] = await shop.json('diagnose', 'kick.yaml', '--full', ...BIKE);
  const found = causes.find((c: { id: string }) => c.id === 'rear.rebound.high.too-fast');
  // What is below one in a hundred is not listed.
  return found?.probability ?? 0;
};
const odds = (p: number): number => p / (1 - p);

describe('the same change, tried and failed', () => {
  it('is not advised again: the ratings count while the trial is open, when it is judged, and when it is ended', async () => {
    const shop = workshop();
    shop.writeCase('kick.yaml', KICKS);
    const before = await suspect(shop);
    expect((await diagnose(shop)).adjustments[0].change).toBe(CHANGE);
    await shop.out('trial', 'plan', '--long', ...BIKE, '--case', 'kick.yaml');

    await rate(shop, [4, 2, 4]);
    expect(await suspect(shop)).toBeLessThan(before);
    await rate(shop, [2, 4, 4, 2]);
    const open = await diagnose(shop);
    await shop.out('trial', 'judge', ...BIKE);
    const judged = await diagnose(shop);
    // Judging adds no evidence of its own.
    expect(judged.causes).toEqual(open.causes);
    expect(odds(await suspect(shop))).toBeLessThan(odds(before) / 4);
    expect(judged.adjustments[0]?.change).not.toBe(CHANGE);

    const paper = await shop.out('trial', 'plan', '--long', ...BIKE, '--change', CHANGE);
    expect(paper.replace(/\s+/g, ' ')).toMatch(
      /Tried before on [\d-]+ and not kept: rear high-speed rebound 2 clicks in, rated worse/,
    );
    // Six equal ratings teach that the setting is not it, also without a verdict.
    await rate(shop, [4, 4, 4, 4]);
    await shop.out('trial', 'judge', ...BIKE, '--close');
    const told = (await shop.out('diagnose', 'kick.yaml', ...BIKE)).replace(/\s+/g, ' ');
    expect(told).toMatch(/rated no difference, not kept\. Rules out rear high-speed rebound too fast/);
  });

  it('says so when answers bring it back, and calls a reversal one', async () => {
    const shop = workshop();
    const results = [
      { change: CHANGE, outcome: 'same', kept: false, points: 0.1, error: 1.5, date: '2026-05-04' },
    ];
    shop.writeCase('kick.yaml', { ...KICKS, results });
    const told = await shop.out('diagnose', 'kick.yaml', ...BIKE);
    expect(told.replace(/\s+/g, ' ')).toContain(
      'Tried before on 2026-05-04 and not kept: rear high-speed rebound 2 clicks in, rated no difference. That is taken into account.',
    );
    const kept = [{ change: 'rear.rebound.high+2', outcome: 'better', kept: true, points: 0.1, error: 3 }];
    shop.writeCase('kick.yaml', { ...KICKS, earlier: [{ answers: {}, results: kept }] });
    const back = await diagnose(shop);
    expect(back.adjustments[0]).toMatchObject({
      change: CHANGE,
      ridden: [
        expect.stringContaining('undoes a change that was kept: rear high-speed rebound 2 clicks out'),
      ],
    });
  });
});
