/** What bothers most, where a rider's words tell signs of it and do not name it: "it bucks me off lips" is about jumps. */
import { withoutEnd, type CompiledRules } from '../../rulebase/compiled.ts';
import type { Reading } from '../matcher.ts';

type Opening = CompiledRules['openings'][number];
type Adds = (readings: readonly Reading[]) => Reading[];

/**
 * @returns the readings of one text; the first that tells of what most of the signs in it are about offers that too. Nothing
 *   is added where the words name what bothers, or tell no sign of any opening.
 */
export function whatBothers(openings: readonly Opening[]): Adds {
  const named = new Set(openings.flatMap(({ answers }) => Object.keys(answers)));
  return (readings) => {
    if (readings.some((r) => r.candidates.some(({ question }) => named.has(question)))) return [...readings];
    const told = openings.map((opening) => ({ opening, by: readings.filter((r) => tells(r, opening)) }));
    const most = told.reduce<(typeof told)[number] | undefined>(
      (best, one) => (one.by.length > 0 && (best === undefined || isBefore(one, best)) ? one : best),
      undefined,
    );
    if (most === undefined) return [...readings];
    const [first] = most.by;
    const adds = Object.entries(most.opening.answers).map(([question, answer]) => ({
      question,
      answer,
      confirmed: false as const,
    }));
    return readings.map((r) => (r === first ? { ...r, candidates: [...r.candidates, ...adds] } : r));
  };
}

/**
 * Of what was derived from readings on 80 openings that nobody looked at, 12 of 47 were neither told nor may be meant; 6 of 39
 * where a reading must be so sure.
 */
const LEAST_SURE = 0.72;

/** A sign that is denied bothers nobody. */
const tells = ({ negated, candidates, sure = 1 }: Reading, { signs }: Opening): boolean =>
  !negated &&
  sure >= LEAST_SURE &&
  candidates.some(({ question, answer }) => signs[withoutEnd(question)]?.includes(answer));

interface Told {
  readonly by: readonly Reading[];
}

/** Told by more readings, or sooner. */
const isBefore = (one: Told, best: Told): boolean =>
  one.by.length > best.by.length ||
  (one.by.length === best.by.length && one.by[0]!.position < best.by[0]!.position);
