/** Odd input on purpose: texts and values of the examples, broken in the ways files get broken. Same random, same oddity. */

export interface Dice {
  /** from 0 up to but without 1 */
  (): number;
}

/** A small seeded generator (mulberry32), so that a finding can be had again from its seed. */
export function dice(seed: number): Dice {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const below = (roll: Dice, n: number): number => Math.floor(roll() * n);
export const pick = <T>(roll: Dice, list: readonly T[]): T => list[below(roll, list.length)]!;

/** Tokens that break readers: types, anchors, numbers at the edge, names every object has, signs that move a terminal. */
const ODD_TOKENS: readonly string[] = [
  '',
  'null',
  '~',
  'true',
  'no',
  '0',
  '-0',
  '-1',
  '1e999',
  '.nan',
  '-.inf',
  '9007199254740993',
  '0x1F',
  '1_000',
  '12:30',
  '2026-02-31',
  '"',
  "'",
  '{',
  '[',
  '}',
  ']',
  '{}',
  '[]',
  '[[[[[[[[',
  '- - - -',
  '&a',
  '*a',
  '&a [*a]',
  '<<: *a',
  '!!binary x',
  '!!js/function x',
  '!<x>',
  '%YAML 9.9',
  '---',
  '...',
  '|',
  '>-',
  '? x',
  ': ',
  '#',
  '\t',
  '\r',
  '\u0000',
  '\u0007',
  '\u001b[31m',
  '\u009b2J',
  '\u202e',
  '\ufeff',
  '\ud800',
  'é̀̂̃̄̅̆̇',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '{end}',
  '{',
  '$&',
  '../../..',
  '/dev/null',
  'front',
  'rear',
  'front.rebound.low+2',
  'front.rebound.low+99999999999',
  '"{end}.rebound.high.too-slow"',
  'hit-pattern',
  'row',
  'cannot-tell',
  'guess',
  '25%',
  '5 psi',
  '-3 bar',
  '1e-308 mm',
];

const ODD_VALUES: readonly (() => unknown)[] = [
  () => null,
  () => undefined,
  () => true,
  () => 0,
  () => -0,
  () => -1,
  () => 1e308,
  () => 1e-320,
  () => 2 ** 53,
  () => 0.1,
  () => '',
  () => ' ',
  () => [],
  () => ({}),
  () => [null],
  () => [[], {}],
  () => ({ __proto__: null, constructor: 1 }),
  () => nested(400),
  () => 'x'.repeat(20_000),
  () => Array.from({ length: 2_000 }, (_, i) => i),
  () => Object.fromEntries(Array.from({ length: 1_000 }, (_, i) => [`k${i}`, i])),
];

function nested(depth: number): unknown {
  let value: unknown = 'deep';
  for (let i = 0; i < depth; i++) value = i % 2 === 0 ? [value] : { a: value };
  return value;
}

export function randomBytes(roll: Dice, most: number): Uint8Array {
  return Uint8Array.from({ length: below(roll, most) }, () => below(roll, 256));
}

/** One to four breaks in a text; `others` lend pieces. */
export function mutateText(roll: Dice, text: string, others: readonly string[] = [text]): string {
  let now = text;
  for (let n = 1 + below(roll, 4); n > 0; n--) now = pick(roll, TEXT_BREAKS)(roll, now, others);
  // A few steps of doubling must not make the test itself the one that runs out of memory.
  return now.slice(0, 400_000);
}

type TextBreak = (roll: Dice, text: string, others: readonly string[]) => string;

const onLines =
  (change: (roll: Dice, lines: string[], at: number) => void): TextBreak =>
  (roll, text) => {
    const lines = text.split('\n');
    change(roll, lines, below(roll, lines.length));
    return lines.join('\n');
  };

const TEXT_BREAKS: readonly TextBreak[] = [
  onLines((_, lines, at) => void lines.splice(at, 1)),
  onLines((_, lines, at) => void lines.splice(at, 0, lines[at]!)),
  onLines((roll, lines, at) => {
    const other = below(roll, lines.length);
    [lines[at], lines[other]] = [lines[other]!, lines[at]!];
  }),
  onLines((roll, lines, at) => void (lines[at] = ' '.repeat(below(roll, 9)) + lines[at]!.trimStart())),
  onLines(
    (roll, lines, at) => void (lines[at] = lines[at]!.replace(/: .*$/, () => `: ${pick(roll, ODD_TOKENS)}`)),
  ),
  onLines(
    (roll, lines, at) => void (lines[at] = lines[at]!.replace(/[\w.@-]+(?=:)/, () => pick(roll, ODD_TOKENS))),
  ),
  onLines((roll, lines, at) => {
    const words = lines[at]!.match(/[\w.@-]+/g) ?? [''];
    lines[at] = lines[at]!.replace(pick(roll, words), () => pick(roll, ODD_TOKENS));
  }),
  (roll, text) => text.slice(0, below(roll, text.length + 1)),
  (roll, text) => {
    const at = below(roll, text.length + 1);
    return text.slice(0, at) + pick(roll, ODD_TOKENS) + text.slice(at);
  },
  (roll, text) => {
    const at = below(roll, text.length + 1);
    return text.slice(0, at) + String.fromCharCode(below(roll, 0x3000)) + text.slice(at + 1);
  },
  (roll, text) => {
    const from = below(roll, text.length + 1);
    const piece = text.slice(from, from + below(roll, 200));
    return text.slice(0, from) + piece.repeat(1 + below(roll, 20)) + text.slice(from);
  },
  (roll, text, others) => {
    const other = pick(roll, others);
    const from = below(roll, other.length + 1);
    const at = below(roll, text.length + 1);
    return text.slice(0, at) + other.slice(from, from + below(roll, 400)) + text.slice(at);
  },
];

/** A value with one to three nodes replaced, left out, renamed or doubled; it stays well-formed, so it reaches deeper code. */
export function mutateData(roll: Dice, data: unknown): unknown {
  const copy = structuredClone(data);
  for (let n = 1 + below(roll, 3); n > 0; n--) {
    const places = containers(copy);
    if (places.length === 0) return pick(roll, ODD_VALUES)();
    const place = pick(roll, places);
    const keys = Object.keys(place);
    if (keys.length === 0) continue;
    const key = pick(roll, keys);
    const other = pick(roll, places);
    switch (below(roll, 6)) {
      case 0:
        place[key] = pick(roll, ODD_VALUES)();
        break;
      case 1:
        delete place[key];
        break;
      case 2:
        place[key] = pick(roll, ODD_TOKENS);
        break;
      case 3:
        place[pick(roll, ODD_TOKENS)] = place[key];
        break;
      case 4:
        if (typeof place[key] === 'number') place[key] *= pick(roll, [-1, 0, 1e-3, 0.5, 10, 1e6, 1e300]);
        else place[key] = [place[key]];
        break;
      default:
        place[key] = structuredClone(pick(roll, [...Object.values(other), null]));
    }
  }
  return copy;
}

/** Every object and list inside a value. */
function containers(value: unknown): Record<string, unknown>[] {
  if (value === null || typeof value !== 'object') return [];
  return [value as Record<string, unknown>, ...Object.values(value).flatMap(containers)];
}
