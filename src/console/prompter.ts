/** The port between an interview and a terminal: three ways of asking, and two ways of being left. */
import type { Style } from '../report/style.ts';
import type { Action, Choice } from './question-prompt.ts';

/** The user left: Ctrl-C, or the end of the input. */
export class Left extends Error {
  readonly how: 'interrupt' | 'end';
  constructor(how: 'interrupt' | 'end') {
    super(how);
    this.name = 'Left';
    this.how = how;
  }
}

export interface Asked {
  readonly head: string;
  readonly message: string;
  readonly help?: string | undefined;
  readonly choices: readonly Choice[];
  readonly actions: readonly Action[];
}

export interface Prompter {
  readonly style: Style;
  /** one question with its letters; resolves to the value chosen */
  ask(asked: Asked): Promise<string>;
  text(message: string): Promise<string>;
  confirm(message: string, fallback: boolean): Promise<boolean>;
  /** anything printed between prompts */
  say(text: string): void;
}

export interface Streams {
  readonly input: NodeJS.ReadableStream;
  readonly output: NodeJS.WritableStream;
}

/** The prompter over inquirer, imported only when an interview really begins. */
export async function openPrompter(streams: Streams, style: Style): Promise<Prompter> {
  const [{ default: inquirer }, { questionPrompt }] = await Promise.all([
    import('inquirer'),
    import('./question-prompt.ts'),
  ]);
  const context = { input: streams.input, output: streams.output, clearPromptOnDone: false };
  const prompt = inquirer.createPromptModule(context);
  const guarded = async <T>(asking: Promise<T>): Promise<T> => {
    try {
      return await asking;
    } catch (error) {
      const { name, message } = error as Error;
      // Told apart by name: the prompt library may be loaded twice.
      if (name === 'ExitPromptError' || name === 'AbortPromptError')
        throw new Left(/SIGINT/.test(message) ? 'interrupt' : 'end');
      throw error;
    }
  };
  return {
    style,
    ask: (asked) =>
      guarded(
        questionPrompt(
          { ...asked, style, ...(asked.help === undefined ? {} : { help: asked.help }) } as never,
          context,
        ),
      ),
    text: async (message) =>
      (await guarded(prompt([{ type: 'input', name: 'value', message }]))).value as string,
    confirm: async (message, fallback) =>
      (await guarded(prompt([{ type: 'confirm', name: 'value', message, default: fallback }])))
        .value as boolean,
    say: (text) => void streams.output.write(text),
  };
}
