/** What works a case out and makes its result: in one place to be asked for only where no earlier start told the case. */
export { consult, roomFor } from '../../casework/consult.ts';
export { toResult } from './to-result.ts';
