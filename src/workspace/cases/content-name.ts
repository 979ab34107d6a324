/** Under which name something that was worked out of a case is kept: it says all that it hangs on. */
import { statSync } from 'node:fs';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Case } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import { sha256 } from '../../disk/sha256.ts';
import { VERSION } from '../../host/version.ts';
import { BUILT_PHYSICS } from '../rules/built-in.ts';

/** @returns undefined where the program was not built: then nothing tells one state of it from another */
export function contentName(
  model: Model,
  bench: PreparedBike,
  kase: Case,
  how: unknown = null,
): string | undefined {
  try {
    // The build writes this file anew each time.
    const built = statSync(BUILT_PHYSICS).mtimeMs;
    const { buffer, byteOffset, byteLength } = bench.prior;
    return sha256()
      .update(JSON.stringify([VERSION, built, model.rules.digest, bench.sheet ?? null, kase, how]))
      .update(new Uint8Array(buffer, byteOffset, byteLength))
      .digest('hex');
  } catch {
    return undefined;
  }
}
