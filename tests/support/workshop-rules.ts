/** A rule base of four settings, two at each end, small enough to learn from hundreds of cases in a second. */

const question = (
  id: string,
  topic: string,
  signs: string,
  usually: string,
  pointsTo: string,
  several = 'cancel',
): string => `
  - id: ${id}
    for: [front, rear]
    ask: ${id} at the {end}?
    plain: ${id} at the {end}?
    help: Think of the last run.
    how: recall
    minutes: 0.3
    topic: ${topic}
    answers: {none: nothing, ${signs}}
    default: none
    when-several: ${several}
    usually: {${usually}}
    points-to: {${pointsTo}}
    confusable-with: [{id: "{end}.spring.too-soft", tell: measure the sag}]
    source: common-practice
    status: trial`;

const setting = (id: string, kind: string, a: string, b: string): string => `
  - id: "{end}.${id}"
    for: [front, rear]
    name: "{end} ${id}"
    plain: the ${id}
    kind: ${kind}
    source: common-practice
    status: trial
    directions:
      ${a}: {name: "{end} ${id} ${a}", plain: ${a}, prior: often}
      ${b}: {name: "{end} ${id} ${b}", plain: ${b}, prior: sometimes}`;

const adjustment = (id: string, name: string, toward: string, change: string): string => `
  - id: "{end}.${id}"
    for: [front, rear]
    do: ${id} at the {end}
    plain: Turn it
    kind: click
    change: ${change}
    minutes: 1
    moves: {"{end}.${name}": ${toward}}
    way-back: turn it back
    feel: how it comes back
    cautions: []
    source: common-practice
    status: trial`;

export const WORKSHOP = `
settings:${setting('rebound.low', 'damper', 'too-slow', 'too-fast')}${setting('spring', 'spring', 'too-soft', 'too-firm')}
questions:${question('packs', 'row', 'worse: worse', 'worse: rarely', 'worse: {"{end}.rebound.low.too-slow": usually, "{end}.spring.too-soft": sometimes}')}${question('kicks', 'lip', 'kicks: kicks', 'kicks: rarely', 'kicks: {"{end}.rebound.low.too-fast": often, "{end}.spring.too-firm": sometimes}')}${question('height', 'height', 'low: low, high: high', 'low: rarely, high: rarely', 'low: {"{end}.spring.too-soft": often, "{end}.rebound.low.too-slow": sometimes}, high: {"{end}.spring.too-firm": often}')}${question('travel', 'travel', 'all: all, little: little', 'all: sometimes, little: rarely', 'all: {"{end}.spring.too-soft": usually}, little: {"{end}.spring.too-firm": usually, "{end}.rebound.low.too-slow": sometimes}', 'any')}${question('feel', 'feel', 'dead: dead, lively: lively, both: both', 'dead: rarely, lively: sometimes', 'dead: {"{end}.rebound.low.too-slow": often}, lively: {"{end}.rebound.low.too-fast": usually}', 'both')}
adjustments:${adjustment('rebound.low.open', 'rebound.low', 'too-fast', '{setting: "{end}.rebound.low", by: 2, unit: clicks}')}${adjustment('rebound.low.close', 'rebound.low', 'too-slow', '{setting: "{end}.rebound.low", by: -2, unit: clicks}')}${adjustment('spring.firmer', 'spring', 'too-firm', '{setting: "{end}.spring", by: 5, unit: psi}')}${adjustment('spring.softer', 'spring', 'too-soft', '{setting: "{end}.spring", by: -5, unit: psi}')}
`;
