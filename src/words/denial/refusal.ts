/** What somebody would not do: "I wouldn't ride it with that crack" denies no crack. */
import { isNegator } from '../language.ts';
import type { Token } from '../tokens.ts';

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
export function refusesTo(tokens: readonly Token[], not: number, sign: number): boolean {
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
