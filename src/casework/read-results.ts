/** The trials of a case file, each checked as a change and an outcome. */
import { parseChange } from '../bike/change.ts';
import { didYouMean } from '../form/suggest.ts';
import type { CaseResult, CaseVocabulary, Wrong } from './case.ts';
import { isMap } from '../form/is-map.ts';
import { kindOf, shorten, show } from './value-label.ts';

const OUTCOMES: readonly string[] = ['better', 'same', 'worse'];

export function readResults(
  raw: unknown,
  at: readonly (string | number)[],
  vocabulary: CaseVocabulary,
  wrong: Wrong,
): CaseResult[] {
  if (raw === undefined || raw === null) return [];
  if (!Array.isArray(raw)) {
    wrong(
      at,
      `results must be a list, found ${kindOf(raw)}.`,
      'Write - {change: front.rebound.low+2, outcome: better}.',
    );
    return [];
  }
  return raw.flatMap((entry: unknown, i): CaseResult[] => {
    const here = [...at, i];
    if (!isMap(entry)) {
      wrong(
        here,
        `A result must be a map, found ${kindOf(entry)}.`,
        'Write {change: front.rebound.low+2, outcome: better}.',
      );
      return [];
    }
    for (const key of Object.keys(entry)) {
      if (!['change', 'outcome', 'kept', 'points', 'error', 'trial', 'date'].includes(key))
        wrong(
          here,
          `A result has no key ${shorten(key)}.`,
          'Keys: change, outcome, kept, points, error.',
          key,
        );
    }
    const { change, outcome } = entry;
    const kept = entry['kept'] ?? outcome === 'better';
    const fault =
      typeof change !== 'string'
        ? {
            message: `change must be a text, found ${show(change)}.`,
            remedy: 'Write it like front.rebound.low+2, or give an adjustment id.',
          }
        : changeFault(change, vocabulary);
    if (fault !== undefined) wrong([...here, 'change'], fault.message, fault.remedy);
    if (typeof outcome !== 'string' || !OUTCOMES.includes(outcome))
      wrong(
        [...here, 'outcome'],
        `outcome must be better, same or worse, found ${show(outcome)}.`,
        didYouMean(String(outcome), OUTCOMES) || 'Use one of the three words.',
      );
    if (typeof kept !== 'boolean')
      wrong(
        [...here, 'kept'],
        `kept must be true or false, found ${show(kept)}.`,
        'Leave it out: better is kept, the rest is taken back.',
      );
    const measured = readMeasured(entry, here, wrong);
    if (
      fault !== undefined ||
      measured === undefined ||
      typeof outcome !== 'string' ||
      !OUTCOMES.includes(outcome) ||
      typeof kept !== 'boolean'
    )
      return [];
    const text = (key: 'trial' | 'date'): object =>
      entry[key] === undefined || entry[key] === null ? {} : { [key]: String(entry[key]) };
    return [
      {
        change: change as string,
        outcome: outcome as CaseResult['outcome'],
        kept,
        ...measured,
        ...text('trial'),
        ...text('date'),
      },
    ];
  });
}

/** Both or neither; undefined when there is something wrong with them. */
function readMeasured(
  entry: Readonly<Record<string, unknown>>,
  here: readonly (string | number)[],
  wrong: Wrong,
): { points?: number; error?: number } | undefined {
  const { points, error } = entry;
  if ((points ?? null) === null && (error ?? null) === null) return {};
  if (typeof points !== 'number' || !(Math.abs(points) <= MOST_POINTS)) {
    wrong(
      [...here, 'points'],
      `points must be a number from -${MOST_POINTS} to ${MOST_POINTS}, found ${show(points)}.`,
      'Give points and error as a judged trial does, or leave both out.',
    );
    return undefined;
  }
  if (typeof error !== 'number' || !(error >= LEAST_ERROR && error <= 100)) {
    wrong(
      [...here, 'error'],
      `error must be a number from ${LEAST_ERROR} to 100, found ${show(error)}.`,
      'Give points and error as a judged trial does, or leave both out.',
    );
    return undefined;
  }
  return { points, error };
}

/** Nobody rates finer than this; a smaller error would make a slip of the pen a proof. */
export const LEAST_ERROR = 0.05;
/** Points of the scale from its one end to the other. */
export const MOST_POINTS = 6;

function changeFault(
  change: string,
  { adjustments, adjusters }: CaseVocabulary,
): { message: string; remedy: string } | undefined {
  if (adjustments.has(change)) return undefined;
  const { problems } = parseChange(change, adjusters);
  return problems[0];
}
