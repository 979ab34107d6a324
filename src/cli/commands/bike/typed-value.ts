/** A value of a bike sheet as it is typed. */
import { parse } from 'yaml';

/** `82` is a number, `[2.9, 2.6, 2.3]` a list, `29%`, `5.6 bar` and everything that is no YAML a text. */
export function typedValue(text: string): unknown {
  try {
    return parse(text, { schema: 'core', maxAliasCount: 0 }) as unknown;
  } catch {
    return text;
  }
}
