/** The evidence of a pit sheet, in words and numbers: the cause that the first change is for, and what speaks for it. */
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { decibanNumber, decibanWords } from '../decibans.ts';
import { capital, percent } from '../../form/text.ts';
import { atOnceWords } from '../phrases.ts';
import { evidenceWords } from '../evidence-words.ts';
import { printable } from '../foreign-text.ts';
import { firstOf, type Result } from '../result/result.ts';

export interface Weight {
  readonly question: string;
  readonly answer: string;
  readonly decibans: number;
  /** `+4.9 dB`, `3.1 times as likely` */
  readonly number: string;
  readonly words: string;
}

/** The cause that the first adjustment is for, or the nearest one when there is none. */
export interface Why {
  readonly heading: string;
  readonly cause: string;
  readonly before: string;
  readonly now: string;
  /** heaviest first */
  readonly weights: readonly Weight[];
  /** how many of them are listed; the others only as a sum */
  readonly shown: number;
  readonly others: readonly string[];
}

/** Room on one page: characters of a text, and lines of a list. */
const ROOM = { id: 80, text: 200, weights: 6, others: 3 } as const;

/**
 * @param r with every cause and its evidence listed
 * @returns null when there is no cause at all
 */
export function whyOf(rules: CompiledRules, r: Result): Why | null {
  const index = new Map(rules.causes.map((c, i) => [c.id, i]));
  const first = firstOf(r);
  const cause = r.causes.find((c) => c.id === first?.cures) ?? r.causes[0];
  if (cause === undefined) return null;
  const told = cause.evidence
    .filter((e) => Math.abs(e.decibans) >= 0.05)
    .sort((a, b) => Math.abs(b.decibans) - Math.abs(a.decibans));
  const beside = r.causes.filter((c) => c !== cause).slice(0, ROOM.others);
  const odds = [r.nothing, cause.probability, ...beside.map((c) => c.probability)];
  const atOnce = atOnceWords(odds, 100) !== undefined;
  return {
    heading: { change: 'Why', leave: 'Next most likely', unknown: 'Nearest so far', stop: '' }[r.verdict],
    cause: capital(printable(cause.name, ROOM.text)),
    before: percent(rules.causes[index.get(cause.id)!]!.prior),
    now: percent(cause.probability),
    weights: told.map((e) => ({
      ...evidenceWords(rules, e),
      decibans: e.decibans,
      number: decibanNumber(e.decibans),
      words: decibanWords(e.decibans),
    })),
    shown: ROOM.weights,
    others: [
      `nothing off (${percent(r.nothing)})`,
      ...beside.map((c) => `${printable(c.name, ROOM.id)} (${percent(c.probability)})`),
      ...(atOnce ? ['more than one can be true'] : []),
    ],
  };
}

/** What the weights that are not listed come to, together; null when all are. */
export function restOf({ weights, shown }: Pick<Why, 'weights' | 'shown'>): string | null {
  const rest = weights.slice(shown);
  const sum = rest.reduce((total, w) => total + w.decibans, 0);
  if (rest.length === 0) return null;
  return `${rest.length === 1 ? 'One smaller one' : `${rest.length} smaller ones together`}: ${decibanNumber(sum)}`;
}
