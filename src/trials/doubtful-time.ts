/** A run time that is more likely a slip of the keys than a run. */
import type { Trial } from './trial.ts';

/** Longer than any timed section is ridden in one go, s; judgement. */
const LONGEST = 3600;
/** Nothing that is timed is over sooner, s; judgement. */
const SHORTEST = 5;
/** Runs of one trial are on one track: a time this many times another one, or this part of it, is of another track. */
const TIMES = 2;

/** @returns how long it would be, in words; undefined where nothing speaks against it */
export function doubtfulTime({ ridden }: Pick<Trial, 'ridden'>, seconds: number): string | undefined {
  const others = ridden.flatMap((run) => (run.seconds === undefined ? [] : [run.seconds]));
  const usual = others.toSorted((a, b) => a - b)[Math.floor(others.length / 2)];
  if (usual !== undefined && (seconds > usual * TIMES || seconds * TIMES < usual))
    return `${timeWords(seconds)}, and the other runs took about ${timeWords(usual)}`;
  return usual === undefined && (seconds > LONGEST || seconds < SHORTEST) ? timeWords(seconds) : undefined;
}

/** `61.2 s`, `2 min 5 s`, `12 h 37 min` */
function timeWords(seconds: number): string {
  if (seconds < 120) return `${seconds} s`;
  const minutes = Math.floor(seconds / 60);
  return minutes < 60
    ? `${minutes} min ${Math.round(seconds % 60)} s`
    : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
