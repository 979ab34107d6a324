/** Readings on little, such as an end that is only named: offered where what else was said leaves room for them. */
import { withoutEnd } from '../../rulebase/compiled.ts';
import type { Reading } from '../matcher.ts';
import type { Said } from './rivals.ts';

/** Of readings on little, those that may stand beside what else was said. */
export function besides(weak: readonly Said[], readings: readonly Reading[]): Reading[] {
  const known = new Set(readings.flatMap((r) => r.candidates.map((c) => withoutEnd(c.question))));
  return weak.flatMap(({ find, reading }) => {
    const left = reading.candidates.filter((c) => !known.has(withoutEnd(c.question)));
    const silenced = find.saying.phrase.weak === 'all' && known.size > 0;
    return silenced || left.length === 0 ? [] : [{ ...reading, candidates: left }];
  });
}
