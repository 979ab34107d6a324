/** Signs that are named but not told, words of two things, and what is offered twice. */
import { describe, expect, it } from 'vitest';
import { baseMatcher } from '../support/base-rules.ts';

const matcher = baseMatcher();
const offers = (said: string): string[] =>
  matcher.match(said).flatMap((r) => r.candidates.map((c) => `${c.question.replace(/@.*/, '')}=${c.answer}`));

describe('a sign that is only named', () => {
  it.each([
    [
      'what a change was made against',
      'I pumped the fork up to stop it bottoming on drops',
      'bottoming=hard',
    ],
    [
      'what a change was made against, offered as gone',
      'I wound the knob in to stop the fork diving',
      'brake-dive=no',
    ],
    ['what was before', 'It used to bottom out on drops', 'bottoming=hard'],
    [
      'what it felt like and was not',
      'It felt as though it bottomed on the drop, but there is travel left',
      'bottoming=hard',
    ],
  ])('is not offered: %s', (_, said, offer) => {
    expect(offers(said)).not.toContain(offer);
  });

  it.each([
    ['what the rider wants to end', 'I want to stop it bottoming on drops', 'bottoming=hard'],
    ['what nothing ends', 'I cannot get it to stop bottoming on drops', 'bottoming=hard'],
    ['what it feels like and nothing takes back', 'It feels as if it bottomed on the drop', 'bottoming=hard'],
    ['what the rider is used to', 'I am used to it bottoming on drops', 'bottoming=hard'],
  ])('is offered where it is told: %s', (_, said, offer) => {
    expect(offers(said)).toContain(offer);
  });
});

describe('what somebody would not do', () => {
  it.each([
    ["I wouldn't change how the rear kicks", 'lone-hit.kick=kicks'],
    ["I wouldn't say it bottoms", 'bottoming=hard'],
    ['I would not buy one that bottoms', 'bottoming=hard'],
  ])('tells no sign: %s', (said, offer) => {
    expect(offers(said)).not.toContain(offer);
  });

  it.each([
    ['I would not trust it with a loose rear axle', 'safety.found=loose'],
    ["I wouldn't ride it with oil dripping from the fork leg", 'safety.found=leak'],
    ["I wouldn't ride it with that crack in the frame", 'safety.found=crack'],
    ['I would never ride it with a cracked frame', 'safety.found=crack'],
    ["I wouldn't ride that cracked frame", 'safety.found=crack'],
    ["I'd not ride it with the axle loose", 'safety.found=wheel'],
    ["I wouldn't do another run with a cracked frame", 'safety.found=crack'],
    ["I wouldn't trust that front brake that leaks", 'safety.brakes=leak'],
  ])('tells why not: %s', (said, offer) => {
    expect(offers(said)).toContain(offer);
  });
});

describe('what is only asked', () => {
  it.each([
    ['Should I let some air out the back to calm it down?', 'preload-place=under'],
    ['should I close the rebound?', 'knob-place=closed'],
    ['Do I need to let air out of the fork?', 'preload-place=under'],
  ])('was not done: %s', (said, offer) => {
    expect(offers(said)).not.toContain(offer);
  });

  it.each([
    ['I let some air out the back to calm it down', 'preload-place=under'],
    ['Should I let air out of a fork that dives on the brakes?', 'brake-dive=dives'],
    ['Should I ride it with that crack in the frame?', 'safety.found=crack'],
    ['Should I put up with a cracked frame?', 'safety.found=crack'],
    ['Should I run it with the axle loose?', 'safety.found=wheel'],
  ])('is told with it: %s', (said, offer) => {
    expect(offers(said)).toContain(offer);
  });
});

describe('hands that hurt', () => {
  it('tell of hands and of the front, and not how deep in its travel', () => {
    expect(offers('my hands hurt at the end of a run')).toEqual([
      'trouble-end=front',
      'hands=all',
      'run-trend=bottom',
    ]);
  });
  it('that every root reaches feel each of them', () => {
    expect(offers('Every root goes straight up my arms')).toContain('chatter=through');
  });
});

describe('words of two things', () => {
  it.each([
    ['what goes up the arms is no stance', 'Every root goes straight up my arms', 'weight-place=back'],
    [
      'who is too light lifts no wheel',
      "The shop says I'm just too light for a proper fork",
      'lift=too-easy',
    ],
    ['an end like a pogo is no end of a run', "front end's like riding a pogo", 'run-trend=bottom'],
    ['a dial is no speed', 'high-speed knob all the way out', 'speed=fast'],
    ['a dial is no way out of a turn', 'high-speed knob all the way out', 'turn-phase=exit'],
    ['a dial turned in is in no turn', 'all clicks turned in', 'turn-phase=entry'],
    ['a front knocked about does not knock', 'the front gets knocked off line', 'safety.noise=front'],
    ['little sag is no low front', 'front sag is next to none', 'ride-height=low'],
    ['a slowed rebound is no braking', 'I slowed rebound and the rear sinks', 'brake-dive=dives'],
    [
      'a push in the other order is no lip',
      'the front springs back off rocks and the bars jump up at me',
      'lip=rear-over',
    ],
    [
      'a place of another part is not denied with it',
      'Drifts out to the kerb, will not hold its line',
      'square-edge=spike',
    ],
  ])('%s', (_, said, offer) => {
    expect(offers(said)).not.toContain(offer);
  });
});

it.each([
  'It bottoms out on drops and bottoms out on landings',
  'heavy steering at turn-in and slow to turn',
  'It never bottoms, no bottoming at all',
  'arm pump every run and my forearms burn',
])('offers an answer once: %s', (said) => {
  const all = matcher.match(said).flatMap((r) => r.candidates.map((c) => `${c.question}=${c.answer}`));
  expect(all.length).toBeGreaterThan(0);
  expect(all).toEqual([...new Set(all)]);
});
