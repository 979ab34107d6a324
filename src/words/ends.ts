/** Which end of the bike a find speaks of. */
import type { End } from '../bike/sheet.ts';
import type { Question } from '../rulebase/compiled.ts';
import type { Token } from './tokens.ts';

export type Ends = End | 'both';

/** Answers that name an end themselves. */
export const END_ANSWERS: ReadonlySet<string> = new Set(['front', 'rear', 'both']);

interface Answer {
  readonly question: string;
  readonly answer: string;
}

/** Whether an answer tells an end and nothing else. @param beside what the same words say */
export type OnlyTheEnd = (said: Answer, beside: readonly Answer[]) => boolean;

/**
 * An answer for the whole bike that names an end tells nothing else, unless it stops the ride: then it is the find itself,
 * but where the find that it waits for was said with it.
 */
export function endTeller(questions: readonly Question[]): OnlyTheEnd {
  const stops = new Map(
    questions.flatMap((q) => (Object.keys(q.dangerous).length === 0 ? [] : [[q.id, q] as const])),
  );
  return ({ question, answer }, beside) => {
    if (question.includes('@') || !END_ANSWERS.has(answer)) return false;
    const danger = stops.get(question);
    return (
      danger?.dangerous[answer] === undefined ||
      danger.gates.some(({ on, id }) => on === 'question' && beside.some((other) => other.question === id))
    );
  };
}

interface Mention {
  readonly ends: Ends;
  readonly place: number;
  readonly part: number;
  /** counts only where no end is named in its part */
  readonly weak: boolean;
}

/** What earlier statements of the same sentence leave behind. */
export type Carried = Ends | undefined;

/** Every place where an end is named; `front and rear` and `both ends` are one mention of both. */
export function mentionsIn(tokens: readonly Token[]): Mention[] {
  const out: Mention[] = [];
  let skipTo = 0;
  tokens.forEach((token, i) => {
    if (i < skipTo) return;
    const next = tokens[i + 1]?.word ?? '';
    if ((token.word === 'both' && BOTH_OF.has(next)) || (BIKE_WHOLE.has(token.word) && next === 'bike')) {
      out.push({ ends: 'both', place: i, part: token.part, weak: false });
      return;
    }
    if (token.hint !== undefined) out.push({ ends: token.hint, place: i, part: token.part, weak: true });
    if (token.end === undefined) return;
    const partner = partnerOf(tokens, i);
    if (partner === undefined) out.push({ ends: token.end, place: i, part: token.part, weak: false });
    else {
      out.push({ ends: 'both', place: i, part: token.part, weak: false });
      skipTo = partner + 1;
    }
  });
  return out;
}

/**
 * The end a find speaks of: one named among its own words, else the nearest before it in its part of the
 * statement, else the nearest after it there, else what was spoken of before; a hint where none of this tells.
 */
export function endOf(
  tokens: readonly Token[],
  mentions: readonly Mention[],
  places: readonly number[],
  carried: Carried,
): Ends | undefined {
  const named = mentions.filter((m) => !m.weak);
  const hints = mentions.filter((m) => m.weak);
  return (
    nearTo(tokens, named, places) ?? nearTo(tokens, hints, places) ?? before(named, places)?.ends ?? carried
  );
}

/** What is spoken of when the statement ends. */
export function leftOver(mentions: readonly Mention[], carried: Carried): Carried {
  return mentions.findLast((m) => !m.weak)?.ends ?? carried;
}

function nearTo(
  tokens: readonly Token[],
  mentions: readonly Mention[],
  places: readonly number[],
): Ends | undefined {
  const first = places[0]!;
  const last = places.at(-1)!;
  const inside = mentions.filter(({ place }) => place >= first && place <= last);
  if (inside.length > 0) return together(inside.map((m) => m.ends));
  const nearest = before(mentions, places);
  if (nearest !== undefined && nearest.part === tokens[first]!.part) return nearest.ends;
  return mentions.find((m) => m.place > last && m.part === tokens[last]!.part)?.ends;
}

const before = (mentions: readonly Mention[], places: readonly number[]): Mention | undefined =>
  mentions.findLast((m) => m.place < places[0]!);

const BOTH_OF = new Set(['ends', 'wheels', 'tyres', 'tires', 'of', 'feel', 'are', 'sides', 'springs']);
const BIKE_WHOLE = new Set(['whole', 'entire']);
const BETWEEN = new Set(['and', 'or', 'the', 'nor', 'as', 'well', 'plus', 'to', '&', 'end', 'wheel', 'both']);

/** The place of the other end, when only joining words stand between. */
function partnerOf(tokens: readonly Token[], at: number): number | undefined {
  for (let i = at + 1; i < tokens.length && i <= at + 5; i++) {
    const { end, word } = tokens[i]!;
    if (end !== undefined || word === 'back') return end === tokens[at]!.end ? undefined : i;
    if (!BETWEEN.has(word)) return undefined;
  }
  return undefined;
}

function together(ends: readonly Ends[]): Ends {
  return ends.every((e) => e === ends[0]) ? ends[0]! : 'both';
}
