/** What was so and is over, what a brake lever does, and what one and the same words cannot both mean. */
import { describe, expect, it } from 'vitest';
import { baseMatcher } from '../support/base-rules.ts';

const matcher = baseMatcher();
const offers = (said: string): string[] =>
  matcher.match(said).flatMap((r) => (r.negated ? [] : r.candidates.map((c) => `${c.question}=${c.answer}`)));

describe('what is over is no sign of now', () => {
  it.each([
    ["put air in the fork because it dived, now it doesn't dive", 'brake-dive=dives'],
    ['the rear was packing down on roots, now it is lovely', 'repeated-hits.depth@rear=deeper'],
    ['I had it so firm that it deflected off every rock. Went softer, fine now.', 'deflect@either=deflects'],
    ['the fork was diving on the brakes, now it has stopped', 'brake-dive=dives'],
    ['the fork was diving on the brakes, now no complaints', 'brake-dive=dives'],
    ['the fork was diving on the brakes. All sorted now.', 'brake-dive=dives'],
    ['the fork was diving on the brakes. Now, the fork is alright.', 'brake-dive=dives'],
  ])('%s: not %s', (said, answer) => {
    expect(offers(said)).not.toContain(answer);
  });

  it.each([
    ['the fork dives, now and then on flat ground too', 'brake-dive=dives'],
    ['the rear was packing down on roots', 'repeated-hits.depth@rear=deeper'],
    ['the fork was diving on the brakes, now it is worse', 'brake-dive=dives'],
    ['the fork was diving on the brakes, now it dives even more', 'brake-dive=dives'],
    ["the fork was diving on the brakes, now it doesn't stop diving", 'brake-dive=dives'],
    ['the fork was diving on the brakes, now the rear kicks as well', 'brake-dive=dives'],
    ['the fork was diving on the brakes, now it is harsh as well', 'brake-dive=dives'],
    ["the fork was diving on the brakes, now it won't turn", 'brake-dive=dives'],
    ['the rear was packing down on roots. Not good now.', 'repeated-hits.depth@rear=deeper'],
    ['the rear was packing down on roots. Front is good now.', 'repeated-hits.depth@rear=deeper'],
    ['the axle was loose, now it creaks', 'safety.found=wheel'],
    ['the fork was serviced last week, now it is harsh', 'service-age@front=fresh'],
    ['I had it serviced last week. Fine now.', 'service-age@either=fresh'],
    ['crashed on Sunday, now it pulls left', 'recent-change=crash'],
  ])('%s: %s', (said, answer) => {
    expect(offers(said)).toContain(answer);
  });
});

describe('words after a brake lever speak of it until an end or a new sentence is named', () => {
  it.each([
    ["the brake lever is long, pump it and it's rock hard", 'pump', false],
    ["the brake lever is fine. I pump it and it's rock hard over rollers", 'pump', true],
  ])('%s: %s heard: %s', (said, topic, heard) => {
    expect(offers(said).some((o) => o.startsWith(`${topic}@`))).toBe(heard);
  });
});

describe('figures and seasons', () => {
  it.each([
    ['30% fork sag', 'sag@front=more'],
    ['22% fork sag', 'sag@front=target'],
    ['rear sag is 30%', 'sag@rear=target'],
    ['sag reads 18% at the back', 'sag@rear=less'],
    ['lost 11 kg since spring', 'load=less'],
    ['this spring is too soft for me', 'spring-for-mass@either=light'],
    ['the next spring up is too stiff for me', 'spring-for-mass@either=heavy'],
    ["I've lost two stone over the summer", 'load=less'],
    ['I weigh 12 kg more than I did', 'load=more'],
    ['rebound is two clicks from open', 'knob-place@either=open'],
  ])('%s: %s', (said, answer) => {
    expect(offers(said)).toContain(answer);
  });

  it.each([
    ['30% fork sag', 'sag@front=target'],
    ['lost 11 kg since spring', 'spring-for-mass@either=light'],
    ['lost 11 kg this spring', 'spring-for-mass@either=light'],
    ['last spring I lost 11 kg', 'spring-for-mass@either=light'],
    ['rebound 8 out', 'knob-place@either=open'],
    ['not harsh at the start, just at the end', 'harsh-where@either=nowhere'],
    ['it has a single pivot', 'hit-pattern=one'],
  ])('%s: not %s', (said, answer) => {
    expect(offers(said)).not.toContain(answer);
  });
});

it('hears no praise in "as well"', () => {
  expect(offers('small bumps as well')).not.toContain('chatter@either=filtered');
  expect(offers('small bumps go well')).toContain('chatter@either=filtered');
});

describe('the end that is spoken of', () => {
  it.each([
    ["the fork's sat up high", 'trouble-end=front'],
    ["the back's packing down on braking bumps", 'repeated-hits.depth@rear=deeper'],
  ])('%s: %s', (said, answer) => {
    expect(offers(said)).toContain(answer);
  });

  it.each([
    ['looking at the floor in front of my wheel', 'trouble-end=front'],
    ['it nearly pings me off the back', 'trouble-end=rear'],
    ['the whole bike felt like a plank. Fork 78 psi.', 'trouble-end=front'],
    ['lost the rear brake in a corner', 'flat-turn.rear=lets-go'],
    ['slowed the fork down last week', 'turn-in=slow'],
  ])('%s: not %s', (said, answer) => {
    expect(offers(said)).not.toContain(answer);
  });
});
