/** Readings that stand against each other: two of the same words, of which the one that says more is meant, and those on little. */
import { withoutEnd } from '../../rulebase/compiled.ts';
import type { Find } from '../align.ts';
import type { Candidate, Reading } from '../matcher.ts';

export interface Said {
  readonly find: Find;
  readonly reading: Reading;
}

/**
 * @param stays what is offered whatever overrules it
 * @returns the readings without the answers that a better reading of the same words overrules
 */
export function withoutRivals(said: readonly Said[], stays: (said: Candidate) => boolean): Reading[] {
  const better = (a: Said, b: Said): boolean =>
    a.find.places.length > b.find.places.length ||
    (a.find.places.length === b.find.places.length && a.find.score > b.find.score);
  return said.flatMap((one) => {
    const { reading } = one;
    const rivals = said.filter((other) => other !== one && better(other, one) && shareWord(other, one));
    const left = reading.candidates.filter(
      (c) =>
        stays(c) ||
        !rivals.some((r) => {
          // Whatever the end: both readings speak of the same words.
          const same = r.reading.candidates.filter((o) => withoutEnd(o.question) === withoutEnd(c.question));
          return same.length > 0 && same.every((o) => o.answer !== c.answer);
        }),
    );
    if (left.length === 0 && reading.candidates.length > 0) return [];
    return [left.length === reading.candidates.length ? reading : { ...reading, candidates: left }];
  });
}

const shareWord = (a: Said, b: Said): boolean => a.find.places.some((p) => b.find.places.includes(p));

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
