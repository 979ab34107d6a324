/** Invented sentences, as riders speak, and all that the built-in pack offers for each. */
import { expect, it } from 'vitest';
import { baseMatcher } from '../support/base-rules.ts';

const matcher = baseMatcher();

/** question=answer for what is offered, ?phrase@end for an ambiguous one, !phrase for a denied one that offers nothing. */
function heard(said: string): string {
  const parts = matcher.match(said).flatMap((r) => {
    if (r.ambiguous)
      return [r.negated ? `!${r.phrase}` : `?${r.phrase}${r.end === undefined ? '' : `@${r.end}`}`];
    if (r.candidates.length === 0) return [`!${r.phrase}`];
    return r.candidates.map((c) => `${c.question}=${c.answer}`);
  });
  return [...new Set(parts)].join(' ');
}

const SENTENCES: readonly (readonly [said: string, offered: string])[] = [
  ['The front dives hard when I touch the brakes', 'trouble-end=front brake-dive=dives'],
  [
    'Fork is fine over one root, but the long rooty bit beats my hands up',
    'lone-hit.kick@front=no hit-pattern=row ?beats-me-up@front trouble-end=front',
  ],
  [
    'first bumps are ok, every later one is harsher at the rear',
    'hit-pattern=row repeated-hits.trend@rear=worse trouble-end=rear',
  ],
  ['It bucked me', '?bucked'],
  ['The rear kicked me off the lip and I nearly went over', 'trouble-end=rear complaint=air lip=rear-over'],
  [
    'Comes out of a berm and the front rises and runs wide',
    'berm-exit=wide turn-phase=exit trouble-end=front flat-turn.front=pushes',
  ],
  [
    'In berms the rear sinks and is slow to come up',
    'berm-entry@rear=sinks trouble-end=rear push-return@rear=creeps g-out@rear=slow',
  ],
  ['The bars feel too high', 'bars-feel=high'],
  ['bars too low and the front dives', 'bars-feel=low brake-dive=dives trouble-end=front ?sinks@front'],
  ['Nervous, never planted, no grip', '?nervous liveliness@either=nervous grip@either=little ?no-grip'],
  [
    'The whole bike feels dead and glued to the ground',
    'liveliness@front=dead liveliness@rear=dead lift@front=hard lift@rear=hard',
  ],
  ['My forearms burn on long steep tracks', 'hands=fingers arms-steep=give-out'],
  ['arm pump every run', 'complaint=arms arms-steep=give-out hands=fingers'],
  ['Every pebble comes straight to my hands', 'trouble-end=front chatter@front=through'],
  [
    'one sharp jolt on square edges at the front, with travel left',
    'square-edge@front=spike hit-pattern=one trouble-end=front travel-ring@front=unused',
  ],
  [
    'The shock bottoms out on landings',
    'trouble-end=rear bottom-where@rear=fast landing@rear=hits bottoming@rear=hard',
  ],
  ['It never uses full travel', 'travel-ring@either=short !travel-all-used'],
  [
    'rear skips under braking on the braking bumps',
    'brake-rear=skips trouble-end=rear hit-pattern=row repeated-hits.trend@rear=skips',
  ],
  ['The front pushes wide in flat turns', 'trouble-end=front flat-turn.front=pushes'],
  ['It bobs when I pedal', 'pedal=bobs trouble-end=rear'],
  [
    "There's a clunk when I lift the front wheel",
    'knock-when=light lift-clunk@front=clunk top-out-riding@front=clunk trouble-end=front',
  ],
  ['The fork clunks', 'trouble-end=front ?clunks@front'],
  ['Bounces twice after a kerb at the back', 'kerb-drop@rear=bounces trouble-end=rear'],
  [
    'the fork creeps back up when I push it by hand',
    'trouble-end=front push-return@front=creeps g-out@front=slow',
  ],
  ['fine at the top, worse to the bottom', 'run-trend=bottom'],
  ["Only happens when I'm seated", 'tense=yes'],
  ['I changed two clicks of rebound yesterday', 'recent-change=setting'],
  ['New bars since last week', 'recent-change=cockpit'],
  ['There is oil on the stanchion', 'safety.found=leak trouble-end=front'],
  ['no harshness at the front', 'harsh-where@front=nowhere !harsh'],
  ["The rear doesn't kick anymore", 'lone-hit.kick@rear=no !bucked'],
  ['It never bottoms', 'bottoming@either=rarely'],
  ['not bucking anymore', 'lone-hit.kick@either=no !bucked'],
  ['Both ends feel harsh', 'trouble-end=both'],
  [
    'front and rear pack down',
    'hit-pattern=row repeated-hits.depth@front=deeper repeated-hits.depth@rear=deeper',
  ],
  ['fork feels stiff but the shock is too soft', 'trouble-end=front ?stiff@front ?soft@rear'],
  [
    'the front is harsh, the rear kicks on a lone root',
    '?harsh@front hit-pattern=one lone-hit.kick@rear=kicks',
  ],
  ['the frok dives', 'brake-dive=dives trouble-end=front ?sinks@front'],
  ['Harhs on sqaure edges', 'square-edge@either=spike hit-pattern=one kick-when@either=on-hit'],
  ['The suspenion is bouncey', '?bouncy liveliness@either=bouncy'],
  ["I don't like how the rear kicks off jumps", 'lip=rear-over trouble-end=rear complaint=air'],
  [
    'back end kicks me off the jumps and it bangs on landings',
    'trouble-end=rear lip=rear-over ?bucked@rear bottom-where@rear=fast landing@rear=hits bottoming@rear=hard',
  ],
  ["can't hold on to the bars", 'arms-steep=give-out hands=fingers'],
  ['my palms hurt', 'trouble-end=front hands=palms'],
  ['tyres are rock hard', 'tyre-pressure@either=over tyre-feel@either=pings tyre-target@either=over'],
  ['The rear steps out in corners', 'flat-turn.rear=steps trouble-end=rear'],
  ['the rear slides in flat corners', 'trouble-end=rear flat-turn.rear=lets-go'],
  ['it folds in turns, the front tyre', 'flat-turn.front=tucks berm-entry@either=sinks trouble-end=front'],
  ['shock feels like a pogo stick', 'trouble-end=rear liveliness@rear=bouncy'],
  ['rear end sits low', 'complaint=low trouble-end=rear ride-height@rear=low'],
  ['front end rides too high', 'trouble-end=front ride-height@front=high'],
  ['nose low, tail high', 'ride-height@front=low balance=nose'],
  ['sag is spot on at both ends', 'sag@front=target sag@rear=target'],
  ['It gets better after a break', 'after-rest=better'],
  ['hard to bunnyhop', 'lift@either=hard'],
  [
    'pushed forward onto the bars after every bump',
    'steep-push=pushed trouble-end=front chatter@front=through',
  ],
  ['it hits a wall before the end of its travel', 'deep-travel@either=wall'],
  ['lands hard and hurts my ankles', 'landing@rear=hard trouble-end=rear'],
  ['after landing it bounces back up', 'complaint=air landing@either=bounced'],
  [
    'packing up in rock gardens',
    'hit-pattern=row repeated-hits.depth@either=deeper repeated-hits.trend@either=worse',
  ],
  ['front wanders on climbs', 'climb=wanders'],
  ['the weather was lovely and my friend broke his chain', ''],
  ['the levers are too far away', 'lever-fit=poor'],
  ['brakes are spongy', 'safety.brakes=spongy brake-feel=spongy'],
  ["it isn't harsh and it doesn't dive", 'harsh-where@either=nowhere !harsh brake-dive=no !sinks'],
  ["doesn't hold its line out of corners", 'berm-exit=wide turn-phase=exit'],
  ['the rear tracks well', 'follows@rear=follows'],
  [
    'Soaks up landings but kicks in a row of roots',
    'landing@either=soaked hit-pattern=row repeated-hits.trend@either=worse',
  ],
  ['same spot every lap', 'one-spot=spot'],
  ['rebound fully open at the rear', 'knob-place@rear=open trouble-end=rear'],
  ['sketchy', '?sketchy'],
  ['unbalanced', '?unbalanced'],
  [
    'the front washes out and the rear feels dead',
    'flat-turn.front=washes trouble-end=rear liveliness@rear=dead',
  ],
  ['On fast corners the front tucks', 'speed=fast flat-turn.front=tucks trouble-end=front'],
  ['braking bumps kill my hands', 'trouble-end=front brake-front=harsh'],
  ['my hands go numb', 'trouble-end=front hands=numb'],
  ['stiff until warm', 'push-return@either=creeps warm-return@either=freely'],
  ['It is too progressive', 'deep-travel@either=wall'],
  [
    'it gets harsher with every hit at the back until it kicks',
    'hit-pattern=row repeated-hits.trend@rear=worse lone-hit.kick@rear=kicks trouble-end=rear',
  ],
  [
    'Each root is worse than the one before at the front end',
    'trouble-end=front hit-pattern=row repeated-hits.trend@front=worse change-effect=worse',
  ],
  ['Went over the bars on a steep chute', 'trouble-end=front ?tips-forward@front'],
  ['The shock is slow coming back out of a g-out', 'trouble-end=rear g-out@rear=slow'],
  ['fork springs up after compressions', 'trouble-end=front g-out@front=springs push-return@front=springs'],
  [
    'Rear end jacks up when braking',
    'trouble-end=rear brake-dive=dives steep-push=pushed ride-height@rear=high',
  ],
  ['We ran a big descent and by the bottom my arms were wrecked', 'arms-steep=give-out'],
  [
    'Skips across the tops of the braking bumps at the front',
    '?chattery@front hit-pattern=row repeated-hits.trend@front=skips trouble-end=front brake-front=skates',
  ],
  ['Nose drops in the air', 'lip=rear-over'],
  ['lands front wheel first', 'lip=rear-over trouble-end=front'],
  ['The rear is bucking me off every lip', 'trouble-end=rear complaint=air lip=rear-over'],
  ['Feels like riding in mud', 'liveliness@either=dead'],
  ['tyre hits the rim', 'tyre-feel@either=folds'],
  ['tyre pressure is too high in the rear', 'tyre-pressure@rear=over tyre-target@rear=over trouble-end=rear'],
  ['headset has play', 'trouble-end=front headset-check=loose safety.found=loose safety.noise=front'],
  ['The rebound knob does nothing', 'knob-effect@either=none'],
  ['Hardly any brake left', 'safety.brakes=weak'],
  ['Hardly any air left in the rear tyre', 'tyre-pressure@rear=under trouble-end=rear'],
  ['The clicks are different since the service', 'since-service=moved recent-change=service'],
  ['The bars are bent since I crashed', 'crash-check=bent safety.found=crack recent-change=crash safety.found=crashed'],
  ['None of the knobs do anything', 'knob-effect@either=none'],
  ['Hardly any knobs', ''],
  ['No knobs left on the front tyre', 'tread-check@front=worn trouble-end=front'],
  ['Hardly any tread left on the rear tyre', 'tread-check@rear=worn trouble-end=rear'],
  ['rear shock leaks oil', 'safety.found=leak trouble-end=rear safety.noise=rear'],
  ['The fork gurgles', 'trouble-end=front noises@front=slurp complaint=noise'],
  ['Hands hurt', 'trouble-end=front hands=all'],
  ['I stiffen up and then it happens', 'tense=yes'],
  ['Stays down after a kerb', 'kerb-drop@either=low'],
  ['we took two spacers out of the fork', 'spacers@front=fewer trouble-end=front'],
  ['added a volume spacer to the shock', 'recent-change=spacer trouble-end=rear'],
  ['brake lever touches the bar', 'safety.brakes=spongy brake-feel=spongy'],
  [
    'it rides low because it does not come back between bumps',
    'complaint=low ride-height@either=low repeated-hits.depth@either=deeper',
  ],
  ['The front is too low and the rear too high', 'ride-height@front=low balance=nose ride-height@rear=high'],
  ["it's stiff at the start of the travel", 'harsh-where@either=first'],
  ['harsh deep in travel', 'harsh-where@either=deep'],
  ['the fork falls through the middle', 'trouble-end=front deep-travel@front=through'],
  ['it is never unsettled', '!sketchy'],
  [
    'the rear end never kicks but the fork is harsh',
    'lone-hit.kick@rear=no !bucked trouble-end=front ?harsh@front',
  ],
  ['without harshness', 'harsh-where@either=nowhere !harsh'],
  ["I can't say it dives", 'brake-dive=no !sinks'],
  ["fork isn't stiff, just noisy", '!stiff complaint=noise'],
  ["There's no problem with the front, the rear bounces", '!front-is-it trouble-end=rear ?bouncy@rear'],
  ['hardly bottoms out', 'bottoming@either=rarely'],
  [
    'Rear wheel kicks up on single roots, front is fine',
    'trouble-end=rear lone-hit.kick@rear=kicks hit-pattern=one',
  ],
  ["my mate's bike is great", ''],
  ['bike was washed', ''],
  ['I brake late and jump far', ''],
  ['fast section with a hard landing', 'speed=fast'],
  ['we have rocks, roots and rollers here', ''],
  ['We turned left after the berm', ''],
  ['seat post is stuck', ''],
  ['I had the bike serviced', 'recent-change=service'],
  ['the tyres are new', 'recent-change=tyre tread-check@either=fine'],
  [
    'When I push through a corner the rear gives way',
    'berm-entry@rear=sinks flat-turn.rear=lets-go trouble-end=rear',
  ],
  [
    'pedals strike rocks because the back end sits deep',
    'pedal-strike=strikes complaint=low trouble-end=rear ride-height@rear=low',
  ],
  ['Poor small bump sensitivity', 'chatter@either=through'],
  ['lacks small bump compliance', 'chatter@either=through'],
  ['too much rebound damping', 'g-out@either=slow'],
  ['needs more compression', 'pump@either=wallows'],
  ['no knocks, no leaks', 'knock-when=none !all-noise !found-leak'],
  ['feels all wrong', 'complaint=strange'],
  ['nothing changed', 'recent-change=none'],
  // A word that is also a name of something else: ground, braking bumps, the way down, the fire road.
  ['until the ground smooths out', ''],
  ['braking bumps are fine', '?braking-bumps'],
  ['the brakes are fine', 'brake-feel=fine'],
  [
    'back end was a plank all the way down after the long fire road',
    'trouble-end=rear liveliness@rear=wooden',
  ],
  ['now the shock squats', 'trouble-end=rear ?sinks@rear'],
  ['the fork dives now', 'brake-dive=dives trouble-end=front'],
  ['the fork is knackered', 'trouble-end=front'],
  ["I'm knackered", 'rider-today=tired'],
  ['I was knackered by run three', 'rider-today=tired'],
  ['I cased one yesterday and since then it is odd', 'recent-change=crash'],
  ["I wouldn't change a thing on it", ''],
  ["I haven't changed a thing", 'recent-change=none'],
  ['since yesterday it knocks', 'complaint=noise'],
];

it.each(SENTENCES)('%s', (said, offered) => {
  expect(heard(said)).toBe(offered);
});
