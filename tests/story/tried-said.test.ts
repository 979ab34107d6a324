/** Words of a change that was told as tried are no complaint besides, nor a sign that nobody confirmed. */
import { expect, it } from 'vitest';
import { workshop } from './place.ts';

it('takes the words of what was tried for that alone', async () => {
  const shop = workshop();
  const told = async (more: object): Promise<string> => {
    shop.writeCase('c.yaml', {
      case: 1,
      id: 'c',
      said: 'it pings off stones, opened the rebound and it got worse',
      answers: { 'safety.found': 'none', 'safety.brakes': 'good' },
      ...more,
    });
    const [{ complaints, unconfirmed }] = await shop.json('diagnose', 'c.yaml');
    return JSON.stringify([complaints, unconfirmed]);
  };
  const tried = [
    { setting: 'rebound', end: 'front', direction: 'open', by: 2, result: 'worse', 'put-back': 'no' },
  ];
  expect(await told({})).toContain('opened the rebound');
  const known = await told({ tried });
  expect(known).not.toContain('opened the rebound');
  expect(known).toContain('pings off stones');
});
