/** The terminal's keys as the prompts get them: only those that were meant for the prompt that stands there. */
import { PassThrough } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';
import { CTRL_C, CTRL_Z, isPaste, PASTE, pieces } from './keys.ts';
import { keyGuard, READING, type Mode } from './key-guard.ts';

/** Tests hand in one of their own. */
export interface Clock {
  /** milliseconds from any beginning */
  now(): number;
  /** @returns takes it back */
  after(milliseconds: number, then: () => void): () => void;
}

export const REAL_CLOCK: Clock = {
  now: () => performance.now(),
  after(milliseconds, then) {
    // What came in while the program was busy is heard first: it may show that the key is held down.
    const timer = setTimeout(() => setImmediate(then), milliseconds);
    return () => clearTimeout(timer);
  },
};

export interface GuardedInput {
  /** what the prompts read */
  readonly stream: NodeJS.ReadableStream;
  /** a prompt now stands on the screen */
  open(mode: Mode): void;
  /** it was answered, or is gone; as `KeyGuard.shut` */
  shut(known?: boolean): void;
  /** as `KeyGuard.keep` */
  keep(key: string): void;
  /** takes the terminal back after the program was stopped and goes on */
  retake(): void;
  close(): void;
}

/** @param interrupt called for Ctrl-C while no prompt stands there */
export function guardInput(
  input: NodeJS.ReadableStream,
  output: NodeJS.WritableStream,
  interrupt: () => void,
  clock: Clock = REAL_CLOCK,
): GuardedInput {
  const stream = new PassThrough();
  const guard = keyGuard();
  const decoder = new StringDecoder('utf8');
  const split = pieces();
  const { isTTY } = input as Partial<NodeJS.ReadStream>;
  let open = false;
  let readable = false;
  let cancelReading: (() => void) | undefined;
  let cancel: (() => void) | undefined;
  const pass = (keys: readonly string[]): void => {
    for (const key of keys) if (open) stream.write(key);
  };
  const watch = (): void => {
    cancel?.();
    const { due } = guard;
    cancel = due === undefined ? undefined : clock.after(Math.max(0, due - clock.now()), late);
  };
  const late = (): void => {
    // Taken back in the meantime, or put off.
    if (guard.due !== undefined && guard.due <= clock.now()) pass(guard.take());
    watch();
  };
  const setRaw = (raw: boolean): void => {
    if (isTTY === true) (input as Partial<NodeJS.ReadStream>).setRawMode?.(raw);
  };
  const stop = (): void => {
    if (isTTY === true) output.write(PASTE.off);
    setRaw(false);
    process.kill(process.pid, 'SIGTSTP');
  };
  const hear = (bytes: Buffer | string): void => {
    for (const chunk of split(typeof bytes === 'string' ? bytes : decoder.write(bytes))) {
      if (chunk === CTRL_Z && isTTY === true && process.platform !== 'win32') stop();
      else if (!open && chunk.includes(CTRL_C) && !isPaste(chunk)) interrupt();
      else pass(guard.hear(chunk, clock.now(), readable));
    }
    watch();
  };
  const end = (): void => void stream.end();
  // Raw from first to last: what is typed between two prompts is neither shown nor kept by the terminal.
  setRaw(true);
  if (isTTY === true) output.write(PASTE.on);
  input.on('data', hear);
  input.once('end', end);
  input.once('close', end);
  input.resume();
  return {
    stream,
    open(mode) {
      open = true;
      readable = false;
      cancelReading?.();
      cancelReading = clock.after(READING, () => void (readable = true));
      const early = guard.open(mode, clock.now());
      // The prompt listens from the next turn on.
      if (early.length > 0) setImmediate(() => pass(early));
    },
    shut(known) {
      open = false;
      cancelReading?.();
      guard.shut(known);
      watch();
    },
    keep: guard.keep,
    retake() {
      // Off first: Node remembers what it set, and would leave what the shell set since.
      for (const raw of [false, true]) setRaw(raw);
      if (isTTY === true) output.write(PASTE.on);
    },
    close() {
      cancel?.();
      cancelReading?.();
      input.off('data', hear);
      input.off('end', end);
      input.off('close', end);
      input.pause();
      setRaw(false);
      if (isTTY === true) output.write(PASTE.off);
      stream.end();
    },
  };
}
