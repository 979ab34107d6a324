/** Which word of the phrases a misspelt word may stand for: strict, since a wrong guess costs the rider a question. */
import { editDistance } from '../form/suggest.ts';
import { NO_SLIP } from './language.ts';

/**
 * How well a word that no phrase knows stands for one that a phrase has, both as written and as stems.
 * @returns 0 when it does not, else below 1
 */
export function slipQuality(
  typed: { readonly word: string; readonly stem: string },
  known: { readonly word: string; readonly stem: string },
): number {
  if (NO_SLIP.has(typed.word) || typed.word[0] !== known.word[0]) return 0;
  if (Math.abs(typed.word.length - known.word.length) > 4) return 0;
  const slips = Math.min(
    slipsBetween(typed.stem, known.stem),
    ...INFLECTIONS.map((ending) => slipsBetween(typed.word, known.stem + ending)),
    slipsBetween(typed.word, known.word),
  );
  return slips === Infinity ? 0 : 1 - 0.15 * slips;
}

/** So that `kickng` finds `kick`: the stemmer cannot take off an ending that is misspelt. */
const INFLECTIONS = ['s', 'ed', 'ing', 'y'];

/**
 * Infinity when it is more than a slip: none below 4 letters, a swap at 4, a swap or a letter too many or missing from
 * 5, any one from 7, two from 9. One letter for another makes most short words a word of their own.
 */
function slipsBetween(typed: string, known: string): number {
  const length = Math.min(typed.length, known.length);
  const distance = editDistance(typed, known);
  if (distance === 0) return 0;
  if (length >= 9) return distance <= 2 ? distance : Infinity;
  if (distance !== 1 || length < 4) return Infinity;
  if (typed.length === known.length) return length >= 7 || sorted(typed) === sorted(known) ? 1 : Infinity;
  return length >= 5 ? 1 : Infinity;
}

const sorted = (word: string): string => [...word].sort().join('');
