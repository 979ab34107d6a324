import { render } from '@inquirer/testing';
import { describe, expect, it, vi } from 'vitest';
import { SAID } from '../../src/console/question-lines.ts';
import { questionPrompt, type QuestionConfig } from '../../src/console/question-prompt.ts';
import { PLAIN } from '../../src/report/style.ts';

const config = (more: Partial<QuestionConfig> = {}): QuestionConfig => ({
  head: 'Question 1: nothing off 51 %; settled 50 %',
  message: 'Which end?',
  choices: ['front', 'rear', 'both'].map((name) => ({ value: name, name: `the ${name}` })),
  actions: [
    { key: 'c', value: 'cannot-tell', name: "can't tell", answers: true },
    { key: 'w', value: 'why', name: 'why ask this' },
    { key: '?', value: 'words', name: 'words explained' },
  ],
  sure: 'sure',
  screen: () => ({ style: PLAIN, rows: 24 }),
  onClose: () => undefined,
  ...more,
});
const twelve = config({
  choices: Array.from({ length: 12 }, (_, i) => ({ value: `v${i + 1}`, name: `number ${i + 1}` })),
});

/** As a terminal sends it, key by key. */
const spell = (events: { keypress: (key: never) => void }, text: string): void => {
  for (const sequence of text) events.keypress({ name: sequence, sequence } as never);
};

