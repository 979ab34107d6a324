/** What every line of the program is given to run its command with. */
import type { ExitCode, Io } from '../commands/io.ts';
import type { Prompter } from '../console/prompter.ts';
import type { Style } from '../report/style.ts';

export interface Line {
  readonly io: Io;
  /** folders of further rule packs */
  readonly rules: () => readonly string[];
  readonly style: () => Promise<Style>;
  readonly prompter: () => Promise<() => Promise<Prompter>>;
  /** takes in what the command came to */
  readonly done: (result: Promise<ExitCode>) => Promise<void>;
}
