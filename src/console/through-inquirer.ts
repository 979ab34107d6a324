/** Asks a prompt of our own through inquirer; the only module that imports it, and only when something is really asked. */

export interface Context {
  readonly input: NodeJS.ReadableStream;
  readonly output: NodeJS.WritableStream;
  readonly signal: AbortSignal;
}

export type Prompt<Value, Config> = (config: Config, context: never) => Promise<Value>;

/** @returns what the prompt resolves to; rejects as inquirer does when the asking is broken off */
export async function askThroughInquirer<Value, Config extends object>(
  prompt: Prompt<Value, Config>,
  config: Config,
  context: Context,
): Promise<Value> {
  const { default: inquirer } = await import('inquirer');
  const ask = inquirer.createPromptModule(context as never);
  ask.registerPrompt('own', prompt as never);
  const answers = (await ask([{ message: '', ...config, type: 'own', name: 'value' }] as never)) as {
    readonly value: Value;
  };
  return answers.value;
}
