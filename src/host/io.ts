/** What a command may touch, handed in so that tests can hand in their own. */

export interface Io {
  readonly out: (text: string) => void | Promise<void>;
  readonly err: (text: string) => void;
  readonly stdin: AsyncIterable<Uint8Array>;
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly stdinIsTty: boolean;
  readonly stdoutIsTty: boolean;
  readonly stderrIsTty: boolean;
  /** columns of standard output */
  readonly width: number;
  readonly now: () => Date;
  /** folders of further rule packs, as the line named them; they may add settings to a bike sheet */
  readonly packs?: readonly string[];
  /** further folders in which cases may name their bike sheets, as the line named them */
  readonly bikes?: readonly string[];
  /** resolves when the user interrupts; a second time ends the program. Only the real process has this. */
  readonly interrupted?: () => Promise<'interrupted'>;
  /** takes what may wait until all output is out and the exit code is known. Only the real process has this. */
  readonly afterwards?: (work: () => Promise<void>) => void;
}

/** The exit codes of the program, in one place. */
export const EXIT = { done: 0, some: 1, usage: 2, interrupted: 130 } as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** A mistake of the user's, or of a file: one clear line with a remedy, never a stack. */
export class Refusal extends Error {
  /** By name: the program and a command loaded later may each have this class from a file of their own. */
  static override [Symbol.hasInstance](value: unknown): boolean {
    return Error[Symbol.hasInstance](value) && (value as Error).name === 'Refusal';
  }
  readonly exit: ExitCode;
  /** each mistake inside a file that could be opened, where that is what was refused */
  readonly mistakes: readonly string[] | undefined;
  constructor(message: string | readonly string[], exit: ExitCode = EXIT.usage) {
    super(typeof message === 'string' ? message : message.join('\n'));
    this.name = 'Refusal';
    this.exit = exit;
    this.mistakes = typeof message === 'string' ? undefined : message;
  }
}
