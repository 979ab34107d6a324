/**
 * How eagerly the engine compiles. It takes a function that ran for long for one that will run on, and compiles it on
 * threads beside; most lines are done before that pays. Only the time moves by it, nothing that is worked out.
 */
import { setFlagsFromString } from 'node:v8';

/** By the first number of the engine's version: the names change, and of one it does not know the engine complains. */
const FLAGS: Readonly<Record<string, readonly string[]>> = {
  '11': ['--interrupt-budget=400000', '--no-parallel-scavenge'],
  '12': ['--invocation-count-for-turbofan=18000', '--no-parallel-scavenge'],
  '13': ['--invocation-count-for-turbofan=18000', '--no-parallel-scavenge'],
};

/** Words of a line that runs for long: who asks many questions, and streams, which may hold a million cases. */
const LONG = /^(interview|rules|-|--jobs(=.*)?|(--format=)?(ndjson|csv)|.*\.(ndjson|jsonl))$/;

export function runsForLong(line: readonly string[]): boolean {
  return line.some((word) => LONG.test(word));
}

/** Compiles only what runs on for much longer than usual, six times where nothing else is said. */
export function compileLess(engine = process.versions.v8): void {
  for (const flag of FLAGS[engine.split('.')[0]!] ?? []) setFlagsFromString(flag);
}
