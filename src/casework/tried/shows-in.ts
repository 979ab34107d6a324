/** What a report of one thing only speaks of: `for: hands`. */
import { printable } from '../../form/text.ts';
import { nearest } from '../../form/suggest.ts';
import { withoutEnd } from '../../rulebase/compiled.ts';
import type { Model } from '../../diagnosis/model.ts';

/**
 * How strongly each cause brings any sign of these questions; a rider feels it go as far as it showed.
 * @returns a share a cause, or why a name is none, in a sentence
 */
export function showsIn(
  { rules: { questions, causes } }: Model,
  names: readonly string[],
): Float64Array | string {
  const out = new Float64Array(causes.length);
  for (const name of names) {
    const own = questions.filter(
      (q) => q.either === undefined && (withoutEnd(q.id) === withoutEnd(name) || q.topic === name),
    );
    const named = own.some((q) => q.id === name) ? own.filter((q) => q.id === name) : own;
    if (named.length === 0) {
      const near = nearest(
        name,
        questions.flatMap((q) => [withoutEnd(q.id), q.topic]),
      );
      return `${printable(name)}: there is no question or topic of that name.${near === undefined ? '' : ` Did you mean ${near}?`}`;
    }
    for (const { links } of named)
      for (const [cause, , strength] of links) out[cause] = Math.max(out[cause]!, strength);
  }
  return out;
}