describe('the question prompt', () => {
  it('answers by its digit at once, and leaves the question with its answer', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, config());
    expect(getScreen()).toContain('> 1 the front');
    events.keypress('2');
    await expect(answer).resolves.toEqual({ value: 'rear', sure: 'sure' });
    expect(getScreen()).toBe('Which end?\n  the rear');
  });
  it('leaves what it was told to leave, where the name alone would not say it', async () => {
    const all = { key: 'a', value: 'all', name: 'all of these', answers: true, stays: 'the front; the rear' };
    const { answer, events, getScreen } = await render(
      questionPrompt,
      config({ stays: '"it dives":', actions: [all] }),
    );
    expect(getScreen()).toContain('Which end?');
    events.keypress('a');
    await expect(answer).resolves.toMatchObject({ value: 'all' });
    expect(getScreen()).toBe('"it dives":\n  the front; the rear');
  });
  it('answers by arrows and return, going round at both ends', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, config());
    events.keypress('up');
    expect(getScreen()).toContain('> 3 the both');
    events.keypress('down');
    events.keypress('down');
    expect(getScreen()).toContain('> 2 the rear');
    events.keypress('enter');
    await expect(answer).resolves.toEqual({ value: 'rear', sure: 'sure' });
  });
  it('says what can be pressed when a key does nothing here', async () => {
    const { actions, ...plain } = config();
    expect(actions).not.toEqual([]);
    const { events, getScreen } = await render(questionPrompt, { ...plain, actions: [] });
    expect(getScreen()).not.toContain('Ctrl-C leaves');
    events.type('?');
    expect(getScreen()).toContain('Press a number from 1 to 3');
    const other = await render(questionPrompt, config());
    other.events.type('9');
    expect(other.getScreen()).toMatch(/one of the letters\s+above/);
  });
  it.each([
    ['rear', 'rear'],
    ['the front', 'front'],
    ['both', 'both'],
    ['front fork', 'front'],
  ])('picks a choice by its words: %s', async (typed, value) => {
    const letters = [
      { key: 'b', value: 'back', name: 'back' },
      { key: 'f', value: 'finish', name: 'finish' },
    ];
    const { actions = [] } = config();
    const { answer, events, getScreen } = await render(
      questionPrompt,
      config({
        choices: ['the front', 'the rear', 'both'].map((name) => ({ value: name.split(' ').at(-1)!, name })),
        actions: [...actions, ...letters],
        deliberate: true,
      }),
    );
    spell(events, typed);
    expect(getScreen()).toMatch(new RegExp(`letter: ${typed}$`));
    events.keypress('enter');
    await expect(answer).resolves.toMatchObject({ value });
  });
  it('takes a letter for its key where no word follows, and Return at once', async () => {
    const back = { key: 'b', value: 'back', name: 'back' };
    const alone = await render(questionPrompt, config({ actions: [back] }));
    spell(alone.events, 'b');
    await expect(alone.answer).resolves.toMatchObject({ value: 'back' });
    const confirmed = await render(questionPrompt, config({ actions: [back] }));
    spell(confirmed.events, 'b');
    confirmed.events.keypress('enter');
    await expect(confirmed.answer).resolves.toMatchObject({ value: 'back' });
  });
  it('takes s for how sure, and the digit behind it for the answer, where a choice begins with s', async () => {
    const { answer, events } = await render(
      questionPrompt,
      config({ choices: ['same', 'worse'].map((name) => ({ value: name, name })) }),
    );
    spell(events, 's');
    events.keypress('2');
    await expect(answer).resolves.toEqual({ value: 'worse', sure: 'fairly' });
  });
  it('takes a digit behind a word for more of the word', async () => {
    const names = ['4 psi or more above it', 'within 3 psi of it', '4 psi or more below it'];
    const { answer, events, getScreen } = await render(
      questionPrompt,
      config({ choices: names.map((name) => ({ value: name, name })) }),
    );
    spell(events, 'within ');
    events.keypress({ name: '3', sequence: '3' } as never);
    expect(getScreen()).toMatch(/letter: within 3$/);
    events.keypress('enter');
    await expect(answer).resolves.toMatchObject({ value: names[1] });
  });
  it('hands on the key behind a letter that goes back and waited', async () => {
    const after: string[] = [];
    const settled: boolean[] = [];
    const { answer, events } = await render(
      questionPrompt,
      config({
        choices: ['both', 'rear'].map((name) => ({ value: name, name })),
        actions: [{ key: 'b', value: 'back', name: 'back' }],
        onAfter: (key) => void after.push(key),
        onSettled: (back) => void settled.push(back),
      }),
    );
    spell(events, 'b');
    events.keypress({ name: '2', sequence: '2' } as never);
    await expect(answer).resolves.toMatchObject({ value: 'back' });
    expect([after, settled]).toEqual([['2'], [true]]);
  });
  it('begins with the words that were said before, to be gone on with', async () => {
    const { answer, events, getScreen } = await render(
      questionPrompt,
      config({ listens: true, actions: [], before: 'it dives' }),
    );
    expect(getScreen()).toContain('or your own words: it dives');
    events.type(' a lot');
    events.keypress('enter');
    await expect(answer).resolves.toMatchObject({ value: SAID, text: 'it dives a lot' });
  });
  it('takes a digit for the answer behind letters, where no word of a choice begins with it', async () => {
    const { answer, events } = await render(questionPrompt, config());
    spell(events, 'rf');
    events.keypress('1');
    await expect(answer).resolves.toMatchObject({ value: 'front' });
  });
  it('picks nothing by words of no choice, or of several', async () => {
    const { events, getScreen } = await render(questionPrompt, config());
    spell(events, 'the');
    events.keypress('enter');
    expect(getScreen()).toContain('type its words');
    events.keypress('down');
    expect(getScreen()).toMatch(/letter:$/);
    expect(getScreen()).toContain('> 1 the front');
  });
  it('takes a digit for the answer once a word was refused', async () => {
    const { answer, events } = await render(questionPrompt, config());
    spell(events, 'the');
    events.keypress('enter');
    events.keypress('2');
    await expect(answer).resolves.toMatchObject({ sure: 'sure' });
  });
  it('begins at the choice that it is told', async () => {
    const { answer, events } = await render(questionPrompt, config({ start: 2 }));
    events.keypress('enter');
    await expect(answer).resolves.toMatchObject({ value: 'both' });
  });
  it("takes can't tell as an answer", async () => {
    const { answer, events, getScreen } = await render(questionPrompt, config());
    events.keypress('c');
    await expect(answer).resolves.toEqual({ value: 'cannot-tell', sure: 'sure' });
    expect(getScreen()).toBe("Which end?\n  can't tell");
  });
  it('goes round how sure the answer is, and shows it', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, config());
    events.keypress('s');
    expect(getScreen()).toContain('how sure: fairly sure');
    events.keypress('s');
    events.keypress('s');
    expect(getScreen()).toContain('how sure: sure');
    events.keypress('s');
    events.keypress('1');
    await expect(answer).resolves.toEqual({ value: 'front', sure: 'fairly' });
    expect(getScreen()).toContain('the front (fairly sure)');
  });
  it('has no sureness where none is asked for', async () => {
    const { sure: _, ...without } = config();
    const { answer, events, getScreen } = await render(questionPrompt, without);
    events.keypress('s');
    expect(getScreen()).not.toContain('sure');
    events.keypress('1');
    await expect(answer).resolves.toEqual({ value: 'front', sure: 'sure' });
  });
  it.each([
    ['w', 'why', 'why ask this'],
    ['?', 'words', 'words explained'],
  ])('leaves by the letter %s, with one line to show for it', async (key, value, line) => {
    const { answer, events, getScreen } = await render(questionPrompt, config());
    events.keypress(key === '?' ? ({ sequence: '?' } as never) : key);
    await expect(answer).resolves.toEqual({ value, sure: 'sure' });
    expect(getScreen()).toBe(line);
  });
  it('takes no notice of other keys, digits beyond the choices, and control keys', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, config());
    const before = getScreen();
    for (const key of ['x', '9', '0', 'tab', 'escape']) events.keypress(key);
    events.keypress({ name: 'c', ctrl: false } as never);
    await expect(answer).resolves.toMatchObject({ value: 'cannot-tell' });
    expect(before).toContain('Which end?');
    const second = await render(questionPrompt, config());
    second.events.keypress({ name: 'w', ctrl: true });
    expect(second.getScreen()).toBe(before);
  });
  it('takes two digits in a long list, one and return, and forgets a digit on an arrow', async () => {
    const two = await render(questionPrompt, twelve);
    two.events.keypress('1');
    expect(two.getScreen()).toMatch(/letter: 1$/);
    two.events.keypress('2');
    await expect(two.answer).resolves.toMatchObject({ value: 'v12' });
    const one = await render(questionPrompt, twelve);
    one.events.keypress('1');
    one.events.keypress('enter');
    await expect(one.answer).resolves.toMatchObject({ value: 'v1' });
    const moved = await render(questionPrompt, twelve);
    moved.events.keypress('1');
    moved.events.keypress('down');
    moved.events.keypress('2');
    await expect(moved.answer).resolves.toMatchObject({ value: 'v2' });
  });
  it('opens folded help by its letter only where it is folded', async () => {
    const low = config({ help: 'Rock the bike. '.repeat(60), screen: () => ({ style: PLAIN, rows: 16 }) });
    const folded = await render(questionPrompt, low);
    folded.events.keypress('h');
    await expect(folded.answer).resolves.toMatchObject({ value: 'help' });
    const open = await render(questionPrompt, config({ help: 'Rock the bike.' }));
    open.events.keypress('h');
    open.events.keypress('1');
    await expect(open.answer).resolves.toMatchObject({ value: 'front' });
  });
  it('reports the end of its input once, and not after an answer', async () => {
    const onClose = vi.fn<() => void>();
    const { input } = await render(questionPrompt, config({ onClose }));
    input.end();
    await vi.waitFor(() => expect(onClose).toHaveBeenCalledOnce());
    const after = vi.fn<() => void>();
    const done = await render(questionPrompt, config({ onClose: after }));
    done.events.keypress('1');
    await done.answer;
    expect(after).not.toHaveBeenCalled();
  });
});

