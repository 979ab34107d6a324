import { PassThrough } from 'node:stream';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Clock } from '../../src/console/guarded-input.ts';
import { openPrompter, type Asked, type Prompter } from '../../src/console/prompter.ts';
import { PLAIN } from '../../src/report/style.ts';

interface Opened {
  readonly prompter: Prompter;
  readonly input: PassThrough;
  readonly output: PassThrough & { columns?: number; rows?: number };
  readonly shown: () => string;
  /** waits until a prompt was drawn, and for long enough to read it */
  readonly read: (forMs?: number) => Promise<void>;
  /** lets so much time go by */
  readonly wait: (milliseconds: number) => void;
  /** a key, and the time until something comes of it */
  readonly tap: (keys: string) => Promise<void>;
  /** what a person types who has read the prompt, and who waits for what comes of it */
  readonly type: (keys: string) => Promise<void>;
}

/** A clock that stands still until it is told otherwise. */
function handClock(): Clock & { readonly wait: (milliseconds: number) => void } {
  let now = 0;
  let later: { readonly at: number; readonly run: () => void }[] = [];
  return {
    now: () => now,
    after(milliseconds, then) {
      const one = { at: now + milliseconds, run: then };
      later.push(one);
      return () => void (later = later.filter((other) => other !== one));
    },
    wait(milliseconds) {
      now += milliseconds;
      const due = later.filter(({ at }) => at <= now);
      later = later.filter(({ at }) => at > now);
      for (const { run } of due) run();
    },
  };
}

const open: Prompter[] = [];
afterEach(async () => {
  for (const prompter of open.splice(0)) await prompter.close();
});

async function opened(term: string, size: { columns?: number; rows?: number } = {}): Promise<Opened> {
  const input = new PassThrough();
  const output = Object.assign(new PassThrough(), size);
  const clock = handClock();
  let shown = '';
  let seen = 0;
  output.on('data', (chunk: Buffer) => (shown += chunk.toString()));
  const prompter = await openPrompter({ input, output, env: { TERM: term }, clock }, PLAIN);
  open.push(prompter);
  const settle = (): Promise<void> => new Promise((resolve) => setImmediate(() => setImmediate(resolve)));
  const read = async (forMs = 2000): Promise<void> => {
    await vi.waitFor(() => expect(shown.length).toBeGreaterThan(seen), 15_000);
    await settle();
    seen = shown.length;
    clock.wait(forMs);
  };
  const tap = async (keys: string): Promise<void> => {
    input.write(keys);
    await settle();
    clock.wait(300);
    await settle();
  };
  const type = async (keys: string): Promise<void> => {
    await read();
    await tap(keys);
  };
  return { prompter, input, output, shown: () => shown, read, wait: clock.wait, tap, type };
}

const asked: Asked = {
  head: 'Question 1',
  message: 'Which end?',
  help: 'Hands tell of the front.',
  choices: [
    { value: 'front', name: 'the front' },
    { value: 'rear', name: 'the rear' },
  ],
  actions: [{ key: 'w', value: 'why', name: 'why ask this' }],
  sure: 'sure',
};

