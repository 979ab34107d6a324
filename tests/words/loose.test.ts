/** Words that stand apart, small words that join, denials of another word, and statements about another part of the bike. */
import { describe, expect, it } from 'vitest';
import { buildMatcher } from '../../src/words/matcher.ts';
import { baseRules } from './base-pack.ts';

const matcher = buildMatcher(baseRules());
const offers = (said: string): string[] =>
  matcher.match(said).flatMap((r) => r.candidates.map((c) => `${c.question.replace(/@.*/, '')}=${c.answer}`));

const never = (cases: readonly (readonly [string, string])[]): void => {
  it.each(cases)('is not read: %s → %s', (said, offer) => expect(offers(said)).not.toContain(offer));
};
const always = (cases: readonly (readonly [string, string])[]): void => {
  it.each(cases)('is read: %s → %s', (said, offer) => expect(offers(said)).toContain(offer));
};

describe('two words far apart', () => {
  never([
    ['the jump was lovely and ran on into a long berm with a dead tree', 'lip=dead'],
    ['I sent the big road gap twice this morning', 'lip=dead'],
  ]);
  always([
    ['fork knocks hard when I brake', 'trouble-end=front'],
    ['the hsc is already fully open', 'comp-place-high=open'],
  ]);
});

describe('a small word that joins them', () => {
  never([['the post pumps two times a minute', 'pedal=bobs']]);
  always([
    ['my weight is all on my hands', 'weight-place=hands'],
    ['it pumps in time', 'pedal=bobs'],
  ]);
});

describe('a denial of another word', () => {
  never([
    ['it does not explain the hiss', 'trapped-air=none'],
    ['the bars do not come back to the middle', 'deep-travel=through'],
    ['we never saw a wobbly bottom bracket bottom', 'bottoming=rarely'],
  ]);
  always([
    ['there is nothing in the middle of the stroke', 'deep-travel=through'],
    ['it no longer bottoms', 'bottoming=rarely'],
  ]);
});

describe('a statement about another part of the bike', () => {
  never([
    ['the rear brake lever is slow to come back', 'g-out=slow'],
    ['my front brake lever feels like a sponge', 'liveliness=mushy'],
    ['the dropper is sinking on the climbs', 'pedal=bobs'],
    ['there are three stem spacers under it', 'spacers=more'],
    ['the headset is notchy', 'stiction=sticky'],
    ['the tread packs up with clay', 'hit-pattern=row'],
  ]);
  always([
    ['the rear is slow to come back', 'g-out=slow'],
    ['the front feels like a sponge', 'liveliness=mushy'],
    ['the fork is notchy', 'stiction=sticky'],
    ['the fork packs up', 'hit-pattern=row'],
  ]);
});

describe('numbers that tell no travel', () => {
  never([
    ['sag 28 front and 18 rear', 'travel-ring=short'],
    ['tyres 23 front 26 rear', 'travel-ring=short'],
    ['8 clicks out of 14', 'travel-ring=short'],
    ['I put more air in, from 65 to 75', 'travel-ring=short'],
  ]);
  always([['the fork uses 90 of the 140 mm', 'travel-ring=short']]);
});

describe('that all is well', () => {
  never([['on landings I feel it in my knees, ok at first', 'landing=soaked']]);
  always([['landings are fine', 'landing=soaked']]);
});
