/** What a text says twice is read once, and what it answers differently is answered once. */
import type { Candidate, Reading } from '../matcher.ts';
import type { Question } from '../../rulebase/compiled.ts';
import { END_ANSWERS } from '../ends.ts';

/** The same thing said twice is one reading: the clearer one, and one that names its end. */
export function withoutRepeats(readings: readonly Reading[]): Reading[] {
  const best = new Map<string, Reading>();
  for (const r of readings) {
    const key = `${r.phrase} ${r.end ?? ''} ${r.negated}`;
    const before = best.get(key);
    if (before === undefined || r.score > before.score) best.set(key, r);
  }
  const atAnEnd = new Set([...best.values()].filter((r) => r.end !== undefined).map(sameSaid));
  const left = [...best.values()].filter((r) => r.end !== undefined || !atAnEnd.has(sameSaid(r)));
  return left.sort(
    (a, b) => a.position - b.position || (a.phrase < b.phrase ? -1 : a.phrase > b.phrase ? 1 : 0),
  );
}

const sameSaid = (r: Reading): string => `${r.phrase} ${r.negated}`;

/**
 * What several readings offer is offered once: by one that tells it rather than by a denial, of those by the first. One
 * with nothing of its own left tells nothing new.
 */
export function offeredOnce(readings: readonly Reading[]): Reading[] {
  const owner = new Map<string, Reading>();
  for (const reading of [...readings].sort((a, b) => Number(a.negated) - Number(b.negated)))
    for (const candidate of reading.candidates)
      if (!owner.has(keyOf(candidate))) owner.set(keyOf(candidate), reading);
  return readings.flatMap((reading) => {
    const candidates = reading.candidates.filter((candidate) => owner.get(keyOf(candidate)) === reading);
    if (candidates.length === reading.candidates.length) return [reading];
    return candidates.length === 0 ? [] : [{ ...reading, candidates }];
  });
}

const keyOf = ({ question, answer }: Candidate): string => `${question}=${answer}`;

interface Said {
  readonly answers: ReadonlySet<string>;
  readonly words: number;
}

/**
 * Two readings that answer one question differently are a guess at best. The one whose words say most stays, of equals
 * the one said first; where they give different ends, neither stays. What is asked of an end is left alone: there a
 * contradiction is told. So is what stops the ride: of two dangers both are asked about.
 */
export function onePerQuestion(
  readings: readonly Reading[],
  questions: ReadonlyMap<string, Pick<Question, 'dangerous'>>,
): Reading[] {
  const settled = settle(readings, questions);
  const stays = ({ question, answer }: Candidate): boolean => settled.get(question)?.has(answer) ?? true;
  return readings.flatMap((r) => {
    if (r.negated || r.candidates.every(stays)) return [r];
    const candidates = r.candidates.filter(stays);
    return candidates.length === 0 ? [] : [{ ...r, candidates }];
  });
}

/** @returns for each question that is answered differently, the answers that stay */
function settle(
  readings: readonly Reading[],
  questions: ReadonlyMap<string, Pick<Question, 'dangerous'>>,
): Map<string, ReadonlySet<string>> {
  const said = new Map<string, Said[]>();
  for (const { candidates, negated, text } of readings) {
    if (negated) continue;
    for (const question of new Set(candidates.map((c) => c.question))) {
      if (question.includes('@')) continue;
      const answers = new Set(candidates.filter((c) => c.question === question).map((c) => c.answer));
      said.set(question, [...(said.get(question) ?? []), { answers, words: text.split(' ').length }]);
    }
  }
  const out = new Map<string, ReadonlySet<string>>();
  for (const [question, all] of said) {
    const answers = new Set(all.flatMap((s) => [...s.answers]));
    if (answers.size === 1 || all.length === 1) continue;
    if ([...answers].some((answer) => questions.get(question)?.dangerous[answer] !== undefined)) continue;
    const common = [...answers].filter((answer) => all.every((s) => s.answers.has(answer)));
    const most = Math.max(...all.map((s) => s.words));
    if (common.length > 0) out.set(question, new Set(common));
    else if ([...answers].every((answer) => END_ANSWERS.has(answer))) out.set(question, new Set());
    else out.set(question, all.find((s) => s.words === most)!.answers);
  }
  return out;
}
