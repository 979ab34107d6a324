/** Whether a find is denied: "no harshness", "doesn't kick", "stopped bucking", "the clunk is gone". */
import {
  AMOUNTS,
  DENIES_SOMETHING_ELSE,
  ENDED_AFTER,
  ENDED_BEFORE,
  GOES_ON,
  LITTLE,
  SENSE,
  isNegator,
} from '../language.ts';
import { NOT, type Token } from '../tokens.ts';

/** @returns the place of what is not done, where "I wouldn't", "we would never" or "I'd not" begins here */
export function refusedAt(tokens: readonly Token[], at: number): number | undefined {
  const [who, first, second] = [tokens[at]!.word, tokens[at + 1]?.word ?? '', tokens[at + 2]?.word ?? ''];
  if (who === "i'd" || who === "we'd") return isNegator(first) ? afterStress(tokens, at + 2) : undefined;
  if (who !== 'i' && who !== 'we') return undefined;
  if (WOULD_NOT.has(first)) return afterStress(tokens, at + 2);
  return first === 'would' && isNegator(second) ? afterStress(tokens, at + 3) : undefined;
}

const WOULD_NOT = new Set(["wouldn't", 'wouldnt']);

const afterStress = (tokens: readonly Token[], at: number): number =>
  STRESS.has(tokens[at]?.word ?? '') ? at + 1 : at;

const STRESS = new Set(['really', 'ever', 'even', 'want', 'like']);

/** Whether this "not" is that of a refusal, and the sign after it is why, or comes along: it stands. */
function refusesTo(tokens: readonly Token[], not: number, sign: number): boolean {
  const from = [not - 1, not - 2].find((at) => at >= 0 && refusedAt(tokens, at) !== undefined);
  if (from === undefined) return false;
  const verb = refusedAt(tokens, from)!;
  return tokens.slice(verb, verb + 3).some(({ word }) => RISKS.has(word)) || comesAlong(tokens, verb) < sign;
}

/** @returns the place of "with that crack": from there on the sign is told; that behind the last word where there is none */
export function comesAlong(tokens: readonly Token[], from: number): number {
  const at = tokens.findIndex(({ word }, i) => i > from && ALONG.has(word));
  return at < 0 ? tokens.length : at;
}

const RISKS = new Set(['ride', 'trust', 'dare', 'risk', 'race', 'send', 'jump', 'descend']);
const ALONG = new Set(['with', 'while', 'until', 'because']);

/** Words a `not` reaches forward over. */
const REACH = 7;

/**
 * @param finds the places of all finds kept in this statement, in order
 * @returns for each whether it is denied
 */
export function denied(tokens: readonly Token[], finds: readonly (readonly number[])[]): boolean[] {
  const out: boolean[] = [];
  finds.forEach((places, i) => {
    // A "not" that another find holds denies this one too where they share a word: "never bottomed".
    const taken = new Set(
      finds.filter((other) => other === places || !other.some((p) => places.includes(p))).flat(),
    );
    const first = places[0]!;
    const last = places.at(-1)!;
    // The find before it; one of the same words shares its denial.
    const b = finds.findLastIndex((other, k) => k < i && other.at(-1)! < first);
    const before = finds[b];
    // A denial reaches the first sign after it, and further ones only over an "or".
    const joined =
      before !== undefined &&
      out[b] === true &&
      tokens.slice(before.at(-1)! + 1, first).some((t) => t.word === 'or' || t.word === 'nor');
    const from = before === undefined ? 0 : Math.min(first, before.at(-1)! + 1);
    out.push(
      joined ||
        notBefore(tokens, taken, from, first, last) ||
        endedBefore(tokens, taken, from, first) ||
        endedAfter(tokens, taken, last),
    );
  });
  return out;
}

function notBefore(
  tokens: readonly Token[],
  taken: ReadonlySet<number>,
  from: number,
  first: number,
  last: number,
): boolean {
  for (let c = last - 1; c >= Math.max(from, first - REACH); c--) {
    const token = tokens[c]!;
    // Inside a find a `not` that is none of its words denies it too: "the front is not diving".
    if (token.stem !== NOT || taken.has(c)) continue;
    if (c < first && token.part !== tokens[first]!.part) continue;
    if (refusesTo(tokens, c, first)) continue;
    if (!deniesElse(tokens, taken, c) && !saysHowMuch(tokens, c)) return true;
  }
  return false;
}

/** "Barely 15 %", "hardly a fifth": that it is so little is said, not that it is not. */
const saysHowMuch = (tokens: readonly Token[], at: number): boolean =>
  LITTLE.has(tokens[at]!.word) &&
  tokens.slice(at + 1, at + 3).some(({ word }) => /^\d/.test(word) || AMOUNTS.has(word));

/** "Don't like how it kicks", "not only kicks", "can't stop it kicking", "can't get it to stop kicking": the sign stands. */
function deniesElse(tokens: readonly Token[], taken: ReadonlySet<number>, at: number): boolean {
  const after = tokens.slice(at + 1, at + 4).filter((_, i) => !taken.has(at + 1 + i));
  const next = after.find((t) => DENIES_SOMETHING_ELSE.has(t.word) || !(t.filler || SENSE.has(t.word)));
  return (
    (next !== undefined && DENIES_SOMETHING_ELSE.has(next.word)) ||
    after.some((t) => GOES_ON.has(t.word)) ||
    tokens.slice(at + 1, at + 6).some((t, i) => GOES_ON.has(t.word) && tokens[at + i]!.word === 'to')
  );
}

function endedBefore(
  tokens: readonly Token[],
  taken: ReadonlySet<number>,
  from: number,
  first: number,
): boolean {
  for (let c = Math.max(from, first - 3); c < first; c++) {
    if (taken.has(c) || !ENDED_BEFORE.has(tokens[c]!.word)) continue;
    // "To stop it diving" tells what is wanted.
    if (tokens[c - 1]?.word === 'to') continue;
    const goesOn = tokens.slice(Math.max(0, c - 3), c).some((t) => t.stem === NOT);
    if (!goesOn) return true;
  }
  return false;
}

function endedAfter(tokens: readonly Token[], taken: ReadonlySet<number>, last: number): boolean {
  const part = tokens[last]!.part;
  const after = tokens
    .slice(last + 1, last + 5)
    .filter((t, i) => t.part === part && !taken.has(last + 1 + i));
  return after.some(
    (t, i) =>
      (ENDED_AFTER.has(t.word) && after[i - 1]?.stem !== NOT) ||
      (t.word === 'away' && after[i - 1]?.word === 'went') ||
      (t.word === 'more' && after[i - 1]?.word === 'no'),
  );
}