describe.each([
  ['a terminal that redraws', 'xterm', ''],
  ['a terminal that only prints lines', 'dumb', '\n'],
])('%s', (_, term, enter) => {
  it('takes a digit, and a letter', async () => {
    const { prompter, type } = await opened(term);
    const first = prompter.ask(asked);
    await type(`2${enter}`);
    await expect(first).resolves.toEqual({ value: 'rear', sure: 'sure' });
    const second = prompter.ask(asked);
    await type(`w${enter}`);
    await expect(second).resolves.toMatchObject({ value: 'why' });
  });
  it('marks an answer as less than sure', async () => {
    const { prompter, type, shown } = await opened(term);
    const answer = prompter.ask(asked);
    await type(`s${enter}`);
    await type(`1${enter}`);
    await expect(answer).resolves.toEqual({ value: 'front', sure: 'fairly' });
    expect(shown()).toContain('fairly sure');
  });
  it('takes a line of text', async () => {
    const { prompter, input, type, wait } = await opened(term);
    const text = prompter.text('In own words:');
    await type('it kicks');
    wait(300);
    input.write('\r\n');
    await new Promise((resolve) => setImmediate(resolve));
    wait(300);
    await expect(text).resolves.toBe('it kicks');
  });
  it('is left by the end of the input, during a prompt and for good', async () => {
    const { prompter, input, read } = await opened(term);
    const answer = prompter.ask(asked);
    await read();
    input.end();
    await expect(answer).rejects.toMatchObject({ name: 'Left', how: 'end' });
    await expect(prompter.text('In own words:')).rejects.toMatchObject({ how: 'end' });
  });
  it.each([
    ['SIGINT', 'interrupt'],
    ['SIGTERM', 'terminate'],
    ['SIGHUP', 'hangup'],
  ] as const)('is left by %s, during a prompt or between two', async (signal, how) => {
    const during = await opened(term);
    const answer = during.prompter.ask(asked);
    await during.read();
    process.emit(signal);
    await expect(answer).rejects.toMatchObject({ name: 'Left', how });
    const between = await opened(term);
    process.emit(signal);
    await expect(between.prompter.ask(asked)).rejects.toMatchObject({ name: 'Left', how });
  });
  it('gives the signals back when it is closed', async () => {
    const before = process.listenerCount('SIGTERM');
    const { prompter } = await opened(term);
    expect(process.listenerCount('SIGTERM')).toBe(before + 1);
    await prompter.close();
    expect(process.listenerCount('SIGTERM')).toBe(before);
  });
  it('follows the width of the terminal', async () => {
    expect((await opened(term, { columns: 61 })).prompter.style.width).toBe(61);
    expect((await opened(term, { columns: 20 })).prompter.style.width).toBe(40);
    expect((await opened(term)).prompter.style.width).toBe(80);
  });
});

describe('a terminal that redraws', () => {
  it('is left by Ctrl-C as an interrupt', async () => {
    const { prompter, input, read } = await opened('xterm');
    const answer = prompter.ask(asked);
    await read();
    input.write('\u0003');
    await expect(answer).rejects.toMatchObject({ how: 'interrupt' });
  });
  it('is left by Ctrl-D as the end of the input, with half a line of text typed only after it is deleted', async () => {
    const { prompter, input, read } = await opened('xterm');
    const text = prompter.text('In own words:');
    await read();
    for (const key of ['i', '\u007f', '\u0004']) input.write(key);
    await expect(text).rejects.toMatchObject({ how: 'end' });
  });
  it('draws the question anew when the window is resized, and after the program was stopped for a while', async () => {
    const { prompter, input, output, shown, read, wait } = await opened('xterm', { columns: 80, rows: 24 });
    const long = {
      ...asked,
      message: 'Which end is it that does this, as far as anybody can tell from here?',
    };
    const answer = prompter.ask(long);
    await read();
    expect(shown()).toContain(long.message);
    expect(prompter.rows).toBe(24);
    output.columns = 40;
    output.emit('resize');
    await read();
    expect(shown()).toContain('Which end is it that does this, as far\n');
    const before = shown().length;
    process.emit('SIGCONT');
    await read();
    expect(shown().slice(before)).toContain('> 1 the front');
    const listening = process.listenerCount('SIGCONT');
    input.write('1');
    await vi.waitFor(() => {
      wait(300);
      expect(output.listenerCount('resize')).toBe(0);
    });
    await expect(answer).resolves.toMatchObject({ value: 'front' });
    expect(process.listenerCount('SIGCONT')).toBeLessThan(listening);
  });
  it('has no default where an answer must be deliberate: return alone answers nothing', async () => {
    const { prompter, read, tap, shown } = await opened('xterm');
    const answer = prompter.ask({ ...asked, deliberate: true });
    await read();
    await tap('\r');
    expect(shown()).not.toContain('> ');
    await tap('2');
    await expect(answer).resolves.toMatchObject({ value: 'rear' });
  });
  it.each([
    ['down', '\u001b[B', 'front'],
    ['up', '\u001b[A', 'rear'],
  ])('takes return there once an arrow %s has chosen', async (_, arrow, value) => {
    const { prompter, type } = await opened('xterm');
    const answer = prompter.ask({ ...asked, deliberate: true });
    await type(arrow);
    await type('\r');
    await expect(answer).resolves.toMatchObject({ value });
  });
  it('leaves nothing of a key that is held down for the next prompt', async () => {
    const { prompter, input, type, wait, read } = await opened('xterm');
    const first = prompter.ask(asked);
    await type('1');
    await expect(first).resolves.toMatchObject({ value: 'front' });
    input.write('2');
    const second = prompter.ask(asked);
    await read(33);
    let answered = false;
    void second.finally(() => (answered = true)).catch(() => undefined);
    for (let i = 0; i < 30; i++) {
      input.write('2');
      await new Promise((resolve) => setImmediate(resolve));
      wait(33);
    }
    expect(answered).toBe(false);
    process.emit('SIGINT');
    await expect(second).rejects.toMatchObject({ how: 'interrupt' });
  });
  it('is left by Ctrl-C between two prompts', async () => {
    const { prompter, input } = await opened('xterm');
    input.write('1\u0003');
    await new Promise((resolve) => setImmediate(resolve));
    await expect(prompter.ask(asked)).rejects.toMatchObject({ how: 'interrupt' });
  });
});

