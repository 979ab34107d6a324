import { PassThrough } from 'node:stream';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openPrompter, type Asked, type Prompter } from '../../src/console/prompter.ts';
import { PLAIN } from '../../src/report/style.ts';

interface Opened {
  readonly prompter: Prompter;
  readonly input: PassThrough;
  readonly shown: () => string;
}

const open: Prompter[] = [];
afterEach(async () => {
  for (const prompter of open.splice(0)) await prompter.close();
});

async function opened(term: string, size: { columns?: number; rows?: number } = {}): Promise<Opened> {
  const input = new PassThrough();
  const output = Object.assign(new PassThrough(), size);
  let shown = '';
  output.on('data', (chunk: Buffer) => (shown += chunk.toString()));
  const prompter = await openPrompter({ input, output, env: { TERM: term } }, PLAIN);
  open.push(prompter);
  return { prompter, input, shown: () => shown };
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

/** Until the prompt reads: what is typed before is thrown away by a terminal, and must not be by a test. */
const ready = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

describe.each([
  ['a terminal that redraws', 'xterm', ''],
  ['a terminal that only prints lines', 'dumb', '\n'],
])('%s', (_, term, enter) => {
  it('takes a digit, and a letter', async () => {
    const { prompter, input } = await opened(term);
    const first = prompter.ask(asked);
    await ready();
    input.write(`2${enter}`);
    await expect(first).resolves.toEqual({ value: 'rear', sure: 'sure' });
    const second = prompter.ask(asked);
    await ready();
    input.write(`w${enter}`);
    await expect(second).resolves.toMatchObject({ value: 'why' });
  });
  it('marks an answer as less than sure', async () => {
    const { prompter, input, shown } = await opened(term);
    const answer = prompter.ask(asked);
    await ready();
    input.write(`s${enter}`);
    await ready();
    input.write(`1${enter}`);
    await expect(answer).resolves.toEqual({ value: 'front', sure: 'fairly' });
    expect(shown()).toContain('fairly sure');
  });
  it('takes a line of text', async () => {
    const { prompter, input } = await opened(term);
    const text = prompter.text('In own words:');
    await ready();
    input.write('it kicks\r\n');
    await expect(text).resolves.toBe('it kicks');
  });
  it('is left by the end of the input, during a prompt and for good', async () => {
    const { prompter, input } = await opened(term);
    const answer = prompter.ask(asked);
    await ready();
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
    await ready();
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
    const { prompter, input } = await opened('xterm');
    const answer = prompter.ask(asked);
    await ready();
    input.write('\u0003');
    await expect(answer).rejects.toMatchObject({ how: 'interrupt' });
  });
  it('is left by Ctrl-D as the end of the input, with half a line of text typed only after it is deleted', async () => {
    const { prompter, input } = await opened('xterm');
    const text = prompter.text('In own words:');
    await ready();
    input.write('i\u007f\u0004');
    await expect(text).rejects.toMatchObject({ how: 'end' });
  });
  it('draws the question anew when the window is resized, and after the program was stopped for a while', async () => {
    const input = new PassThrough();
    const output = Object.assign(new PassThrough(), { columns: 80, rows: 24 });
    let shown = '';
    output.on('data', (chunk: Buffer) => (shown += chunk.toString()));
    const prompter = await openPrompter({ input, output, env: { TERM: 'xterm' } }, PLAIN);
    open.push(prompter);
    const long = {
      ...asked,
      message: 'Which end is it that does this, as far as anybody can tell from here?',
    };
    const answer = prompter.ask(long);
    await ready();
    expect(shown).toContain(long.message);
    expect(prompter.rows).toBe(24);
    shown = '';
    output.columns = 40;
    output.emit('resize');
    await ready();
    expect(shown).toContain('Which end is it that does this, as far\n');
    shown = '';
    process.emit('SIGCONT');
    await ready();
    expect(shown).toContain('> 1 the front');
    const listening = process.listenerCount('SIGCONT');
    input.write('1');
    await expect(answer).resolves.toMatchObject({ value: 'front' });
    expect(process.listenerCount('SIGCONT')).toBeLessThan(listening);
    expect(output.listenerCount('resize')).toBe(0);
  });
});

describe('a terminal that only prints lines', () => {
  it('sends no escape sequence, shows the help, and says what can be typed after a slip', async () => {
    const { prompter, input, shown } = await opened('dumb');
    const answer = prompter.ask(asked);
    await ready();
    input.write('7\n\nfront\n1\n');
    await expect(answer).resolves.toMatchObject({ value: 'front' });
    expect(shown()).not.toContain('\u001b');
    expect(shown()).toContain('Hands tell of the front.');
    expect(shown()).not.toContain('>');
    expect(shown().match(/Type one of the numbers or letters above/g)).toHaveLength(2);
  });
  it('keeps the lines that came early, also before the end of the input', async () => {
    const { prompter, input } = await opened('dumb');
    input.end('1\n2\n');
    await vi.waitFor(() => expect(input.readableEnded).toBe(true));
    await expect(prompter.ask(asked)).resolves.toMatchObject({ value: 'front' });
    await expect(prompter.ask(asked)).resolves.toMatchObject({ value: 'rear' });
    await expect(prompter.ask(asked)).rejects.toMatchObject({ how: 'end' });
  });
});
