/** Sentences whose commas are passed over: "HSR, the blue one, is nearly shut" is one thing told in three pieces. */
import type { Statement } from './tokens.ts';

/** More than any statement has. */
const PARTS = 100;

/** @returns the statements of each sentence as one, up to a word such as `but`; a denial still ends with its own piece */
export function wholeSentences(statements: readonly Statement[]): Statement[] {
  const out: Statement[] = [];
  let pieces = 0;
  for (const one of statements) {
    const before = out.at(-1);
    if (before === undefined || before.sentence !== one.sentence || one.contrast) {
      out.push(one);
      pieces = 0;
      continue;
    }
    const shift = PARTS * ++pieces;
    const tokens = [...before.tokens, ...one.tokens.map((t) => ({ ...t, part: t.part + shift }))];
    out[out.length - 1] = { ...before, tokens, asked: before.asked || one.asked };
  }
  return out;
}
