/** What a shell needs to know of the program to complete its command lines. */

/** What stands where a value goes. */
export type Takes =
  | { readonly kind: 'file' | 'folder' | 'text' }
  | { readonly kind: 'choice'; readonly choices: readonly string[] };

export interface CompletionOption {
  /** with their dashes, short one first: `-f`, `--format` */
  readonly names: readonly string[];
  readonly about: string;
  /** null: a switch without a value */
  readonly takes: Takes | null;
  /** may the value be left out */
  readonly optional: boolean;
}

export interface CompletionCommand {
  readonly name: string;
  readonly about: string;
  readonly options: readonly CompletionOption[];
  /** its arguments in order; the last one repeats when `variadic` */
  readonly args: readonly { readonly name: string; readonly takes: Takes }[];
  readonly variadic: boolean;
  readonly commands: readonly CompletionCommand[];
}

/** A command with the words that lead to it, the program's own name left out: `rules check`. */
export interface Placed {
  readonly path: string;
  readonly command: CompletionCommand;
}

/** Every command of the tree, the program itself first with an empty path. */
export function placed(command: CompletionCommand, path = ''): Placed[] {
  return [
    { path, command },
    ...command.commands.flatMap((sub) => placed(sub, path === '' ? sub.name : `${path} ${sub.name}`)),
  ];
}

/** A text inside single quotes, for bash and zsh. */
export function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}
