import { render } from '@inquirer/testing';
import { expect, it } from 'vitest';
import { textPrompt } from '../../src/console/text-prompt.ts';
import { PLAIN } from '../../src/report/style.ts';

it('takes a line of text, and shows it as it is typed', async () => {
  const config = { message: 'In own words:', style: PLAIN, onClose: () => undefined };
  const { answer, events, getScreen } = await render(textPrompt, config);
  events.type('it kicks');
  expect(getScreen()).toBe('In own words: it kicks');
  events.keypress('enter');
  await expect(answer).resolves.toBe('it kicks');
});

it('folds a long question between words, with room for an answer beside it', async () => {
  const message =
    'Where it stands now, in clicks from closed (turn it gently to closed, count, turn it back):';
  const config = { message, style: { ...PLAIN, width: 40 }, onClose: () => undefined };
  const { events, getScreen } = await render(textPrompt, config);
  events.type('12');
  const lines = getScreen().split('\n');
  expect(lines.length).toBeGreaterThan(2);
  expect(lines.join(' ')).toBe(`${message} 12`);
});
