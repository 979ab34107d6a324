/** What stops a ride, in words of the workshop (common practice, no source), and the same words where all is well. */
import { describe, expect, it } from 'vitest';
import { baseMatcher } from '../support/base-rules.ts';

const matcher = baseMatcher();
const offers = (said: string): string[] =>
  matcher.match(said).flatMap((r) => (r.negated ? [] : r.candidates.map((c) => `${c.question}=${c.answer}`)));

describe('what stops a ride is heard', () => {
  it.each([
    ['The hose is damp where it goes into the lever.', 'safety.brakes=leak'],
    ["brake line's sticky with fluid at the banjo", 'safety.brakes=leak'],
    ['Damp patch on the rear brake hose near the caliper', 'safety.brakes=leak'],
    ['Handlebar slipped in the stem when I landed', 'safety.found=loose'],
    ['bars rolled forward off the drop', 'safety.found=loose'],
    ["Stem's twisted on the steerer after a clip", 'safety.found=loose'],
    ['front lever is spongy, have to pump it up before each corner', 'safety.brakes=spongy'],
    ['rear lever goes all the way to the grip now', 'safety.brakes=spongy'],
    ["second pull is firm, first one's nothing", 'safety.brakes=spongy'],
    ['the lever travel changes from one pull to the next', 'safety.brakes=spongy'],
    ['couple of spokes loose on the drive side', 'wheel-check@either=spokes'],
    ['spokes have gone slack', 'safety.found=wheel'],
    ['some spokes ping lower than the others', 'safety.found=wheel'],
    ["there's a ring of oil on the left stanchion after each ride", 'safety.found=leak'],
    ['lowers are oily on one side', 'safety.found=leak'],
    ["fork seal's weeping", 'safety.found=leak'],
    ['rebound dial just spins with no clicks', 'knob-effect@either=none'],
    ['the compression knob came off in my hand', 'knob-effect@either=none'],
    ['clicker does nothing at all any more', 'knob-effect@either=none'],
    ["fork won't extend fully on the stand", 'safety.found=stuck'],
    ['does not come all the way up again, sits 15 mm down', 'safety.found=stuck'],
    ['brakes fade by the bottom of the long descent', 'brake-fade=fades'],
    ['brakes cook on long ones and come back after a rest', 'brake-fade=fades'],
  ])('%s: %s', (said, answer) => {
    expect(offers(said)).toContain(answer);
  });
});

describe('the same words of something else, or of what is sound, are no such find', () => {
  it.each([
    ['I can pump the fork to 80psi', 'safety.brakes=spongy'],
    ['the lever on that side is near to the bar and hard to pull', 'safety.brakes=spongy'],
    ['even when I hold it loose the bar is buzzing', 'safety.found=loose'],
    ["checked the spokes and they're all tight", 'safety.found=wheel'],
    ['the bars are new and the stem bolts were torqued', 'safety.found=loose'],
    ['no oil on the stanchions', 'safety.found=leak'],
    ['the compression knob came off in my hand', 'comp-place@either=open'],
    ['grips slipped on the bar', 'safety.found=loose'],
  ])('%s: not %s', (said, answer) => {
    expect(offers(said)).not.toContain(answer);
  });
});

describe('what a workshop hears every day', () => {
  it.each([
    ['slow coming up even with the rebound fully open', 'push-return@either=creeps'],
    ['gets harsher with every hit', 'repeated-hits.trend@either=worse'],
    ['each bump is harder than the last', 'repeated-hits.trend@either=worse'],
    ['front goes up as the rear goes down', 'pitching=rocks'],
    ['nasty bottom-out clunk', 'bottoming@either=hard'],
    ['it lands, stands straight back up', 'landing@either=bounced'],
    ['sticks and lets go', 'stiction@either=sticky'],
    ['the rear goes stiff under the brake', 'brake-rear=skips'],
    ['worse the faster I go', 'speed=fast'],
  ])('%s: %s', (said, answer) => {
    expect(offers(said)).toContain(answer);
  });
});
