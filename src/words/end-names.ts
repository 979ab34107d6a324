/** Which word names an end of the bike: plain English here, the names of the trade from the rules. */
import type { End } from '../bike/sheet.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';

export interface NamedEnd {
  readonly end: End;
  /** `name`: looked up as the end itself; `part`: tells the end, stays its own word; `hint`: tells it if nothing else does */
  readonly as: 'name' | 'part' | 'hint';
}

export interface EndVocabulary {
  /**
   * Which end a word names; `back` only where it cannot be the "back" of "comes back".
   * @param before the word before it, @param after the word after it, lower case
   */
  named(word: string, before?: string, after?: string): NamedEnd | undefined;
}

/** @param names what the rules call the ends, beside `front`, `rear` and `the back` */
export function endVocabulary(names: CompiledRules['endNames'] = []): EndVocabulary {
  const known = new Map<string, NamedEnd>();
  for (const { end, names: plain, parts, hints } of names) {
    for (const word of hints) known.set(word, { end, as: 'hint' });
    for (const word of parts) known.set(word, { end, as: 'part' });
    for (const word of plain) known.set(word, { end, as: 'name' });
  }
  for (const end of ['front', 'rear'] as const) known.set(end, { end, as: 'name' });
  const swapped = new Map(
    [...known].filter(([, { as }]) => as === 'name').flatMap(([word, n]) => swaps(word).map((s) => [s, n])),
  );
  return {
    named(word, before = '', after = '') {
      const found = known.get(word) ?? swapped.get(word);
      if (found !== undefined) return found;
      if (after === 'end' && TAIL_END.has(word)) return { end: 'rear', as: 'name' };
      if (word !== 'back' || after === 'of' || OWN_BACK.has(before)) return undefined;
      return REAR_AFTER.has(before) || REAR_BEFORE.has(after) ? { end: 'rear', as: 'name' } : undefined;
    },
  };
}

/** English alone, for words of no pack. */
export const PLAIN_ENDS = endVocabulary();

/** "The arse end steps out": the bike's, where a sore one is the rider's. */
const TAIL_END = new Set(['arse', 'ass', 'bum', 'butt']);
const REAR_AFTER = new Set(['the', 'at']);
const OWN_BACK = new Set(['my', 'his', 'her', 'lower', 'your']);
const REAR_BEFORE = new Set(['end', 'wheel', 'tyre', 'tire', 'shock', 'suspension', 'tyres', 'one']);

/** Two neighbours swapped: the only slip allowed here, since `font` and `frost` are words of their own. */
function swaps(word: string): string[] {
  if (word.length < 4) return [];
  return [...word].flatMap((c, i) => {
    const next = word[i + 1];
    return i === 0 || next === undefined || next === c
      ? []
      : [word.slice(0, i) + next + c + word.slice(i + 2)];
  });
}
