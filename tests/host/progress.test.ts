import { expect, it } from 'vitest';
import type { Io } from '../../src/host/io.ts';
import { progressOn } from '../../src/host/progress.ts';

function terminal(given: Partial<Io>) {
  const seen = { err: '', ms: 0 };
  const io = {
    stderrIsTty: true,
    stdoutIsTty: false,
    err: (text: string) => void (seen.err += text),
    now: () => new Date(seen.ms),
    ...given,
  } as Io;
  return { seen, progress: progressOn(io) };
}

it('says nothing for a second, then how many and how fast, at most once a second', () => {
  const { seen, progress } = terminal({});
  seen.ms = 900;
  progress.moved(5_000);
  expect(seen.err).toBe('');
  seen.ms = 1_500;
  progress.moved(10_000);
  seen.ms = 1_600;
  progress.moved(1_000);
  expect(seen.err).toBe('\r15,000 cases, 10,000 a second ');
  seen.err = '';
  seen.ms = 2_600;
  progress.moved(10_000);
  expect(seen.err).toBe('\r26,000 cases, 10,000 a second ');
});
it('makes room for something else to be said, once', () => {
  const { seen, progress } = terminal({});
  progress.clear();
  expect(seen.err).toBe('');
  seen.ms = 1_500;
  progress.moved(3);
  seen.err = '';
  progress.clear();
  progress.clear();
  expect(seen.err).toBe('\r\u001B[K');
});
it('is silent into a file, and where the output itself is on the terminal', () => {
  for (const given of [{ stderrIsTty: false }, { stdoutIsTty: true }]) {
    const { seen, progress } = terminal(given);
    seen.ms = 5_000;
    progress.moved(1);
    progress.clear();
    expect(seen.err).toBe('');
  }
});
