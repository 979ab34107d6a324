/** What was tried before, as a case file lists it: its form only; what it means on the bike is `place-tried.ts`. */
import { didYouMean } from '../form/suggest.ts';
import type { Tried, TriedResult, Wrong } from './case.ts';
import { isMap } from '../form/is-map.ts';
import { kindOf, shorten, show } from './value-label.ts';

const KEYS = ['change', 'setting', 'end', 'direction', 'by', 'unit', 'result', 'for', 'put-back'];
export const TRIED_RESULTS: readonly TriedResult[] = ['better', 'same', 'worse', 'not-sure'];
export const PUT_BACK = ['yes', 'no', 'unknown'] as const;
const FORM = 'Write - {setting: compression.low, end: front, direction: open, result: worse, put-back: no}.';

export function readTried(raw: unknown, at: readonly (string | number)[], wrong: Wrong): Tried[] {
  if (raw === undefined || raw === null) return [];
  if (!Array.isArray(raw)) {
    wrong(at, `tried must be a list, found ${kindOf(raw)}.`, FORM);
    return [];
  }
  return raw.flatMap((entry: unknown, i) => {
    const here = [...at, i];
    if (isMap(entry)) return readOne(entry, here, wrong);
    wrong(here, `What was tried must be a map, found ${kindOf(entry)}.`, FORM);
    return [];
  });
}

function readOne(entry: Record<string, unknown>, at: readonly (string | number)[], wrong: Wrong): Tried[] {
  let sound = true;
  const fault = (path: readonly (string | number)[], message: string, remedy: string, key?: string): void => {
    sound = false;
    wrong(path, message, remedy, key);
  };
  for (const key of Object.keys(entry)) {
    if (!KEYS.includes(key))
      fault(
        at,
        `What was tried has no key ${shorten(key)}.`,
        didYouMean(key, KEYS) || `Keys: ${KEYS.join(', ')}.`,
        key,
      );
  }
  const text = (key: 'change' | 'setting' | 'end' | 'unit'): Partial<Tried> => {
    const value = entry[key];
    if (value === undefined || value === null) return {};
    if (typeof value !== 'string') fault([...at, key], `${key} must be a text, found ${show(value)}.`, FORM);
    return { [key]: String(value) };
  };
  const { direction, by, result } = entry;
  const ways: readonly unknown[] = Array.isArray(direction)
    ? direction
    : direction === undefined
      ? []
      : [direction];
  if (ways.some((way) => typeof way !== 'string'))
    fault(
      [...at, 'direction'],
      `direction must be a word, found ${show(direction)}.`,
      'Write open or close, more or less.',
    );
  if (by !== undefined && (typeof by !== 'number' || !Number.isFinite(by) || by <= 0))
    fault(
      [...at, 'by'],
      `by must be a number above nothing, found ${show(by)}.`,
      'Say the way with direction; leave by out when it is not known.',
    );
  if (!(TRIED_RESULTS as readonly unknown[]).includes(result))
    fault(
      [...at, 'result'],
      `result must be ${TRIED_RESULTS.join(', ')}, found ${show(result)}.`,
      didYouMean(String(result), TRIED_RESULTS) ||
        'Use one of these words; same means that it made no difference.',
    );
  // YAML 1.1 habits: yes and no may have been read as true and false.
  const back: unknown =
    entry['put-back'] === true
      ? 'yes'
      : entry['put-back'] === false
        ? 'no'
        : (entry['put-back'] ?? 'unknown');
  if (!(PUT_BACK as readonly unknown[]).includes(back))
    fault(
      [...at, 'put-back'],
      `put-back must be ${PUT_BACK.join(', ')}, found ${show(back)}.`,
      'Use one of these words.',
    );
  const about: readonly unknown[] = [entry['for'] ?? []].flat();
  if (about.some((id) => typeof id !== 'string'))
    fault(
      [...at, 'for'],
      `for must be a question or a list of them, found ${show(entry['for'])}.`,
      'Write the question whose sign got better or worse, such as for: hands.',
    );
  if (entry['change'] === undefined && entry['setting'] === undefined)
    fault(at, 'It does not say what was tried.', 'Give setting and direction, or change.');
  const read: Tried = {
    ...text('change'),
    ...text('setting'),
    ...text('end'),
    ...text('unit'),
    ...(direction === undefined ? {} : { direction: direction as NonNullable<Tried['direction']> }),
    ...(by === undefined ? {} : { by: by as number }),
    result: result as TriedResult,
    ...(about.length === 0 ? {} : { for: about as readonly string[] }),
    putBack: back as Tried['putBack'],
  };
  return sound ? [read] : [];
}
