/** From where on a statement speaks of what somebody might do and has not done: "should I let some air out?" */
import { NOT, statementsOf, type Statement, type Token } from '../tokens.ts';

/** Words that begin what is only thought of; in a row, but for small words between them. */
const CUES = [
  'should',
  'shall',
  'do i need',
  'do i want',
  'do i have to',
  'do we need',
  'does it need',
  'does it want',
  'can you',
  'could you',
  'would you',
  'can i',
  'could i',
  'would it help',
  'thinking of',
  'thinking about',
  'thought about',
  'considering',
  'considered',
  'wondering if',
  'wondering about',
  'wondering whether',
  'tempted to',
  'want to',
  'wants to',
  'wanted to',
  "i'd like to",
  'would like to',
  'was going to',
  'is it worth',
  'what if',
  'how about',
  'what about',
  'does it just need',
  'do i just need',
  'would more',
  'would less',
  'will more',
  'will less',
].map((cue) => cue.split(' '));

/** A question of so many words at most asks for all that stands in it: "more air?", "another spacer in the fork?" */
const SHORT = 6;

/**
 * @param before whether the statement before spoke of it: "or put in a spacer"
 * @returns the token from which on; undefined where nothing is only thought of
 */
export function wishedFrom({ tokens, asked }: Statement, before: boolean): number | undefined {
  if (before && tokens[0]?.word === 'or') return 0;
  const at = tokens.findIndex((_, from) => CUES.some((cue) => stands(tokens, from, cue)));
  if (at >= 0) return isDenied(tokens, at) ? undefined : at;
  return asked && tokens.length <= SHORT ? 0 : undefined;
}

const stands = (tokens: readonly Token[], from: number, cue: readonly string[]): boolean =>
  cue.every((word, i) => tokens[from + i]?.word === word);

/** "I don't want to open it". */
const isDenied = (tokens: readonly Token[], at: number): boolean =>
  tokens.slice(Math.max(0, at - 2), at).some(({ stem }) => stem === NOT);

/** @returns whether anything in a text may be only thought of */
export const asksOfDoing = (text: string): boolean =>
  statementsOf(text).some((statement) => wishedFrom(statement, false) !== undefined);
