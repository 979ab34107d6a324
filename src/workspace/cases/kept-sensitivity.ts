/**
 * Which single words of the rules the advice on a case hangs on, kept by the content of rules, bike and case: the same case
 * told again, as while it is talked over, tries no strength anew. A rebuilt program believes nothing that an older one kept.
 */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import { caseSensitivity, type CaseSensitivity } from '../../evaluation/sensitivity.ts';
import type { Io } from '../../host/io.ts';
import { readKept, sweepShelf, writeKept, type Shelf } from '../kept.ts';
import { contentName, MOST_A_START } from './content-name.ts';

const TIPPING: Shelf = { name: 'tipping', most: 200 };

/** The same as `caseSensitivity`, from an earlier start where it has told this very case. */
export type KeepSensitivity = (model: Model, bench: PreparedBike, kase: Case) => CaseSensitivity;

/** Keeps what was found of the first few cases of a start; it is written when all is told. */
export function sensitivityKeeper(io: Io): KeepSensitivity {
  let asked = 0;
  sweepShelf(io, TIPPING);
  return (model, bench, kase) => {
    const name =
      io.afterwards === undefined || asked++ >= MOST_A_START ? undefined : contentName(model, bench, kase);
    if (name === undefined) return caseSensitivity(model, bench, kase);
    const kept = readKept(io, TIPPING, name);
    if (isSensitivity(kept)) return kept;
    const made = caseSensitivity(model, bench, kase);
    io.afterwards?.(() => writeKept(io, TIPPING, name, made));
    return made;
  };
}

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
