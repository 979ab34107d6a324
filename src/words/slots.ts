/** A way of saying a phrase, as the rules write it, cut into the words that must be there. */
import { wordsOf, type Token } from './tokens.ts';

/** One word of a phrase, or several of which one is enough (`bump/hit/root`): stem → the word as written. */
export type Slot = ReadonlyMap<string, string>;

/** The words of a phrase that count; `a/b` makes one slot of both, and `on/over` none, since `on` may be left out. */
export function slotsOf(text: string): Slot[] {
  const slots: Slot[] = [];
  let group: Token[] = [];
  for (const token of wordsOf(text)) {
    group.push(token);
    if (text[token.stop] === '/') continue;
    if (!group.some((t) => t.filler)) slots.push(new Map(group.map((t) => [t.stem, t.word])));
    group = [];
  }
  return slots;
}
