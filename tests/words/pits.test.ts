/** What riders say in the words of the pits: common practice of the trade, no source. */
import { describe, expect, it } from 'vitest';
import { statementsOf } from '../../src/words/tokens.ts';
import { baseMatcher } from '../support/base-rules.ts';

const heard = (said: string): string[] =>
  baseMatcher()
    .match(said)
    .filter((r) => !r.negated)
    .flatMap((r) => r.candidates.map((c) => `${c.question}=${c.answer}`));

describe('a danger is heard', () => {
  it.each([
    ['lost a pivot bolt somewhere, no idea when', 'safety.found=loose'],
    ['the linkage bolt fell out on the last run', 'safety.found=loose'],
    ['one of the shock bolts is missing', 'safety.found=loose'],
    ['the rear triangle is moving sideways', 'safety.found=loose'],
    ['the back wheel has a wobble, I had it trued twice', 'safety.found=wheel'],
    ['two spokes snapped on the climb', 'safety.found=wheel'],
    ["there's a crack in the paint near the pivot weld", 'safety.found=crack'],
    ['the steerer has a crease', 'safety.found=crack'],
    ['my chainstay snapped', 'safety.found=crack'],
    ['the damper is blown, it just snaps up', 'safety.found=undamped'],
    ['no damping at all on the way back', 'safety.found=undamped'],
    ['the fork is pissing oil', 'safety.found=leak'],
    ['no brakes at the bottom of the run', 'safety.brakes=spongy'],
    ['the front brake pulls right to the bar', 'safety.brakes=spongy'],
    ['the wheel nearly came off', 'safety.found=loose'],
    ['the tyre is coming off the rim', 'safety.found=wheel'],
    ['had a big crash and hit a tree', 'safety.found=crashed'],
  ])('%s', (said, danger) => {
    expect(heard(said)).toContain(danger);
  });
});

it('counts no hits where "one" stands for a thing that was named', () => {
  const one = (said: string): string | undefined =>
    statementsOf(said)
      .flatMap(({ tokens }) => tokens)
      .find(({ word }) => word === 'one')?.stem;
  expect(one('one rock is fine')).toBe('one');
  expect(one("the new one doesn't")).not.toBe('one');
});

describe('no danger is heard', () => {
  it.each([
    'a clack every time the wheel comes off the ground',
    'the bars come up at me',
    'the front pings off wet roots',
    'no oil outside, legs dry',
    'head shake down the straight',
  ])('in: %s', (said) => {
    expect(
      heard(said).filter((offer) => offer.startsWith('safety.') && !offer.startsWith('safety.noise')),
    ).toEqual([]);
  });
});

describe('a number with its unit', () => {
  it.each([
    ["I'm 58kg with all my kit", 'rider-mass=light'],
    ['105kg in riding kit', 'rider-mass=heavy'],
    ["there's always 40mm left on the fork", 'travel-ring@front=short'],
  ])('is two words: %s', (said, answer) => {
    expect(heard(said)).toContain(answer);
  });
  it('of a tyre is no travel', () => {
    expect(heard('the knobs of the rear tyre have 30mm left')).not.toContain('travel-ring@rear=short');
  });
});

it.each([
  ["I can't get full travel out of the fork", 'travel-ring@front=short'],
  ['climbing in the saddle it bobs like crazy', 'pedal=bobs'],
  ["can't get the back wheel to bite", 'grip@rear=little'],
  ['the front washes out', 'flat-turn.front=washes'],
  ['it pushes the front and I wait ages before it turns', 'turn-in=slow'],
  ['the fork beats the crap out of me', 'harsh-where@front=all'],
  ['I pump the rollers and it eats my effort', 'pump@either=wallows'],
  ['a thud goes into my palms', 'hands=palms'],
  ['the bike feels great', 'complaint=nothing'],
])('%s', (said, answer) => {
  expect(heard(said)).toContain(answer);
});

it.each([
  // The rebound of a damper throws nobody.
  ['I slowed the rebound down for jumps', 'complaint=air'],
  // A crash alone bends nothing.
  ['had a crash on Sunday', 'crash-check=bent'],
  // A clunk that is still there is no bottoming.
  ['tightened it, still a clunk', 'bottoming@either=hard'],
  ['bike feels great but the fork dives', 'complaint=nothing'],
])('%s does not say %s', (said, answer) => {
  expect(heard(said)).not.toContain(answer);
});

describe('of what is only advised, or was another bike,', () => {
  it.each([
    ['I was told to slow the rebound down for jumps', []],
    ['my mechanic wanted to lower the front', ['trouble-end=front']],
    ['my old bike packed down on braking bumps', []],
  ])('%s: %j', (said, answers) => {
    expect(heard(said)).toEqual(answers);
  });
  it('what is compared with it, or is a part of this one, is told', () => {
    expect(heard('it dives on the brakes like my old fork')).toContain('brake-dive=dives');
    expect(heard('the other fork leg leaks oil')).toContain('safety.found=leak');
  });
});

it.each([
  // Oil down a leg is no loss of air.
  ['the fork is leaking down one leg', 'air-loss@front=loses'],
  // What has settled is calm.
  ["I let off the brake and it's settled", 'brake-dive=dives'],
  // A nose that is heavy in the air is the take-off's, and no balance on the ground.
  ['it lands nose heavy off the jump', 'balance=nose'],
  ['the bike feels nose heavy', 'lip=rear-over'],
])('%s does not tell %s', (said, answer) => {
  expect(heard(said)).not.toContain(answer);
});

it.each([
  ['the arse end steps out on every loose corner', 'trouble-end=rear'],
  ['the ass end kicks up off jumps', 'trouble-end=rear'],
])('%s names an end', (said, end) => {
  expect(heard(said)).toContain(end);
});

it.each([
  ['tried softer grips, no change', 'recent-change=none'],
  ['loads of front grip', 'weight-cure=forward'],
  ["my mate who's the same weight says the front is fine", 'weight-cure=forward'],
])('%s says no %s', (said, answer) => {
  expect(heard(said)).not.toContain(answer);
});

describe('a guess that is asked in two words', () => {
  it.each(['what do I do, more spacers?', 'or too low?'])('tells nothing: %s', (said) => {
    expect(heard(said)).toEqual([]);
  });
  it('tells a danger, and a longer question tells what it asks about', () => {
    expect(heard('is that oil leaking?')).toContain('safety.found=leak');
    expect(heard('why does it pack down in the roots?')).toContain('repeated-hits.depth@either=deeper');
  });
});
