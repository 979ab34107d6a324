/** What is odd about a file is told once a start, however often it is read. */
import type { Io } from '../../host/io.ts';

const told = new WeakMap<object, Set<string>>();

export function tellOnce(io: Pick<Io, 'err'>): (line: string) => void {
  const seen = told.get(io) ?? new Set();
  told.set(io, seen);
  return (line) => {
    if (seen.has(line)) return;
    seen.add(line);
    io.err(`${line}\n`);
  };
}
