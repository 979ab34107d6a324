/** A bike that may throw its rider: that is said on every card until it is mended. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { stringify } from 'yaml';
import { ride, workshop, type Workshop } from './place.ts';

const FAST = 'A rear that rebounds too fast can throw a rider over the bars.';
const KICKS = {
  'safety.found': 'none',
  'safety.brakes': 'good',
  'push-return@rear': 'springs',
  'kerb-drop@rear': 'bounces',
};
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
const timesIn = (text: string): number => flat(text).split(FAST).length - 1;

function keep(shop: Workshop, answers: Readonly<Record<string, string>>): string {
  const folder = join(shop.env['EARSHOT_HOME']!, 'interviews');
  mkdirSync(folder, { recursive: true });
  const file = join(folder, 'told.yaml');
  const bike = join(shop.folder, 'bike.yaml');
  writeFileSync(file, stringify({ case: 1, id: 'told', bike, answers, interview: { finished: true } }));
  return file;
}

it('warns once of a rear that is likely too fast, whatever comes first', async () => {
  const shop = workshop();
  const answers = { ...KICKS, weather: 'hot' };
  const file = keep(shop, answers);
  const [result] = await shop.json('diagnose', file);
  expect(result.first).not.toMatch(/rebound/);
  expect(result.cautions).toContainEqual(expect.objectContaining({ id: 'rear.fast-return', likely: true }));
  for (const words of [
    ['diagnose', file],
    ['diagnose', file, '--format', 'markdown'],
    ['report', file],
    ['next', '--bike', 'bike.yaml'],
  ])
    expect(timesIn(await shop.out(...words)), words.join(' ')).toBe(1);
});

it('leaves it out below STOP', async () => {
  const shop = workshop();
  const file = keep(shop, { ...KICKS, 'safety.brakes': 'weak' });
  expect(timesIn(await shop.out('diagnose', file, '--full'))).toBe(0);
});

it('says it no more once the step that mends it was kept', async () => {
  const shop = workshop();
  const file = keep(shop, KICKS);
  expect(timesIn(await shop.out('next', '--bike', 'bike.yaml'))).toBe(1);
  const { trial } = await shop.json('trial', 'plan', '--bike', 'bike.yaml', '--case', file);
  expect(timesIn(trial.cautions.join(' '))).toBe(1);
  await ride(shop, { reference: 2, plus: 6, minus: 6 });
  await shop.out('trial', 'judge', '--bike', 'bike.yaml');
  expect(timesIn(await shop.out('next', '--bike', 'bike.yaml'))).toBe(0);
});
