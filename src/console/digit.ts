/** Digits to numbers: a digit answers at once unless it may be the first of a longer number. */

export interface Digit {
  /** the choice it comes to, counted from 0 */
  readonly chosen?: number;
  /** the number as far as it goes, when it may still grow; otherwise empty */
  readonly typed: string;
}

/**
 * @param before digits typed so far
 * @param count how many choices there are
 */
export function digit(before: string, next: string, count: number): Digit {
  const text = before + next;
  const number = Number(text);
  if (text.startsWith('0') || number > count) {
    // 1 and then 5 of twelve: the second digit speaks for itself.
    return before === '' ? { typed: '' } : digit('', next, count);
  }
  return number * 10 <= count ? { typed: text } : { chosen: number - 1, typed: '' };
}
