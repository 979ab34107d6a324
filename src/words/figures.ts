/** Shares that a rider measured and told of in his own words: `sag is 30 percent`, `25 of 150`. Nothing is counted unconfirmed. */
import { unitFrom } from '../bike/change.ts';
import { CHANGE_UNITS } from '../bike/dial/dial.ts';
import type { End } from '../bike/sheet.ts';
import { dimensionOf } from '../bike/units.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import { endVocabulary } from './end-names.ts';
import { mentionsIn } from './ends.ts';
import { statementsOf, type Token } from './tokens.ts';

export interface SaidShare {
  /** as it was said */
  readonly text: string;
  /** as a gauge is read: `25/150 mm`, `30 %` */
  readonly figure: string;
  readonly end: End;
}

interface Found {
  readonly first: Token;
  readonly last: Token;
  /** 0..1 */
  readonly share: number;
  /** the whole, mm; absent: told in percent */
  readonly whole?: number;
  readonly end: End | undefined;
}

/** From here on a whole is the travel of a front; the stroke of a shock is shorter. mm */
const LEAST_TRAVEL = 90;
/** Two ways of telling one share differ by no more, for they are rounded. */
const ROUNDED = 0.015;

/**
 * A share is taken for this gauge where its sentence calls it by its name, or where it is told twice, in percent and in length: two
 * figures alone may be clicks. Of an end for which two were told, such as what it is and what it should be, both are given.
 * @param called the names of what the gauge reads, lower case
 * @param mayBe whether the gauge reads such a figure at all
 */
export function saidShares(
  text: string,
  called: readonly string[],
  { endNames }: Pick<CompiledRules, 'endNames'>,
  mayBe: (one: Pick<SaidShare, 'figure' | 'end'>) => boolean = () => true,
): SaidShare[] {
  // A comma between two digits is a decimal comma; every place stays where it is.
  const dotted = text.replace(/(?<=\d),(?=\d)/g, '.');
  const sentences = new Map<number, Found[]>();
  const named = new Set<number>();
  let end: End | undefined;
  for (const { tokens, sentence } of statementsOf(dotted, endVocabulary(endNames))) {
    const found = sentences.get(sentence) ?? [];
    sentences.set(sentence, found);
    if (tokens.some(({ word }) => called.includes(word.replace(/'s$/, '')))) named.add(sentence);
    const all = mentionsIn(tokens);
    const strong = all.filter(({ weak }) => !weak);
    const mentions = strong.length > 0 ? strong : all;
    const shares = tokens.flatMap((_, i) => {
      const one = shareAt(tokens, i, dotted);
      return one === undefined ? [] : [{ i, ...one }];
    });
    // "20 % front and 30 % rear" names each end after its figure; "front 20 % and rear 30 %", before it.
    const isAfter = shares[0] !== undefined && mentions[0] !== undefined && shares[0].i < mentions[0].place;
    for (const { i, ...one } of shares) {
      const beside = isAfter
        ? mentions.find(({ place }) => place > i)
        : mentions.findLast(({ place }) => place <= i);
      const at = (beside ?? mentions[0])?.ends;
      if (at !== undefined) end = at === 'both' ? undefined : at;
      found.push({ ...one, end });
    }
    const last = mentions.at(-1)?.ends;
    if (last !== undefined) end = last === 'both' ? undefined : last;
  }
  const all = [...sentences].flatMap(([sentence, found]) =>
    found.filter(
      (one) => named.has(sentence) || found.some((other) => isSame(one, other) && one.whole !== other.whole),
    ),
  );
  const out: (SaidShare & Found)[] = [];
  // A length says of which whole it is a part: it goes before a share alone.
  for (const one of all.toSorted((a, b) => Number(b.whole !== undefined) - Number(a.whole !== undefined))) {
    const { first, last, share, whole, end: at } = one;
    // No fork has so little travel, whatever end was named last.
    const which = whole === undefined ? at : whole < LEAST_TRAVEL ? 'rear' : (at ?? 'front');
    if (which === undefined || out.some((other) => other.end === which && isSame(one, other))) continue;
    const figure =
      whole === undefined
        ? `${Number((share * 100).toFixed(1))} %`
        : `${Number((share * whole).toFixed(1))}/${whole} mm`;
    const said = { text: text.slice(first.start, last.stop), figure, end: which };
    if (mayBe(said)) out.push({ ...one, ...said });
  }
  return out.map(({ text: said, figure, end: at }) => ({ text: said, figure, end: at }));
}

function isSame(one: Found, other: Found): boolean {
  return one !== other && Math.abs(one.share - other.share) <= ROUNDED;
}

/** A share that begins at this word: `30 percent`, `25 mm of my 150 mm`, `25/150`. */
function shareAt(tokens: readonly Token[], at: number, text: string): Omit<Found, 'end'> | undefined {
  const first = tokens[at]!;
  const part = numberIn(first);
  if (part === undefined) return undefined;
  const next = tokens[at + 1]?.word;
  if (next === 'percent') return { first, last: tokens[at + 1]!, share: part / 100 };
  if (next === 'per' && tokens[at + 2]?.word === 'cent')
    return { first, last: tokens[at + 2]!, share: part / 100 };
  let i = at + 1;
  while (i < tokens.length && BETWEEN.has(tokens[i]!.word)) i++;
  const whole = tokens[i] === undefined ? undefined : numberIn(tokens[i]!);
  if (whole === undefined || !(part < whole)) return undefined;
  if (i === at + 1 && text.slice(first.stop, tokens[i]!.start).trim() !== '/') return undefined;
  const unit = tokens[i + 1]?.word;
  // Clicks of a knob and pressures are told so too.
  if (unit !== undefined && isOtherUnit(unit)) return undefined;
  const last = unit === 'mm' ? tokens[i + 1]! : tokens[i]!;
  return { first, last, share: part / whole, whole };
}
const BETWEEN: ReadonlySet<string> = new Set(['mm', 'of', 'out', 'from', 'the', 'my', 'its']);

/** Whether something is counted or measured in it that is no length. */
function isOtherUnit(word: string): boolean {
  const unit = unitFrom(word, CHANGE_UNITS);
  return unit !== undefined && dimensionOf(unit) !== 'length';
}

function numberIn({ word }: Token): number | undefined {
  return /^\d+(?:\.\d+)?$/.test(word) ? Number(word) : undefined;
}