describe('a terminal that only prints lines', () => {
  it('is shown a list anew after each line that was turned', async () => {
    const { prompter, type, shown } = await opened('dumb');
    const states = ['not sure', 'one'].map((name) => ({ value: name, name }));
    const lines = ['Front', 'Rear'].map((name) => ({ name, states }));
    const told = prompter.list({ head: '', message: 'Knobs', lines, actions: [] });
    await type('2\n');
    await type('\n');
    expect(await told).toEqual(['not sure', 'one']);
    expect(shown()).toContain('2 Rear: one');
  });
  it('says what can be typed after a slip in a list, and turns nothing', async () => {
    const { prompter, type, shown } = await opened('dumb');
    const lines = [{ name: 'Front', states: ['not sure', 'one'].map((name) => ({ value: name, name })) }];
    const told = prompter.list({ head: '', message: 'Knobs', lines, actions: [] });
    for (const line of ['2\n', '0\n', 'one\n', '\n']) await type(line);
    expect(await told).toEqual(['not sure']);
    expect(shown().match(/Type one of the numbers or letters above, then Return/g)).toHaveLength(3);
    expect(shown().match(/1 Front/g)).toHaveLength(1);
  });
  it('sends no escape sequence, shows the help, and says what can be typed after a slip', async () => {
    const { prompter, type, shown } = await opened('dumb');
    const answer = prompter.ask(asked);
    for (const line of ['7\n', '\n', 'sideways\n', 'front\n']) await type(line);
    await expect(answer).resolves.toMatchObject({ value: 'front' });
    expect(shown()).not.toContain('\u001b');
    expect(shown()).toContain('Hands tell of the front.');
    expect(shown()).not.toContain('>');
    expect(shown().match(/Type one of the numbers or letters above/g)).toHaveLength(2);
  });
  it('takes no stray letter for an answer, and only a number or the name where it must be deliberate', async () => {
    const { prompter, type, shown } = await opened('dumb');
    const stray = prompter.ask(asked);
    for (const line of ['r\n', 're\n', 'rea\n']) await type(line);
    await expect(stray).resolves.toMatchObject({ value: 'rear' });
    expect(shown().match(/Type one of the numbers or letters above/g)).toHaveLength(2);
    const deliberate = prompter.ask({ ...asked, deliberate: true });
    for (const line of ['rear\n', 'The front\n']) await type(line);
    await expect(deliberate).resolves.toMatchObject({ value: 'front' });
    expect(shown().match(/Type one of the numbers or letters above/g)).toHaveLength(3);
  });
  it('hands on the digit that picked a choice where it may be a number as well', async () => {
    const { prompter, type } = await opened('dumb');
    const measured = prompter.ask({ ...asked, numbers: '1.7 bar, 25 psi' });
    await type('2\n');
    await expect(measured).resolves.toMatchObject({ value: 'rear', text: '2' });
    const plain = prompter.ask(asked);
    await type('2\n');
    await expect(plain).resolves.not.toHaveProperty('text');
  });
  it('takes no line that came before its question, nor the later lines of a paste', async () => {
    const { prompter, input, type } = await opened('dumb');
    input.write('1\n');
    const first = prompter.ask(asked);
    await type('2\n1\n1\n');
    await expect(first).resolves.toMatchObject({ value: 'rear' });
    const second = prompter.ask(asked);
    await type('w\n');
    await expect(second).resolves.toMatchObject({ value: 'why' });
    const third = prompter.ask(asked);
    input.end('1\n');
    await expect(third).rejects.toMatchObject({ how: 'end' });
  });
  it('takes the lines of a paste as one text', async () => {
    const { prompter, type } = await opened('dumb');
    const text = prompter.text('In own words:');
    await type('it kicks\nand rattles\n');
    await expect(text).resolves.toBe('it kicks and rattles');
  });
});
