/** All that a text says: what may be answers, and what was tried; no words are read as both. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { CompiledWords } from './compiled-words.ts';
import { whatBothers } from './follows/bothers.ts';
import { endTeller, type OnlyTheEnd } from './ends.ts';
import { changesAsReadings } from './follows/changed.ts';
import { whichEndOf } from './follows/same-end.ts';
import { buildMatcher, type Candidate, type Reading } from './matcher.ts';
import { sameEnd } from './clash.ts';
import { buildTriedReader, type TriedReading, type Wished } from './tried/tried.ts';

export interface Hearing {
  /** in the order of the text; readings of words that overlap are one */
  readonly readings: readonly Reading[];
  readonly tried: readonly TriedReading[];
  /** changes that are only asked about */
  readonly wishes: readonly Wished[];
}

type IsDanger = (said: Candidate) => boolean;
type Hears = (text: string) => Hearing;
type HearingRules = Pick<
  CompiledRules,
  'words' | 'concepts' | 'endNames' | 'onlyThought' | 'questions' | 'heard' | 'openings'
>;
const made = new WeakMap<HearingRules, Hears>();

/**
 * Reads the phrases of the rules once, however often an interview hears own words.
 * @param compiled of these very rules, where it was kept
 * @returns what hears a text; nothing in it is confirmed
 */
export function buildHearing(rules: HearingRules, compiled?: CompiledWords): Hears {
  const before = made.get(rules);
  if (before !== undefined) return before;
  const hears = hearingOf(rules, compiled);
  made.set(rules, hears);
  return hears;
}

function hearingOf(rules: HearingRules, compiled: CompiledWords | undefined): Hears {
  const matcher = buildMatcher(rules, compiled);
  const reader = buildTriedReader(rules, compiled);
  const onlyTheEnd = endTeller(rules.questions);
  const withComplaint = whatBothers(rules.openings);
  const withEnd = whichEndOf(rules.questions);
  const changesIn = changesAsReadings(rules.questions);
  const questions = new Map(rules.questions.map((q) => [q.id, q]));
  const isDanger = ({ question, answer }: Candidate): boolean =>
    questions.get(question)?.dangerous[answer] !== undefined;
  return (text) => {
    const tried = reader.read(text);
    const wishes = reader.wishes(text);
    const free = besideThese(matcher.match(text), [...tried, ...wishes]);
    const all = [...free, ...changesIn(reader.changed(text), free)].sort((a, b) => a.position - b.position);
    return {
      readings: withEnd(withComplaint(asOne(all, onlyTheEnd, isDanger).map((r) => endLast(r, onlyTheEnd)))),
      tried,
      wishes,
    };
  };
}

/** The readings whose words are not those of a change that was tried, or is asked about. */
export function besideThese(
  readings: readonly Reading[],
  changes: readonly Pick<TriedReading, 'spans'>[],
): Reading[] {
  const spans = changes.flatMap((one) => one.spans);
  return readings.filter(({ position, text: { length } }) =>
    spans.every(([start, stop]) => position >= stop || position + length <= start),
  );
}

/** One reading for words that overlap and are said the same way: what they could mean is offered once. */
function asOne(readings: readonly Reading[], onlyTheEnd: OnlyTheEnd, isDanger: IsDanger): Reading[] {
  const out: Reading[] = [];
  for (const reading of readings) {
    const at = reading.ambiguous ? -1 : out.findIndex((other) => sameWords(other, reading));
    if (at < 0) out.push(reading);
    else out[at] = both(out[at]!, reading, onlyTheEnd, isDanger);
  }
  return out;
}

function sameWords(a: Reading, b: Reading): boolean {
  return (
    !a.ambiguous &&
    a.negated === b.negated &&
    (a.end === undefined || b.end === undefined || a.end === b.end) &&
    a.position < b.position + b.text.length &&
    b.position < a.position + a.text.length
  );
}

/** A reading that only tells the end lends its words to none. */
const says = ({ candidates, text }: Reading, onlyTheEnd: OnlyTheEnd): number =>
  candidates.every((c) => onlyTheEnd(c, candidates)) ? 0 : text.length;

/** Under the longer words, its meanings first. */
function both(a: Reading, b: Reading, onlyTheEnd: OnlyTheEnd, isDanger: IsDanger): Reading {
  const [long, short] = says(a, onlyTheEnd) >= says(b, onlyTheEnd) ? [a, b] : [b, a];
  // What is one reading now does not go against itself: its meanings are offered side by side.
  const clashes = [...new Set([...(a.clashes ?? []), ...(b.clashes ?? [])])].filter(
    (text) => text !== a.text && text !== b.text,
  );
  const { clashes: _, ...without } = long;
  return {
    ...without,
    candidates: distinct([
      ...long.candidates,
      ...short.candidates.filter((c) => isDanger(c) || !otherwise(c, long)),
    ]),
    score: Math.max(a.score, b.score),
    joined: [
      ...(long.joined ?? []),
      ...(short.joined ?? []),
      [short.position, short.position + short.text.length],
    ],
    ...(a.sure === undefined && b.sure === undefined ? {} : { sure: Math.max(a.sure ?? 0, b.sure ?? 0) }),
    ...(long.end === undefined && short.end !== undefined ? { end: short.end } : {}),
    ...(clashes.length === 0 ? {} : { clashes }),
  };
}

/** Words that overlap give one answer to a question of an end: that of the longer ones. */
const otherwise = ({ question, answer }: Candidate, { candidates }: Reading): boolean => {
  if (!question.includes('@')) return false;
  const same = candidates.filter((c) => sameEnd(c.question, question));
  return same.length > 0 && same.every((c) => c.answer !== answer);
};

/** What was noticed is asked about before the end it was noticed at. */
function endLast(reading: Reading, onlyTheEnd: OnlyTheEnd): Reading {
  const { candidates } = reading;
  const end = (c: Candidate): boolean => onlyTheEnd(c, candidates);
  return { ...reading, candidates: [...candidates.filter((c) => !end(c)), ...candidates.filter(end)] };
}

function distinct(candidates: Reading['candidates']): Reading['candidates'] {
  return candidates.filter(
    (c, i) => candidates.findIndex((d) => d.question === c.question && d.answer === c.answer) === i,
  );
}
