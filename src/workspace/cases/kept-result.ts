/** The result of one case, as an earlier start told it. */
import type { Io } from '../../host/io.ts';
import { RESULT_FORMAT, type Result } from '../../report/result/result.ts';
import { keeper, type Keep } from './kept-by-content.ts';

export const resultKeeper = (io: Io): Keep<Result> => keeper(io, { name: 'results', most: 100 }, isResult);

function isResult(kept: unknown): kept is Result {
  return typeof kept === 'object' && kept !== null && 'format' in kept && kept.format === RESULT_FORMAT;
}
