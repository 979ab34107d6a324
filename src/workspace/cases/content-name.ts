/** Under which name something that was worked out of a case is kept: it says all that it hangs on. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import { sha256 } from '../../disk/sha256.ts';
import { VERSION } from '../../host/version.ts';
import { builtAt } from '../rules/built-in.ts';

/** More cases than this in one start are a batch: they will hardly come again, and writing them costs more than it saves. */
export const MOST_A_START = 5;

/** @returns undefined where the program was not built: then nothing tells one state of it from another */
export function contentName(
  model: Model,
  bench: PreparedBike,
  kase: Case,
  how: unknown = null,
): string | undefined {
  const built = builtAt();
  if (built === undefined) return undefined;
  const { prior, findings, sheet } = bench;
  return sha256()
    .update(JSON.stringify([VERSION, built, model.rules.digest, sheet ?? null, findings ?? null, kase, how]))
    .update(new Uint8Array(prior.buffer, prior.byteOffset, prior.byteLength))
    .digest('hex');
}