describe('a prompt that takes a number', () => {
  const measured = config({
    numbers: '27 %, 16/60 mm',
    note: 'Usual: 25 to 30 %.',
    choices: ['on target', 'too little', 'too much'].map((name) => ({ value: name, name })),
  });
  const enter = (events: { keypress: (key: never) => void }): void => events.keypress('enter' as never);

  it('hands a typed number on as it was written, and shows it while it is typed', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, measured);
    expect(getScreen()).toContain('Which end?\n  Usual: 25 to 30 %.\n');
    expect(getScreen()).toMatch(/1-3, or what you read \(27 %, 16\/60 mm\), then Return:$/);
    events.type('26/60 mm');
    expect(getScreen()).toMatch(/then Return: 26\/60 mm$/);
    enter(events);
    await expect(answer).resolves.toEqual({ value: SAID, sure: 'sure', text: '26/60 mm' });
    expect(getScreen()).toBe('Which end?\n  26/60 mm');
  });
  it('takes a digit for the choice only once Return is pressed', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, measured);
    events.type('2');
    expect(getScreen()).toContain('> 2 too little');
    enter(events);
    await expect(answer).resolves.toEqual({ value: 'too little', sure: 'sure', text: '2' });
  });
  it('answers nothing to Return alone, behind a number that was not heard', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, measured);
    enter(events);
    expect(getScreen()).toContain('  1 on target\n');
    events.keypress('down');
    enter(events);
    await expect(answer).resolves.toEqual({ value: 'on target', sure: 'sure' });
  });
  it('lets a slip be rubbed out, and then letters act again', async () => {
    const { answer, events, getScreen } = await render(questionPrompt, measured);
    events.type('4');
    events.keypress('backspace');
    expect(getScreen()).toMatch(/then Return:\s*$/);
    events.keypress('c');
    await expect(answer).resolves.toMatchObject({ value: 'cannot-tell' });
  });
  it('says what can be typed when a key does nothing here', async () => {
    const { events, getScreen } = await render(questionPrompt, measured);
    spell(events, 'x');
    expect(getScreen()).toMatch(/or what you read\s+\(27 %, 16\/60 mm\), and press\s+Return/);
  });
});
