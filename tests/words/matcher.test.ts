import { describe, expect, it } from 'vitest';
import { buildMatcher, type Reading } from '../../src/words/matcher.ts';
import { rulesOf } from '../support/compile-text.ts';
import { PHRASES } from './fixture.ts';

const rules = rulesOf({ 'a.yaml': PHRASES });
const matcher = buildMatcher(rules);
const one = (text: string): Reading => {
  const readings = matcher.match(text);
  expect(readings.map((r) => r.phrase)).toHaveLength(1);
  return readings[0]!;
};
const phrases = (text: string): string[] => matcher.match(text).map((r) => r.phrase);
const denied = (text: string) => matcher.match(text).map((r) => `${r.phrase} ${r.negated}`);
const ends = (text: string) => matcher.match(text).map((r) => `${r.phrase} ${r.end}`);
const offers = (r: Reading): string[] => r.candidates.map((c) => `${c.question}=${c.answer}`);

describe('finding a phrase', () => {
  it('returns the phrase, the words it was found in, their place, and unconfirmed candidates', () => {
    expect(matcher.match('Well, the fork kicks!')).toEqual([
      {
        phrase: 'kicks',
        text: 'kicks',
        position: 15,
        end: 'front',
        negated: false,
        ambiguous: false,
        means: [],
        separates: [],
        candidates: [{ question: 'kick@front', answer: 'kicks', confirmed: false }],
        score: 1,
        sure: 1,
      },
    ]);
  });

  it.each(['kicked', 'kicking', 'It KICKS', 'a kick'])('finds another form of the word: %s', (text) => {
    expect(phrases(text)).toEqual(['kicks']);
  });

  it('finds the words of a phrase apart and in another order', () => {
    expect(phrases('on a single nasty root it kicks')).toEqual(['kicks-alone']);
  });

  it('does not find a phrase of which a word is missing', () => {
    expect(phrases('it sits well')).toEqual([]);
  });

  it('does not find a phrase whose words are far apart', () => {
    expect(phrases('it sits where my old bike used to have the bars which were a long way too low')).toEqual(
      [],
    );
  });

  it('keeps the phrase that says more and drops the bare word inside it', () => {
    expect(phrases('the rear kicks on a lone bump')).toEqual(['kicks-alone']);
  });

  it('scores an exact find above one with words in between and one with a slip', () => {
    const exact = one('sits low').score;
    expect(exact).toBe(1);
    expect(one('sits really very low').score).toBeLessThan(exact);
    expect(one('harhs').score).toBeLessThan(1);
  });

  it('gives the same thing said twice once', () => {
    expect(phrases('it kicks and kicks, it kicks')).toEqual(['kicks']);
  });

  it.each(['', '   ', '...', 'the weather was nice', '12345', '¿qué tal?'])('finds nothing in %j', (text) => {
    expect(matcher.match(text)).toEqual([]);
  });
});

describe('slips of the finger', () => {
  it.each([
    ['harhs', 'harsh'],
    ['harsch', 'harsh'],
    ['clunkss', 'knocks'],
    ['kickng', 'kicks'],
    ['kcik', 'kicks'],
    ['sinsk into its travle', 'sits-low'],
  ])('%s is read as %s', (text, phrase) => {
    expect(phrases(text)).toEqual([phrase]);
  });

  it.each(['marsh', 'kink', 'back', 'show', 'low', 'travel'])('%s is another word', (text) => {
    expect(phrases(text)).toEqual([]);
  });

  it.each(['the fornt kicks', 'the frnot kicks', 'the raer kicks'])('reads the end in: %s', (text) => {
    expect(one(text).end).toBe(text.includes('f') ? 'front' : 'rear');
  });
});

