/** Short phrases of the trade (common practice, no source), each with an answer that must be among those offered. */
import { expect, it } from 'vitest';
import { baseMatcher } from '../support/base-rules.ts';

const matcher = baseMatcher();
const offers = (said: string): string[] =>
  matcher.match(said).flatMap((r) => (r.negated ? [] : r.candidates.map((c) => `${c.question}=${c.answer}`)));

it.each([
  ['too much low speed compression', 'comp-place@either=closed'],
  ['brake jack', 'brake-rear=skips'],
  ['spikes on big compressions', 'square-edge@either=spike'],
  ['long and hard to turn', 'turn-in=slow'],
  ['front tucks in flat turns', 'flat-turn.front=tucks'],
  ['knifing', 'flat-turn.front=tucks'],
  ['headshake', 'shake=rough'],
  ['tank slapper', 'shake=rough'],
  ['blowing through its mid stroke', 'deep-travel@either=through'],
  ['lost the front end', 'flat-turn.front=washes'],
  ['rear stands up when I brake', 'brake-dive=dives'],
  ['never get the last inch', 'travel-ring@either=short'],
  ['fork loses travel', 'air-loss@front=sits'],
  ['air in damper, dead spot', 'top-stroke@either=dead'],
  ['hydraulic lock', 'repeated-hits.trend@either=stuck'],
  ['lockout left on', 'lever@either=closed'],
  ['climb switch', 'lever@either=closed'],
  ['put on ten kilos', 'load=more'],
  ['now freezing', 'weather=cold'],
  ['pressure drops overnight', 'air-loss@either=loses'],
  ['rear locks too easily', 'brake-feel=grabs'],
  ['high side', 'flat-turn.rear=steps'],
  ['rear passing me', 'flat-turn.rear=steps'],
  ['wheel hung up', 'deflect@either=deflects'],
  ['over-sprung', 'spring-for-mass@either=heavy'],
  ['under-sprung', 'spring-for-mass@either=light'],
  ['front in the sky on climbs', 'climb=lifts'],
  ['fingers tingle', 'hands=numb'],
  ['squirrelly on the brakes', 'turn-in=quick'],
  ['never more than 120 of my 160', 'travel-ring@either=short'],
  ['handlebar is shaking', 'shake=rough'],
  ['the front held but the rear washed out', 'flat-turn.rear=lets-go'],
  ['the rear gripped and the front washed out in the corner', 'flat-turn.front=washes'],
  ['it goes so hard through', 'bottoming@either=hard'],
  ['gets harsher and harsher the longer the rough bit goes on', 'repeated-hits.trend@either=worse'],
  ['oil on the stanchion and it knocks', 'safety.found=leak'],
  ['right through my hands on one square rock', 'square-edge@front=spike'],
  ['my fingers still tingle at night', 'hands=numb'],
  ['my hands tingle on fast chatter', 'chatter@front=through'],
  ['holding the brake and rocking it', 'knock-when=brake'],
  ['it knocks holding the brake and rocking the bike', 'knock-when=brake'],
  ['pedalling squares and it bobs', 'pedal=bobs'],
  ['the bars are bent since the fall', 'crash-check=bent'],
  ['the shop turned my clicks', 'since-service=moved'],
])('%s: %s', (said, answer) => {
  expect(offers(said)).toContain(answer);
});

it.each([
  ['front tucks in flat turns', 'flat-turn.front=pushes'],
  ['the front held but the rear washed out', 'flat-turn.front=washes'],
  ['long and hard to turn', 'lift@either=hard'],
  ['the weather was lovely', 'weather=cold'],
  ['one square rock at speed is like a kerb', 'pedal=bobs'],
  ['right through my hands on one square rock', 'lone-hit.kick@front=no'],
  ['the fork was good last week', 'change-effect=worse'],
  ['my fingers still tingle at night', 'chatter@either=through'],
  ['holding the brake and rocking it', 'hit-pattern=row'],
  ['it knocks holding the brake and rocking the bike', 'hit-pattern=row'],
  ['fork gets harsher over a row of braking bumps', 'knock-when=brake'],
  ['rear tyre slides in corners', 'flat-turn.front=washes'],
])('%s: not %s', (said, answer) => {
  expect(offers(said)).not.toContain(answer);
});

it.each([
  ['behind my quick mate I get arm pump', /quick/, false],
  ['the front is too quick on a steep bit', /quick/, true],
  ['holding the brake and rocking it', /brake and rocking/, false],
  ['braking bumps', /braking bumps/, true],
])('%s: whether it is asked what %s means: %s', (said, words, asked) => {
  const unclear = matcher.match(said).filter((r) => r.ambiguous && words.test(r.text));
  expect(unclear.length > 0).toBe(asked);
});

it('hears the knock beside the oil', () => {
  expect(matcher.match('oil on the stanchion and it knocks').map((r) => r.phrase)).toContain('all-noise');
});

it('remarks that a rebound too slow does not spring up', () => {
  const readings = matcher.match('rebound is too slow because it springs up after compressions');
  expect(readings.map((r) => r.clashes)).toEqual([
    ['springs up after compressions'],
    ['rebound is too slow'],
  ]);
});
