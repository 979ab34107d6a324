import { render } from '@inquirer/testing';
import { describe, expect, it } from 'vitest';
import { questionPrompt, type QuestionConfig } from '../../src/console/question-prompt.ts';
import { PLAIN } from '../../src/report/style.ts';

/** The real prompt, drawn on the prompt library's own testing terminal. */
const config = (width = 80): QuestionConfig => ({
  head: '3  front rebound too slow 41 %; settled 45 %',
  message: 'Through a row of similar bumps, how does each hit at the front compare with the one before?',
  choices: [
    { value: 'same', name: 'about the same' },
    { value: 'worse', name: 'each one harsher' },
    { value: 'skips', name: 'it skips' },
  ],
  actions: [
    { key: 'c', value: 'cannot-tell', name: "can't tell", answers: true },
    { key: 'b', value: 'back', name: 'back' },
    { key: '?', value: 'words', name: 'words' },
  ],
  sure: 'sure',
  screen: () => ({ style: { ...PLAIN, width }, rows: 24 }),
  onClose: () => {},
});

describe('the question prompt', () => {
  it('shows the question, its answers with digits, and what the letters do', async () => {
    const { getScreen } = await render(questionPrompt, config());
    const screen = getScreen();
    expect(screen).toContain('front rebound too slow 41 %');
    expect(screen).toContain('Through a row of similar bumps');
    expect(screen).toMatch(/> ?1 about the same/);
    expect(screen).toMatch(/2 each one harsher/);
    expect(screen).toContain("c can't tell");
  });
  it('answers at once by a digit', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, config());
    events.keypress({ name: '2' });
    await expect(answer).resolves.toEqual({ value: 'worse', sure: 'sure' });
    expect(getScreen()).toContain('each one harsher');
  });
  it('answers by arrows and return', async () => {
    const { answer, events } = await render(questionPrompt, config());
    events.keypress('down');
    events.keypress('down');
    events.keypress('enter');
    await expect(answer).resolves.toEqual({ value: 'skips', sure: 'sure' });
  });
  it('goes round from the first to the last', async () => {
    const { answer, events } = await render(questionPrompt, config());
    events.keypress('up');
    events.keypress('enter');
    await expect(answer).resolves.toMatchObject({ value: 'skips' });
  });
  it('takes letters for everything else', async () => {
    const { answer, events } = await render(questionPrompt, config());
    events.keypress('b');
    await expect(answer).resolves.toMatchObject({ value: 'back' });
  });
  it('keeps to forty columns', async () => {
    const { getScreen } = await render(questionPrompt, config(40));
    expect(
      Math.max(
        ...getScreen()
          .split('\n')
          .map((l) => l.length),
      ),
    ).toBeLessThanOrEqual(40);
  });
});
