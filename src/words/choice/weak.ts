/** Readings on little, such as an end that is only named: offered where what else was said leaves room for them. */
import { withoutEnd } from '../../rulebase/compiled.ts';
import type { Reading } from '../matcher.ts';
import type { Said } from './rivals.ts';

/** Of a text of which so much is read, little else was said: a higher share loses more right readings than wrong ones. */
const MOST = 0.3;

/**
 * Of readings on little, those that may stand beside what else was said.
 * @param meaning how many words of the text carry meaning
 */
export function besides(weak: readonly Said[], readings: readonly Reading[], meaning: number): Reading[] {
  const known = new Set(readings.flatMap((r) => r.candidates.map((c) => withoutEnd(c.question))));
  return weak.flatMap(({ find, reading }) => {
    const left = reading.candidates.filter((c) => !known.has(withoutEnd(c.question)));
    const kind = find.saying.phrase.weak;
    const stands = kind === 'question' || (kind === 'most' && find.places.length >= MOST * meaning);
    const silenced = !stands && known.size > 0;
    return silenced || left.length === 0 ? [] : [{ ...reading, candidates: left }];
  });
}
