/**
 * Which single words of the rules the advice on a case hangs on, kept by the content of rules, bike and case: the same case
 * told again, as while it is talked over, tries no strength anew. A rebuilt program believes nothing that an older one kept.
 */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import { caseSensitivity, type CaseSensitivity } from '../../evaluation/sensitivity.ts';
import type { Io } from '../../host/io.ts';
import { readKept, writeKept, type Shelf } from '../kept.ts';
import { contentName } from './content-name.ts';

const TIPPING: Shelf = { name: 'tipping', most: 200 };

/** The same as `caseSensitivity`, from an earlier start where it has told this very case. */
export async function keptSensitivity(
  io: Io,
  model: Model,
  bench: PreparedBike,
  kase: Case,
): Promise<CaseSensitivity> {
  const name = contentName(model, bench, kase);
  const kept = name === undefined ? undefined : readKept(io, TIPPING, name);
  if (isSensitivity(kept)) return kept;
  const made = caseSensitivity(model, bench, kase);
  if (name !== undefined) await writeKept(io, TIPPING, name, made);
  return made;
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
