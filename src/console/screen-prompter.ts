/** The prompter over inquirer; imported only when an interview really begins. */
import type { Style } from '../report/style.ts';
import { endIfGone, watchLeaving } from './leaving.ts';
import { guardInput, type GuardedInput } from './guarded-input.ts';
import type { Mode } from './key-guard.ts';
import { Left, styleNow, type Leaving, type Prompter, type Terminal } from './prompter.ts';
import { listPrompt } from './list-prompt.ts';
import type { Life } from './life.ts';
import type { Screen } from './question-lines.ts';
import { questionPrompt } from './question-prompt.ts';
import { textPrompt } from './text-prompt.ts';
import { askThroughInquirer, type Prompt } from './through-inquirer.ts';

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
  /** @param mode which keys are let through while it stands there */
  const run = async <Value, Config>(
    prompt: Prompt<Value, Config & Life>,
    config: Config,
    mode: Mode,
  ): Promise<Value> => {
    if (left !== undefined) throw new Left(left);
    const mine = new AbortController();
    asking = mine;
    try {
      return await askThroughInquirer(
        prompt,
        {
          ...config,
          onClose: () => leave('end'),
          onShown: () => keys.open(mode),
          onSettled: (back: boolean) => keys.shut(back),
          onAfter: keys.keep,
          onRedraw: (redraw: () => void) => watchScreen(terminal, keys, redraw),
        },
        { input: keys.stream, output, signal: mine.signal },
      );
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
  const screen = (): Screen => ({ style: styleNow(style, terminal), rows: output.rows ?? 24 });
  return {
    get style() {
      return styleNow(style, terminal);
    },
    ask: (asked) =>
      run(
        questionPrompt,
        { ...asked, screen },
        asked.before !== undefined
          ? 'text'
          : asked.listens === true
            ? 'listen'
            : asked.numbers === undefined
              ? 'choice'
              : 'number',
      ),
    list: (listed) => run(listPrompt, { ...listed, screen }, 'choice'),
    text: (message) => run(textPrompt, { message, style: styleNow(style, terminal) }, 'text'),
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
