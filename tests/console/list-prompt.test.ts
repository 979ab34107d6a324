import { render } from '@inquirer/testing';
import { describe, expect, it } from 'vitest';
import type { Listed } from '../../src/console/list-lines.ts';
import { listPrompt, type ListConfig } from '../../src/console/list-prompt.ts';
import { PLAIN } from '../../src/report/style.ts';

const states = ['not sure', 'one', 'none'].map((name) => ({ value: name, name }));
const LISTED: Listed = {
  head: '',
  message: 'Knobs',
  lines: ['Front', 'Rear'].map((name) => ({ name, states })),
  actions: [{ key: 'b', value: 'back', name: 'back' }],
};
const config: ListConfig = {
  ...LISTED,
  screen: () => ({ style: PLAIN, rows: 24 }),
  onClose: () => undefined,
};

describe('a list at the prompt', () => {
  it('turns a line on with its number, round at the end, and is done with Return', async () => {
    const { answer, events, getScreen } = await render(listPrompt, config);
    expect(getScreen()).toContain('> 1 Front: not sure');
    events.keypress('2');
    expect(getScreen()).toContain('> 2 Rear: one');
    for (let i = 0; i < 4; i++) events.keypress('2');
    expect(getScreen()).toContain('> 2 Rear: none');
    events.keypress('enter');
    await expect(answer).resolves.toEqual(['not sure', 'none']);
    expect(getScreen()).toBe('Knobs\n  Rear: none');
  });
  it('reaches the lines from the tenth on by their number too, and waits at the first digit of one', async () => {
    const lines = Array.from({ length: 12 }, (_, i) => ({ name: `Knob ${i + 1}`, states }));
    const { answer, events, getScreen } = await render(listPrompt, { ...config, lines });
    events.keypress('1');
    expect(getScreen()).toContain('>  1 Knob 1: not sure');
    events.keypress('2');
    expect(getScreen()).toContain('> 12 Knob 12: one');
    events.keypress('1');
    events.keypress('space');
    events.keypress('2');
    expect(getScreen()).toContain('>  2 Knob 2: one');
    events.keypress('enter');
    await expect(answer).resolves.toEqual(lines.map((_, i) => ([0, 1, 11].includes(i) ? 'one' : 'not sure')));
  });
  it('goes by arrows and blank too, and back by its letter', async () => {
    const { answer, events, getScreen } = await render(listPrompt, config);
    events.keypress('down');
    events.keypress('space');
    events.keypress('left');
    events.keypress('left');
    expect(getScreen()).toContain('> 2 Rear: none');
    events.keypress('9');
    events.keypress('b');
    await expect(answer).resolves.toBe('back');
  });
});
