/**
 * What was worked out of a case, kept by the content of rules, bike, log and case: the same case told again, on the same
 * bike, is read and not thought through anew. A rebuilt program believes nothing that an older one kept.
 */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import { sha256 } from '../../disk/sha256.ts';
import type { Io } from '../../host/io.ts';
import { VERSION } from '../../host/root.ts';
import { readKept, sweepShelf, writeKept, type Shelf } from '../kept.ts';
import { builtAt } from '../rules/built-in.ts';
import { RESULT_FORMAT, type Result } from '../../report/result/result.ts';
import type { CaseSensitivity } from '../../evaluation/sensitivity.ts';

/** More cases than this in one start are a batch: they will hardly come again, and writing them costs more than it saves. */
const MOST_A_START = 5;

/** All that it is worked out of; `how`: what was asked of it. */
export type Content = readonly [model: Model, bench: PreparedBike, kase: Case, how?: unknown];

/** The same as `make` gives, from an earlier start where it made this very one. */
export type Keep<T> = (content: Content, make: () => T | Promise<T>) => Promise<T>;

/** Keeps what was made of the first few cases of a start; it is written when all is told. */
function keeper<T>(io: Io, shelf: Shelf, isOne: (kept: unknown) => kept is T): Keep<T> {
  let asked = 0;
  sweepShelf(io, shelf);
  return async (content, make) => {
    const name = io.afterwards === undefined || asked++ >= MOST_A_START ? undefined : contentName(...content);
    if (name === undefined) return make();
    const kept = readKept(io, shelf, name);
    if (isOne(kept)) return kept;
    const made = await make();
    io.afterwards?.(() => writeKept(io, shelf, name, made));
    return made;
  };
}

/** @returns undefined where the program was not built: then nothing tells one state of it from another */
function contentName(...[model, bench, kase, how = null]: Content): string | undefined {
  const built = builtAt();
  if (built === undefined) return undefined;
  const { odds, findings, sheet, leftGood = null } = bench;
  // What of the bench hangs on more than the sheet is its prior, and that follows from the odds of the causes.
  const all = [VERSION, built, model.rules.digest, sheet ?? null, leftGood, findings, [...odds], kase, how];
  return sha256().update(JSON.stringify(all)).digest('hex');
}

/** The result of one case, as an earlier start told it. */
export const resultKeeper = (io: Io): Keep<Result> => keeper(io, { name: 'results', most: 100 }, isResult);

function isResult(kept: unknown): kept is Result {
  return typeof kept === 'object' && kept !== null && 'format' in kept && kept.format === RESULT_FORMAT;
}

/** Which single words of the rules the advice on a case hangs on: while it is talked over, no strength is tried anew. */
export const sensitivityKeeper = (io: Io): Keep<CaseSensitivity> =>
  keeper(io, { name: 'tipping', most: 200 }, isSensitivity);

function isSensitivity(kept: unknown): kept is CaseSensitivity {
  return (
    typeof kept === 'object' &&
    kept !== null &&
    'tried' in kept &&
    typeof kept.tried === 'number' &&
    'tipping' in kept &&
    Array.isArray(kept.tipping)
  );
}
