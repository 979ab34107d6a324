/** For every save: all but the dearest files. */
import { SLOW } from './kinds.ts';
import { configOf } from './vitest.config.ts';

export default configOf(SLOW);
