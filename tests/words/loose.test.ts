/** Words that stand apart, small words that join, denials of another word, and statements about another part of the bike. */
import { describe, expect, it } from 'vitest';
import { buildMatcher } from '../../src/words/matcher.ts';
import { rulesOf } from '../support/compile-text.ts';
import { baseMatcher } from '../support/base-rules.ts';
import { PHRASES } from './fixture.ts';

const matcher = baseMatcher();
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
    ['coil fork clanks whenever the bike is hopped or unweighted', 'top-out-riding=clunk'],
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

describe('a brake that does not hold', () => {
  always([
    ['the front brake is spongy and nothing helps', 'safety.brakes=spongy'],
    ['brakes are spongy', 'safety.brakes=spongy'],
    ['the lever goes to the grip', 'safety.brakes=spongy'],
    ['I have to pump the front brake', 'safety.brakes=spongy'],
    ['the brakes do not hold', 'safety.brakes=weak'],
    ['the front brake does not hold', 'safety.brakes=weak'],
    ["the brake won't hold me on steep stuff", 'safety.brakes=weak'],
    ['brakes are soft', 'safety.brakes=weak'],
    ['rear brake goes soft on a long hold', 'safety.brakes=weak'],
    ['front brake fades when I hold the brake on long descents', 'safety.brakes=weak'],
    ['the rear brake is weak, nothing I do helps', 'safety.brakes=weak'],
    ['brake hose is leaking', 'safety.found=leak'],
    ['brake hose is leaking', 'safety.brakes=leak'],
    ['my brake is leaking', 'safety.found=leak'],
    ['my brake is leaking', 'safety.brakes=leak'],
    ['brake fluid on the caliper', 'safety.brakes=leak'],
    ['the rear brake lever is leaking fluid', 'safety.brakes=leak'],
    ['brake pads are worn out', 'safety.brakes=pads'],
    ['the caliper is loose', 'headset-check=brake'],
    ['the caliper is loose', 'safety.found=loose'],
    ['the caliper moves on the fork leg', 'headset-check=brake'],
    ['oil leaks from the shock shaft when the rear brake locks', 'safety.found=leak'],
  ]);
  never([
    ['when I let off the brake it drops on soft', 'safety.brakes=weak'],
    ['the fork feels soft on the brakes', 'safety.brakes=weak'],
    ['new brake pads and the fork dives', 'safety.brakes=pads'],
    ['fork leaks oil and the brakes rub', 'safety.brakes=leak'],
    ['the brakes work fine', 'safety.brakes=weak'],
    ['the pads are new', 'safety.brakes=pads'],
  ]);
});

describe('a danger beside an everyday word', () => {
  always([
    ['oil drips from the fork leg in the rain', 'safety.found=leak'],
    ['otherwise the bike is great but oil runs down the fork leg', 'safety.found=leak'],
    ['the bike rides fine with oil dripping from the shock shaft', 'safety.found=leak'],
    ['overhauled last week and oil runs down the leg', 'safety.found=leak'],
    ['oil weeps from the fork seal, wiped it and it came back', 'safety.found=leak'],
    ['the shock is stuck down and the ring is gone', 'safety.found=stuck'],
    ['the fork is stuck down, I pushed it in the garage', 'safety.found=stuck'],
    ['I checked the headset and it has play', 'safety.found=loose'],
  ]);
  never([
    ['wet leg after rain', 'safety.found=leak'],
    ['a thin film of oil on the leg, normal', 'safety.found=leak'],
    ['the marker stays short', 'safety.found=stuck'],
    ['the bars have no play', 'safety.found=loose'],
    ['the wet leg is only from wet grass', 'safety.found=leak'],
  ]);
});

describe('an off', () => {
  always([
    ['had a little off last week', 'recent-change=crash'],
    ['took a nasty off on sunday', 'recent-change=crash'],
    ['I had a big off yesterday', 'recent-change=crash'],
  ]);
  never([
    ['the fork feels a little off since the service', 'recent-change=crash'],
    ['the fork is a little off since last week', 'recent-change=crash'],
  ]);
});

describe('a crack', () => {
  always([
    ['I found a crack in the frame', 'safety.found=crack'],
    ['I heard a crack and found a crack in the frame', 'safety.found=crack'],
    ['there is a crack in the frame and I can hear it', 'safety.found=crack'],
    ["there's a sharp crack in the down tube", 'safety.found=crack'],
    ['cracked head tube', 'safety.found=crack'],
    ['my fork is cracked', 'safety.found=crack'],
    ['cracked fork', 'safety.found=crack'],
    ['there is a crack in the lower leg', 'safety.found=crack'],
    ['the arch of the fork is cracked', 'safety.found=crack'],
    ['crack across the down tube', 'crack-look=crack'],
    ['crack near the weld', 'safety.found=crack'],
    ["there's a crack at the crown", 'safety.found=crack'],
  ]);
  never([
    ['I hear a crack when the rear goes down', 'safety.found=crack'],
    ['I hear a crack from the frame', 'safety.found=crack'],
    ['my arms are bent low over the fork', 'safety.found=crack'],
    ['a sharp crack from the stem when I pedal', 'safety.found=crack'],
    ['a crack from the stem when I pedal', 'safety.found=crack'],
    ['crack of the spokes', 'safety.found=crack'],
    ['it makes a cracking noise', 'safety.found=crack'],
  ]);
});

describe('what words that hardly stand together are believed by', () => {
  const spelling =
    '  - {id: zebu, says: [ZEBU], could-be: [{question: pattern, answer: row}], source: common-practice}\n';
  const other =
    '  - {id: okapi, says: [okapi], could-be: [{question: pattern, answer: row}], source: common-practice}\n';
  const found = (pack: string, said: string): string[] =>
    buildMatcher(rulesOf({ 'a.yaml': PHRASES + pack }))
      .match(said)
      .map((r) => r.phrase);
  const two = spelling.replace('ZEBU', 'quagga zebu, quagga/bongo zebu');

  it('is no second spelling of the same words', () => {
    expect(found(two, 'the quagga zebu')).toEqual(['zebu']);
    expect(found(two + other, 'the okapi. The quagga met dogs with that zebu')).toEqual(['okapi']);
  });

  it('is nothing else that was said', () => {
    expect(found(two, 'the quagga met dogs with that zebu')).toEqual(['zebu']);
    expect(found(two, 'the quagga, that old one, zebu')).toEqual(['zebu']);
    expect(found(two, 'the quagga was here but now there is a zebu')).toEqual([]);
  });

  it('is another word', () => {
    expect(found(two + other, 'the quagga met dogs with that zebu and the okapi')).toContain('zebu');
  });
});
