/** `earshot rules test`: the checks alone. */
import { command } from '../../takes.ts';
import { checked, checkOptions } from './check.ts';

export const rulesTest = command({
  about: 'only the checks that stand beside the rules',
  options: checkOptions,
  examples: [['earshot rules test --only berm', 'the checks with berm in their name or place']],
  run: (given, here) => checked(given, false, here),
});
