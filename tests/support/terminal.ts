/**
 * The built program in a pseudo-terminal, as a person sees it.
 *
 * The pseudo-terminal is made by `script` (part of Debian's and Ubuntu's essential package bsdutils, so nothing has to
 * be installed for it, not even on a bare machine), and sized by `stty`. `script` copies what it is sent to the
 * terminal and what comes out of it back, and ends with the program's exit code. Killing `script` closes the
 * terminal, as closing a window does. The tests run the files under dist/; the test command builds them first.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { stripVTControlCharacters } from 'node:util';
import { ROOT } from '../../src/host/root.ts';

export interface TerminalOptions {
  readonly columns?: number;
  readonly rows?: number;
  readonly cwd?: string;
  /** a file for the exit code of a program whose terminal goes away: `script` is gone by then */
  readonly codeFile?: string;
  /** besides PATH; what is not given is not there */
  readonly env: Readonly<Record<string, string>>;
}

export const KEYS = {
  enter: '\r',
  up: '\u001b[A',
  down: '\u001b[B',
  ctrlC: '\u0003',
  ctrlD: '\u0004',
} as const;

const PATIENCE = 15_000;
/** Longer than a prompt takes a key for typed before it. It only has to be long enough, however slow the machine. */
const READ_MS = 260;

export class Terminal {
  readonly #script: ChildProcess;
  readonly #ended: Promise<number>;
  #raw = '';
  /** how much of the output was looked at */
  #seen = 0;
  #wake: () => void = () => undefined;

  constructor(
    argv: readonly string[],
    { columns = 80, rows = 24, cwd = ROOT, codeFile, env }: TerminalOptions,
  ) {
    const program = [process.execPath, `${ROOT}/bin/earshot.js`, ...argv].map(quote).join(' ');
    const run =
      codeFile === undefined ? `exec ${program}` : `trap '' HUP; ${program}; echo $? > ${quote(codeFile)}`;
    const command = `stty cols ${columns} rows ${rows}; echo "pid=$$."; ${run}`;
    this.#script = spawn('script', ['-qefc', command, '/dev/null'], {
      cwd,
      env: {
        PATH: process.env['PATH'] ?? '',
        SHELL: '/bin/sh',
        TERM: 'xterm-256color',
        LANG: 'C.UTF-8',
        ...env,
      },
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    this.#script.stdin!.on('error', () => undefined);
    this.#script.stdout!.setEncoding('utf8').on('data', (text: string) => {
      this.#raw += text;
      this.#wake();
    });
    this.#ended = new Promise((resolve, reject) => {
      this.#script.on('error', reject);
      this.#script.on('close', (code) => {
        this.#wake();
        resolve(code ?? -1);
      });
    });
  }

  /** all that came out, escape sequences and all */
  get raw(): string {
    return this.#raw;
  }

  /** what came out as text */
  get text(): string {
    return stripVTControlCharacters(this.#raw).replaceAll('\r', '');
  }

  /** The pid of the program itself. */
  async pid(): Promise<number> {
    await this.#until(() => /pid=\d+\./.test(this.#raw), 'its pid');
    return Number(/pid=(\d+)\./.exec(this.#raw)![1]);
  }

  /** Waits until this stands in what came since the last wait. */
  async see(wanted: string): Promise<void> {
    const there = (): number =>
      stripVTControlCharacters(this.#raw.slice(this.#seen)).replaceAll(/\s+/g, ' ').indexOf(wanted);
    await this.#until(() => there() >= 0, JSON.stringify(wanted));
    this.#seen = this.#raw.length;
  }

  /** Sends bytes at once, as a paste or a held key does. */
  send(bytes: string): void {
    this.#script.stdin!.write(bytes);
  }

  /** Types as a person does, who has read what stands there: the program takes nothing that comes sooner. */
  async type(keys: string): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve, READ_MS));
    this.send(keys);
  }

  /** Types when the prompt stands there, and goes on when the next thing wanted does. */
  async answer(keys: string, wanted: string): Promise<void> {
    await this.type(keys);
    await this.see(wanted);
  }

  /** Closes the window. */
  hangUp(): void {
    this.#script.kill('SIGKILL');
  }

  /** @returns the exit code of the program */
  async ended(): Promise<number> {
    const late = setTimeout(() => this.#script.kill('SIGKILL'), PATIENCE);
    try {
      return await this.#ended;
    } finally {
      clearTimeout(late);
    }
  }

  async #until(done: () => boolean, what: string): Promise<void> {
    const end = Date.now() + PATIENCE;
    while (!done()) {
      if (Date.now() > end || (this.#script.exitCode !== null && !done()))
        throw new Error(`The terminal never showed ${what}. It showed:\n${this.text.slice(-2000)}`);
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, 100);
        this.#wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
  }
}

function quote(text: string): string {
  return `'${text.replaceAll("'", String.raw`'\''`)}'`;
}
