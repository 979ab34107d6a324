/** Puts new values into a YAML or JSON text, touching no other letter of it. */
import { isMap, isPair, isScalar, parseDocument, stringify, type Node, type Pair, type YAMLMap } from 'yaml';
import type { Edit } from '../bike/form/edit-file.ts';

interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

interface Written {
  readonly value: (value: unknown) => string;
  readonly key: (key: string) => string;
}

/** YAML in the flow form is right inside brackets and out of them. */
const YAML: Written = { value: flowText, key: (key) => key };
const JSON_TEXT: Written = { value: (value) => JSON.stringify(value), key: (key) => JSON.stringify(key) };

/**
 * @param order the keys of a map in the order of the file form: a new key goes behind those before it
 * @returns undefined where it cannot be done in place, such as a value of many lines. What comes out should be read
 *   again: a value may have been shared by an alias
 */
export function editedInPlace(
  text: string,
  edits: readonly Edit[],
  order: (path: readonly string[]) => readonly string[],
  isJson: boolean,
): string | undefined {
  const document = parseDocument(text, { schema: 'core', keepSourceTokens: false });
  const written = isJson ? JSON_TEXT : YAML;
  const splices: Splice[] = [];
  for (const { path, value } of edits) {
    const map = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
    if (!isMap(map)) return undefined;
    const key = path.at(-1)!;
    const at = map.items.findIndex((pair) => keyOf(pair) === key);
    const splice =
      value === undefined
        ? removed(text, map, at)
        : at < 0
          ? added(text, map, key, value, order(path.slice(0, -1)), written)
          : replaced(text, map.items[at]!.value, value, written);
    if (splice === undefined) return undefined;
    splices.push(splice);
  }
  // From the end on, so that places before it stay true; of two at one place the later one goes in first.
  return splices
    .map((splice, i) => ({ ...splice, i }))
    .toSorted((a, b) => b.from - a.from || b.i - a.i)
    .reduce((now, { from, to, text: put }) => now.slice(0, from) + put + now.slice(to), text);
}

function replaced(text: string, old: unknown, value: unknown, written: Written): Splice | undefined {
  const node = old as Node | null;
  const [from, to] = node?.range ?? [];
  if (from === undefined || to === undefined) return undefined;
  const isBlock = isScalar(node)
    ? node.type?.startsWith('BLOCK') === true
    : (node as { flow?: boolean }).flow !== true;
  if (isBlock) return undefined;
  // A key with nothing behind its colon.
  const gap = from === to && /\S/.test(text[from - 1] ?? ' ') ? ' ' : '';
  return { from, to, text: `${gap}${written.value(value)}` };
}

/** A key that was not there: behind the last of those that stand before it in the file form, else before all. */
function added(
  text: string,
  map: YAMLMap,
  key: string,
  value: unknown,
  order: readonly string[],
  written: Written,
): Splice | undefined {
  const pair = `${written.key(key)}: ${written.value(value)}`;
  const earlier = new Set(order.slice(0, order.indexOf(key)));
  const after = map.items.findLast((one) => earlier.has(keyOf(one) ?? ''));
  const first = map.items[0];
  if (map.flow === true) {
    if (first === undefined) {
      const start = map.range![0] + 1;
      return { from: start, to: start, text: ` ${pair} ` };
    }
    const at = after === undefined ? startOf(first) : endOf(after);
    return at === undefined
      ? undefined
      : { from: at, to: at, text: after === undefined ? `${pair}, ` : `, ${pair}` };
  }
  const start = first === undefined ? undefined : startOf(first);
  const end = after === undefined ? undefined : endOf(after);
  if (start === undefined || (after !== undefined && end === undefined)) return undefined;
  const indent = text.slice(text.lastIndexOf('\n', start - 1) + 1, start);
  if (indent.trim() !== '') return undefined;
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  if (end === undefined) return { from: start, to: start, text: `${pair}${newline}${indent}` };
  // At the end of the line, behind a comment that belongs to it.
  const before = text[end - 1] === '\n' ? end : text.indexOf('\n', end) + 1;
  return before === 0
    ? { from: text.length, to: text.length, text: `${newline}${indent}${pair}` }
    : { from: before, to: before, text: `${indent}${pair}${newline}` };
}

/** A key goes with its value: with the comma of one side in brackets, with the rest of its line elsewhere. */
function removed(text: string, map: YAMLMap, at: number): Splice | undefined {
  const pair = map.items[at];
  const [before, after] = [map.items[at - 1], map.items[at + 1]];
  if (pair === undefined || (before === undefined && after === undefined)) return undefined;
  const [start, end] = [startOf(pair), endOf(pair)];
  if (start === undefined || end === undefined) return undefined;
  if (map.flow === true) {
    const [from, to] = after === undefined ? [endOf(before!), end] : [start, startOf(after)];
    return from === undefined || to === undefined ? undefined : { from, to, text: '' };
  }
  const from = text.lastIndexOf('\n', start - 1) + 1;
  if (text.slice(from, start).trim() !== '') return undefined;
  const newline = text[end - 1] === '\n' ? end : text.indexOf('\n', end) + 1;
  return { from, to: newline === 0 ? text.length : newline, text: '' };
}

function keyOf(pair: Pair): string | undefined {
  return isScalar(pair.key) ? String(pair.key.value) : undefined;
}

function startOf(pair: Pair): number | undefined {
  return (pair.key as Node | null)?.range?.[0];
}

/** Where the last letter of a pair stands, comments behind it left out. */
function endOf(pair: Pair): number | undefined {
  const value = pair.value as Node | null;
  if (isMap(value) && value.flow !== true) {
    const last = value.items.at(-1);
    return isPair(last) ? endOf(last) : undefined;
  }
  return value?.range?.[1] ?? (pair.key as Node | null)?.range?.[1];
}

/** The library pads lists as it pads maps; numbers in a list are written without. */
function flowText(value: unknown): string {
  const list = stringify([value], { schema: 'core', collectionStyle: 'flow', lineWidth: 0 });
  return list
    .trim()
    .slice(1, -1)
    .trim()
    .replaceAll(/\[ ([\d., -]+) \]/g, '[$1]');
}
