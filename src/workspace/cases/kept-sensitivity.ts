/** Which single words of the rules the advice on a case hangs on: while it is talked over, no strength is tried anew. */
import type { CaseSensitivity } from '../../evaluation/sensitivity.ts';
import type { Io } from '../../host/io.ts';
import { keeper, type Keep } from './kept-by-content.ts';

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
