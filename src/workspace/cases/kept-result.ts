/**
 * The result of one case, kept by the content of rules, bike, log and case: the same case told again, on the same bike, is
 * read and not thought through anew. A rebuilt program believes nothing that an older one kept.
 */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Io } from '../../host/io.ts';
import type { Model } from '../../diagnosis/model.ts';
import { RESULT_FORMAT, type Result } from '../../report/result.ts';
import { readKept, sweepShelf, writeKept, type Shelf } from '../kept.ts';
import { contentName, MOST_A_START } from './content-name.ts';

const RESULTS: Shelf = { name: 'results', most: 100 };
/**
 * @param how all else that the result hangs on: what was asked of it
 * @param make works it out where it is not kept
 */
export type KeepResult = (
  model: Model,
  bench: PreparedBike,
  kase: Case,
  how: unknown,
  make: () => Promise<Result>,
) => Promise<Result>;

/** Keeps the results of the first few cases of a start; they are written when all is told. */
export function resultKeeper(io: Io): KeepResult {
  let asked = 0;
  sweepShelf(io, RESULTS);
  return async (model, bench, kase, how, make) => {
    const name =
      io.afterwards === undefined || asked++ >= MOST_A_START
        ? undefined
        : contentName(model, bench, kase, how);
    if (name === undefined) return make();
    const kept = readKept(io, RESULTS, name);
    if (isResult(kept)) return kept;
    const made = await make();
    io.afterwards?.(() => writeKept(io, RESULTS, name, made));
    return made;
  };
}

function isResult(kept: unknown): kept is Result {
  return typeof kept === 'object' && kept !== null && 'format' in kept && kept.format === RESULT_FORMAT;
}
