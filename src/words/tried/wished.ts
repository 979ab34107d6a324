/** From where on a statement speaks of what somebody might do and has not done: "should I let some air out?" */
import { NOT, statementsOf, type Statement, type Token } from '../tokens.ts';

/** A question of so many words at most asks for all that stands in it: "more air?", "another spacer in the fork?" */
const SHORT = 6;

/**
 * @param cues words that begin what is only thought of, in a row
 * @param before whether the statement before spoke of it: "or put in a spacer"
 * @returns the token from which on; undefined where nothing is only thought of
 */
export function wishedFrom(
  { tokens, asked }: Statement,
  cues: readonly string[],
  before: boolean,
): number | undefined {
  if (before && tokens[0]?.word === 'or') return 0;
  const at = tokens.findIndex((_, from) => cues.some((cue) => stands(tokens, from, cue.split(' '))));
  if (at >= 0) return isDenied(tokens, at) ? undefined : at;
  return asked && tokens.length <= SHORT ? 0 : undefined;
}

const stands = (tokens: readonly Token[], from: number, cue: readonly string[]): boolean =>
  cue.every((word, i) => tokens[from + i]?.word === word);

/** "I don't want to open it", "I never opened it". */
export const isDenied = (tokens: readonly Token[], at: number): boolean =>
  tokens.slice(Math.max(0, at - 2), at).some(({ stem }) => stem === NOT);

/** @returns whether anything in a text may be only thought of */
export const asksOfDoing = (text: string, cues: readonly string[]): boolean =>
  statementsOf(text).some((statement) => wishedFrom(statement, cues, false) !== undefined);
