/** Signs that are named and not told: what a change was made against, what was before or is only asked, what it only felt like. */
import { isNegator } from '../language.ts';
import type { Statement, Token } from '../tokens.ts';
import { comesAlong, refusedAt } from './negation.ts';

/**
 * @param at where the statement stands among all of the text
 * @returns for places of a find, whether its sign is only named there
 */
export function unsaidIn(
  statements: readonly Statement[],
  at: number,
): (places: readonly number[]) => boolean {
  const { tokens, sentence } = statements[at]!;
  const next = statements[at + 1];
  const takenBack = next?.sentence === sentence && next.contrast;
  const begins = tokens.flatMap(({ part }, from): Begin[] => {
    if (purposeAt(tokens, from)) return [{ from, part, word: 'last' }];
    if (wouldNotAt(tokens, from)) return [{ from, part, word: 'last', to: comesAlong(tokens, from) }];
    const asked = askedAt(tokens, from);
    if (asked !== undefined) return [{ from: asked - 1, word: 'first', to: asked + 1 }];
    const advised = advisedAt(tokens, from);
    if (advised !== undefined) return [{ from: advised - 1, word: 'first', to: advised + 1 }];
    if (pastAt(tokens, from)) return [{ from, part, word: 'first' }];
    const other = otherThingAt(tokens, from);
    if (other !== undefined) return [{ from: other, word: 'first' }];
    return takenBack && likenessAt(tokens, from) ? [{ from, word: 'first' }] : [];
  });
  return (places) =>
    begins.some(({ from, part, word, to = tokens.length }) => {
      const place = places.at(word === 'last' ? -1 : 0)!;
      return place > from && place < to && (part === undefined || tokens[place]!.part === part);
    });
}

/** From where on a sign is only named, and which of its words must stand there. */
interface Begin {
  readonly from: number;
  /** no further than this part of the statement */
  readonly part?: number;
  readonly word: 'first' | 'last';
  /** up to here, where it does not last to the end */
  readonly to?: number;
}

/** "Pumped up to stop it bottoming": but "want to stop it bottoming" tells that it bottoms. */
function purposeAt(tokens: readonly Token[], at: number): boolean {
  if (!AGAINST.has(tokens[at]!.word) || tokens[at - 1]?.word !== 'to') return false;
  const before = tokens.slice(0, at - 1);
  return (
    before.some(({ filler }) => !filler) &&
    !before.some(({ word }) => isNegator(word) || STILL_WANTED.has(word))
  );
}

/** "It used to dive", but not "the dive I am used to". */
const pastAt = (tokens: readonly Token[], at: number): boolean =>
  tokens[at]!.word === 'used' && tokens[at + 1]?.word === 'to' && !BEING.has(tokens[at - 1]?.word ?? '');

/**
 * "My old bike packed down": what another thing did is no sign of this one. Only compared with, "like my old bike", it is.
 * @returns the place of the thing
 */
function otherThingAt(tokens: readonly Token[], at: number): number | undefined {
  if (!WHOSE.has(tokens[at]!.word) || COMPARES.has(tokens[at - 1]?.word ?? '')) return undefined;
  const [which = '', thing = ''] = [tokens[at + 1]?.word, tokens[at + 2]?.word];
  // "The other fork leg" is of this bike.
  if (!(FORMER.has(which) && THINGS.has(thing)) && !(which === 'other' && thing === 'bike')) return undefined;
  return PARTS_OF.has(tokens[at + 3]?.word ?? '') ? undefined : at + 2;
}

const WHOSE = new Set(['my', 'his', 'her', 'our', 'the']);
const FORMER = new Set(['old', 'last', 'previous', 'former']);
const THINGS = new Set('bike fork forks shock frame rig hardtail'.split(' '));
/** Behind it: "the last fork service" is of this fork. */
const PARTS_OF = new Set('service oil seals rebuild setup settings tune pressure'.split(' '));
const COMPARES = new Set('than like as of from to on with since off and'.split(' '));

/**
 * "I wouldn't change a thing": what somebody would leave as it is tells nothing of what was done. Begins at the "I". Who
 * would not ride or trust it tells why.
 */
function wouldNotAt(tokens: readonly Token[], at: number): boolean {
  const verb = refusedAt(tokens, at);
  return verb !== undefined && LEFT_AS_IT_IS.has(tokens[verb]?.word ?? '');
}

const LEFT_AS_IT_IS = new Set(['change', 'touch', 'swap', 'do', 'buy', 'say']);

/**
 * "Should I let air out?", "do I need to close the rebound": what is only asked was not done. A sign that begins with what
 * would be done is meant, and nothing behind it: "should I soften a fork that dives" tells that it dives.
 * @returns the place of what would be done
 */
function askedAt(tokens: readonly Token[], at: number): number | undefined {
  const [first = '', who = '', then = '', next = ''] = tokens.slice(at, at + 4).map(({ word }) => word);
  if (who !== 'i' && who !== 'we') return undefined;
  const needs = first === 'do' && (then === 'need' || then === 'have') && next === 'to';
  if (!needs && first !== 'should' && first !== 'shall') return undefined;
  const verb = at + (needs ? 4 : then === 'just' || then === 'maybe' ? 3 : 2);
  return SETS.has(tokens[verb]?.word ?? '') ? verb : undefined;
}

/**
 * "My mate says I should soften it", "was told to slow it down", "he wanted to drop the front": what somebody would have done
 * was not done, and is no sign.
 * @returns the place of what would be done
 */
function advisedAt(tokens: readonly Token[], at: number): number | undefined {
  if (!ADVISES.has(tokens[at]!.word)) return undefined;
  const who = WHOM.has(tokens[at + 1]?.word ?? '') ? 1 : 0;
  const how = tokens[at + 1 + who]?.word ?? '';
  const verb = at + 2 + who;
  return (how === 'to' || how === 'should') && SETS.has(tokens[verb]?.word ?? '') ? verb : undefined;
}

const ADVISES = new Set(
  'told says said wanted wants reckons reckoned suggested suggests advised thinks thought'.split(' '),
);
const WHOM = new Set('me him her us i he she you we'.split(' '));

const SETS = new Set(
  'let close open turn pump wind back drop lower raise soften stiffen slow increase reduce add take run screw put'.split(
    ' ',
  ),
);

/** "As though it bottomed, but there is travel left": what follows takes it back. */
const likenessAt = (tokens: readonly Token[], at: number): boolean =>
  (tokens[at]!.word === 'though' || tokens[at]!.word === 'if') && tokens[at - 1]?.word === 'as';

const AGAINST = new Set([
  'stop',
  'prevent',
  'avoid',
  'cure',
  'fix',
  'reduce',
  'fight',
  'kill',
  'tame',
  'curb',
]);
const STILL_WANTED = new Set(
  'want wants wanted need needs like love try tries trying hope hoping how help trouble struggle struggling way seem seems refuse refuses fail fails have has'.split(
    ' ',
  ),
);
const BEING = new Set([
  'am',
  "i'm",
  'be',
  'get',
  'got',
  'getting',
  'are',
  "we're",
  "you're",
  'is',
  'was',
  'were',
]);

/** "More spacers?", "too slow?": so short a question is a guess, and tells nothing. */
export const wondered = ({ tokens, asked }: Statement): boolean =>
  asked && tokens.filter(({ filler }) => !filler).length <= MOST_IN_A_GUESS;

const MOST_IN_A_GUESS = 2;
