/** `earshot completion SHELL`: a script that completes the command line, made from the commands as they are. */
import { command, oneOf } from '../takes.ts';
import type { CompletionCommand } from '../../report/completion/completion.ts';
import { EXIT } from '../../host/io.ts';

const SHELLS = ['bash', 'zsh', 'fish'] as const;

export const completion = command({
  about: 'a script that lets the shell complete commands, options and files',
  args: { shell: oneOf('which shell', SHELLS) },
  examples: [
    ['source <(earshot completion bash)', 'in the file bash reads at its start'],
    ['source <(earshot completion zsh)', 'the same for zsh'],
    ['earshot completion fish | source', 'the same for fish'],
  ],
  run: async ({ shell }, { io, tree }) => {
    await io.out(await script(shell, await tree()));
    return EXIT.done;
  },
});

async function script(shell: (typeof SHELLS)[number], tree: CompletionCommand): Promise<string> {
  switch (shell) {
    case 'bash':
      return (await import('../../report/completion/bash.ts')).bashCompletion(tree);
    case 'zsh':
      return (await import('../../report/completion/zsh.ts')).zshCompletion(tree);
    case 'fish':
      return (await import('../../report/completion/fish.ts')).fishCompletion(tree);
  }
}
