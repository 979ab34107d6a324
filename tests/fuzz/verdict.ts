/** What must hold of every run, whatever was thrown at it. */
import type { Ran } from '../support/io.ts';
import type { Throw } from './targets.ts';

const CODES = new Set([0, 1, 2, 130]);
const STACK = /^\s+at .+:\d+:\d+\)?$/m;
// Text of the input must not move the cursor or turn the direction of a terminal.
const MOVES = /(?![\n\t])[\p{Cc}\u202a-\u202e\u2066-\u2069]/u;

/** @returns what is wrong with a run, a line each; empty when all holds */
export function faultsOf(thrown: Throw, ran: Ran, milliseconds: number): string[] {
  const faults: string[] = [];
  const both = `${ran.out}\n${ran.err}`;
  if (!CODES.has(ran.code)) faults.push(`exit code ${ran.code}`);
  if (/This is a fault in earshot/.test(both)) faults.push('a crash');
  if (STACK.test(both)) faults.push('a stack trace');
  if (ran.code !== 0 && ran.err.trim() === '' && ran.out.trim() === '') faults.push('fails without a word');
  // A message that drowns the terminal tells nothing.
  if (ran.err.length > 200_000) faults.push(`${ran.err.length} characters of messages`);
  const moves = MOVES.exec(ran.err) ?? (forMachines(thrown) ? null : MOVES.exec(ran.out));
  if (moves !== null) faults.push(`prints the control character ${JSON.stringify(moves[0])}`);
  if (milliseconds > 60_000) faults.push(`took ${Math.round(milliseconds)} ms`);
  if (thrown.argv[0] === 'diagnose' && thrown.argv.includes('ndjson') && !thrown.argv.includes('--help')) {
    for (const line of ran.out.trim().split('\n'))
      if (line !== '' && !isJson(line)) faults.push(`a line that is not JSON: ${line.slice(0, 80)}`);
  }
  return faults;
}

/** Forms for machines carry names of cases unchanged. */
const forMachines = (thrown: Throw): boolean =>
  thrown.argv.some((word) => ['json', 'ndjson', 'csv'].includes(word));

function isJson(line: string): boolean {
  try {
    JSON.parse(line);
    return true;
  } catch {
    return false;
  }
}
