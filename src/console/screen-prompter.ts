/** The prompter over inquirer; imported only when an interview really begins. */
import type { Style } from '../report/style.ts';
import { endIfGone, watchLeaving } from './leaving.ts';
import { guardInput, type GuardedInput } from './guarded-input.ts';
import { Left, styleNow, type Leaving, type Prompter, type Terminal } from './prompter.ts';
import { listPrompt } from './list-prompt.ts';
import { questionPrompt } from './question-prompt.ts';
import { textPrompt } from './text-prompt.ts';
import { askThroughInquirer, type Context } from './through-inquirer.ts';

/** A shell that stopped the program and lets it go on wrote over its prompt; a stop from elsewhere took the keys, too. */
function watchScreen({ output }: Terminal, keys: GuardedInput, redraw: () => void): () => void {
  const back = (): void => {
    keys.retake();
    redraw();
  };
  output.on('resize', redraw);
  process.on('SIGCONT', back);
  return () => {
    output.off('resize', redraw);
    process.off('SIGCONT', back);
  };
}

export function openScreenPrompter(terminal: Terminal, style: Style): Prompter {
  const { input, output } = terminal;
  let left: Leaving | undefined;
  let asking: AbortController | undefined;
  const leave = (how: Leaving): void => {
    left ??= how;
    asking?.abort();
  };
  const unwatch = watchLeaving(input, leave);
  const keys = guardInput(input, output, () => leave('interrupt'), terminal.clock);
  const guarded = async <T>(prompt: (context: Context, onClose: () => void) => Promise<T>): Promise<T> => {
    if (left !== undefined) throw new Left(left);
    const mine = new AbortController();
    asking = mine;
    try {
      return await prompt({ input: keys.stream, output, signal: mine.signal }, () => leave('end'));
    } catch (error) {
      const { name } = error as Error;
      // Told apart by name: the prompt library may be loaded twice. Its reader closes after Ctrl-C too, so Ctrl-C goes first.
      if (name === 'ExitPromptError') throw new Left((left = 'interrupt'));
      if (name === 'AbortPromptError') throw new Left((left ??= 'end'));
      throw error;
    } finally {
      asking = undefined;
      keys.shut();
    }
  };
  return {
    get style() {
      return styleNow(style, terminal);
    },
    ask: (asked) =>
      guarded((context, onClose) =>
        askThroughInquirer(
          questionPrompt,
          {
            ...asked,
            screen: () => ({ style: styleNow(style, terminal), rows: output.rows ?? 24 }),
            onClose,
            onShown: () => keys.open(asked.listens === true ? 'listen' : 'choice'),
            onSettled: () => keys.shut(),
            onRedraw: (redraw) => watchScreen(terminal, keys, redraw),
          },
          context,
        ),
      ),
    list: (listed) =>
      guarded((context, onClose) =>
        askThroughInquirer(
          listPrompt,
          {
            ...listed,
            screen: () => ({ style: styleNow(style, terminal), rows: output.rows ?? 24 }),
            onClose,
            onShown: () => keys.open('choice'),
            onSettled: () => keys.shut(),
            onRedraw: (redraw) => watchScreen(terminal, keys, redraw),
          },
          context,
        ),
      ),
    text: (message) =>
      guarded((context, onClose) =>
        askThroughInquirer(
          textPrompt,
          {
            message,
            style: styleNow(style, terminal),
            onClose,
            onShown: () => keys.open('text'),
            onSettled: () => keys.shut(),
            onRedraw: (redraw) => watchScreen(terminal, keys, redraw),
          },
          context,
        ),
      ),
    say: (text) => void output.write(text),
    get rows() {
      return output.rows;
    },
    async close() {
      await endIfGone(input, left);
      keys.close();
      unwatch();
    },
  };
}