describe('denial', () => {
  it.each([
    'no kick',
    "it doesn't kick",
    'it doesn’t kick',
    'it doesnt kick',
    'never kicks',
    'not kicking anymore',
    'hardly ever kicks',
    'it stopped kicking',
    'the kick is gone',
    'the kick went away',
    'I have never once felt it kick',
  ])('reports and does not offer the sign: %s', (text) => {
    expect(one(text)).toMatchObject({ phrase: 'kicks', negated: true });
    expect(offers(one(text))).toEqual(['kick@either=no']);
  });

  it('offers the answer without a sign instead', () => {
    expect(offers(one("the rear doesn't kick"))).toEqual(['kick@rear=no']);
  });

  it('offers the signs when the answer without a sign was denied', () => {
    expect(offers(one("the rear doesn't stand level"))).toEqual(['height@rear=high', 'height@rear=low']);
  });

  it('denies what happened, not where', () => {
    expect(offers(one('no kicks on a single root'))).toEqual(['kick@either=no']);
  });

  it('offers nothing when the denied phrase means opposite things', () => {
    expect(one('no harshness')).toMatchObject({ negated: true, ambiguous: true, candidates: [] });
  });

  it('never offers the safe answer of a safety question, however plainly it was denied', () => {
    expect(offers(one('it leaks'))).toEqual(['leak=leaks']);
    expect(one('no leaks')).toMatchObject({ negated: true, candidates: [] });
  });

  it('does not take a denial at one end for both', () => {
    expect(offers(one('the fork does not knock'))).toEqual([]);
    expect(offers(one('it does not knock'))).toEqual(['noise=none']);
  });

  it('leaves a "not" that belongs to the phrase alone', () => {
    expect(one("the fork won't come back up")).toMatchObject({ phrase: 'no-return', negated: false });
  });

  it.each([
    "I don't like how it kicks",
    'not only does it kick',
    "can't stop it kicking",
    "it won't stop kicking",
    'no idea why it kicks',
    'not good, it kicks',
  ])('hears the sign in: %s', (text) => {
    expect(one(text).negated).toBe(false);
  });

  it('reaches over both ends at once, but not over an "and" that begins something new', () => {
    expect(denied('I never felt the front and rear kick')).toEqual(['kicks true']);
    expect(denied('I never felt the front and the rear kick')).toEqual(['kicks true']);
    expect(denied('I never felt the brakes and the rear kicks')).toEqual(['kicks false']);
  });

  it('reaches the first sign and those joined to it by "or"', () => {
    expect(denied('no harshness or kicking')).toEqual(['harsh true', 'kicks true']);
    expect(denied("it isn't harsh it kicks")).toEqual(['harsh true', 'kicks false']);
    expect(denied("it isn't harsh and it kicks")).toEqual(['harsh true', 'kicks false']);
    expect(denied("it isn't harsh but it kicks")).toEqual(['harsh true', 'kicks false']);
  });
});

describe('which end', () => {
  it.each([
    ['the front kicks', 'front'],
    ['my fork kicks', 'front'],
    ['kicks at the back', 'rear'],
    ['the back end kicks', 'rear'],
    ['back wheel kicks', 'rear'],
    ['the shock kicks', 'rear'],
    ['both ends kick', 'both'],
    ['front and rear kick', 'both'],
    ['fork and shock both kick', 'both'],
    ['the fork and the back kick', 'both'],
    ['the whole bike kicks', 'both'],
    ['it kicks', undefined],
    ['it comes back and kicks', undefined],
    ['my back hurts when it kicks', undefined],
  ])('%s: %s', (text, end) => {
    expect(one(text).end).toBe(end);
  });

  it('leaves the end open when none was named, and offers the ends that were', () => {
    expect(offers(one('it kicks'))).toEqual(['kick@either=kicks']);
    expect(offers(one('front and rear kick'))).toEqual(['kick@front=kicks', 'kick@rear=kicks']);
    expect(offers(one('the rear kicks'))).toEqual(['kick@rear=kicks']);
  });

  it('gives each statement its own end, and carries one over within a sentence only', () => {
    expect(ends('the fork sits low but the rear kicks')).toEqual(['sits-low front', 'kicks rear']);
    expect(ends('the front kicks and the rear kicks')).toEqual(['kicks front', 'kicks rear']);
    expect(ends('sits low at the front and kicks at the rear')).toEqual(['sits-low front', 'kicks rear']);
    expect(ends('the fork sits low, kicks too')).toEqual(['sits-low front', 'kicks front']);
    expect(ends('the fork is new. It kicks')).toEqual(['kicks undefined']);
    expect(ends('the fork sits low. It kicks')).toEqual(['sits-low front', 'kicks front']);
    expect(ends('the fork sits low, the rear is new. It kicks')).toEqual([
      'sits-low front',
      'kicks undefined',
    ]);
  });

  it('keeps answers that name an end only where they agree', () => {
    expect(offers(one('the fork knocks'))).toEqual(['noise=front']);
    expect(offers(one('both ends knock'))).toEqual(['noise=both']);
    expect(offers(one('it knocks'))).toEqual(['noise=front', 'noise=rear', 'noise=both']);
  });

  it('does not take a word about one end for the other', () => {
    expect(phrases('the front kicks and the rear is high')).toEqual(['kicks']);
    expect(offers(one('the front is too high'))).toEqual(['height@front=high']);
  });
});

describe('words that mean opposite things', () => {
  it('gives the meanings and the questions that separate them, with the end filled in', () => {
    expect(one('the rear feels harsh')).toMatchObject({
      ambiguous: true,
      means: ['it packs down in a row', 'it kicks on one hit'],
      separates: ['pattern', 'kick@rear'],
    });
    expect(one('feels harsh').separates).toEqual(['pattern', 'kick@either']);
  });
});

