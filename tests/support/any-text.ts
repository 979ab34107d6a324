/** Texts of any signs at all. fast-check's own unit of that makes a table of all of Unicode anew for every such text. */
import * as fc from 'fast-check';

const SURROGATES = { from: 0xd800, to: 0xe000 };
const GAP = SURROGATES.to - SURROGATES.from;

/** Any code point but half a pair; the way back lets fast-check mix in texts known to make trouble. */
const sign = fc.integer({ min: 0, max: 0x10ffff - GAP }).map(
  (n) => String.fromCodePoint(n < SURROGATES.from ? n : n + GAP),
  (text) => {
    const code = typeof text === 'string' ? text.codePointAt(0) : undefined;
    if (code === undefined || String.fromCodePoint(code) !== text) throw new Error('not one sign');
    if (code >= SURROGATES.from && code < SURROGATES.to) throw new Error('half a pair');
    return code < SURROGATES.from ? code : code - GAP;
  },
);

export function anyText(length: { readonly minLength?: number; readonly maxLength?: number } = {}) {
  return fc.string({ ...length, unit: sign });
}