describe('several statements', () => {
  it.each([
    'harsh, sits low, and it kicks',
    'harsh. Sits low. Kicks.',
    'harsh but sits low then it kicks',
    'harsh\nsits low\nkicks',
    'harsh; sits low (kicks)',
  ])('finds all in order: %j', (text) => {
    expect(phrases(text)).toEqual(['harsh', 'sits-low', 'kicks']);
  });

  it('does not join words of two statements', () => {
    expect(phrases('it sits well, but the bars are low')).toEqual([]);
  });
});

describe('concepts', () => {
  it.each([
    'the fork plunges in corners',
    'in corners the fork gives way',
    'the fork goes slowly down in corners',
    'out of turns the fork plunges',
    'In corners, the fork plunges',
  ])('stands for any of its ways: %s', (text) => {
    expect(offers(one(text))).toEqual(['height@front=low']);
  });

  it.each([
    ['another order of the words of one way', 'the fork down goes in corners'],
    ['a small word that is missing', 'turns out and the fork plunges'],
    ['another sentence', 'In corners. The fork plunges'],
    ['a "but" in between', 'in corners fine but the fork plunges'],
    ['a name that only holds the word', 'with the corners knob the fork plunges'],
  ])('does not reach over %s', (_, text) => {
    expect(phrases(text)).toEqual([]);
  });

  it('takes words that are declared alike for each other where another word stands with them', () => {
    expect(phrases('it tosses on a lone bump')).toEqual(['kicks-alone']);
    expect(phrases('it tosses')).toEqual([]);
  });
});

describe('a phrase that is too little by itself', () => {
  it('is offered where nothing else answers its question', () => {
    expect(phrases('the fork is wobbly')).toEqual(['wobbly']);
    expect(phrases('the fork is wobbly and leaks')).toEqual(['wobbly', 'leaks']);
    expect(phrases('the fork is wobbly. It sits low')).toEqual(['sits-low']);
  });

  it('is offered only where nothing else is, if it is that weak', () => {
    expect(phrases('muddy')).toEqual(['muddy']);
    expect(phrases('muddy and sits low')).toEqual(['sits-low']);
  });

  it('is not offered where it is denied, or where what excludes it stands in the same statement', () => {
    expect(phrases('the fork is not wobbly')).toEqual([]);
    expect(phrases('wobbly and lovely')).toEqual([]);
    expect(phrases('wobbly, the rest is lovely')).toEqual(['wobbly']);
  });
});

describe('a phrase across the commas of a sentence', () => {
  it('is found in its order wherever its words stand in one sentence', () => {
    expect(phrases('the first lap is lovely, then at the tenth bump it falls')).toEqual(['fine-then-not']);
    expect(phrases('it falls, the first lap is lovely')).toEqual([]);
    expect(phrases('the first lap is lovely. It falls')).toEqual([]);
  });

  it('is not found where a part of it is denied', () => {
    expect(phrases('the first lap is not lovely, then it falls')).toEqual([]);
    expect(phrases('the first lap is lovely, and it never falls')).toEqual([]);
  });
});

describe('a denial', () => {
  it('is that of the word it stands before: "not" at another place of the statement does not make a phrase', () => {
    expect(phrases('it does come back up, not bad')).toEqual([]);
    expect(phrases('comes back up, or not')).toEqual([]);
  });

  it('is none where it says how much', () => {
    expect(one('barely 3 mm, it sits low')).toMatchObject({ phrase: 'sits-low', negated: false });
    expect(one('hardly a third and sits low')).toMatchObject({ phrase: 'sits-low', negated: false });
  });

  it('of one of several signs leaves the others open', () => {
    expect(offers(one('the fork does not sit low'))).toEqual([]);
  });
});

describe('numbers', () => {
  it('reads a part of a whole where it lies in the range of the phrase', () => {
    expect(phrases('uses 90 of 160')).toEqual(['uses-half']);
    expect(phrases('uses 150 of 160')).toEqual([]);
  });
});

describe('statements that contradict each other', () => {
  it('says of both with which words they clash', () => {
    const readings = matcher.match('it sits low because it shoots back up');
    expect(readings.map((r) => [r.phrase, r.clashes])).toEqual([
      ['sits-low', ['shoots back up']],
      ['shoots-back', ['sits low']],
    ]);
  });

  it('says nothing of statements about different ends', () => {
    const readings = matcher.match('the front sits low and the rear shoots back up');
    expect(readings.map((r) => r.clashes)).toEqual([undefined, undefined]);
  });
});

describe('a hint of an end', () => {
  it('counts only where no end is named', () => {
    expect(one('it kicks through the saddle').end).toBe('rear');
    expect(one('the front kicks through the saddle').end).toBe('front');
  });
});
