/** A small pack with phrases of every sort: for one end, for both, ambiguous, denied, and with alternatives. */
export const PHRASES = `
settings:
  - id: "{end}.rebound.low"
    for: [front, rear]
    name: "{end} rebound"
    plain: how fast the {end} comes back
    kind: damper
    source: common-practice
    status: trial
    directions:
      too-slow: {name: slow, plain: slow, prior: often}
      too-fast: {name: fast, plain: fast, prior: sometimes}
questions:
  - id: pattern
    ask: One hit or a row?
    plain: One hit or a row?
    help: Think.
    how: recall
    minutes: 0.3
    topic: pattern
    answers: {neither: neither, one: one, row: a row}
    default: neither
    when-several: any
    usually: {one: rarely, row: rarely}
    points-to: {row: {"front.rebound.low.too-slow": usually}, one: {"front.rebound.low.too-fast": usually}}
    confusable-with: [{id: "kick@front", tell: ask again}]
    source: common-practice
    status: trial
  - id: kick
    for: [front, rear]
    ask: Does the {end} kick?
    plain: Does the {end} kick?
    help: Think.
    how: recall
    minutes: 0.3
    topic: kick
    answers: {'no': no, kicks: it kicks}
    default: 'no'
    when-several: cancel
    usually: {kicks: rarely}
    points-to: {kicks: {"{end}.rebound.low.too-fast": usually}}
    confusable-with: [{id: pattern, tell: ask again}]
    source: common-practice
    status: trial
  - id: height
    for: [front, rear]
    ask: Does the {end} ride high or low?
    plain: Does the {end} ride high or low?
    help: Look.
    how: recall
    minutes: 0.3
    topic: height
    answers: {right: right, high: high, low: low}
    default: right
    when-several: cancel
    usually: {high: rarely, low: rarely}
    points-to:
      high: {"{end}.rebound.low.too-fast": usually}
      low: {"{end}.rebound.low.too-slow": usually}
    confusable-with: [{id: pattern, tell: ask again}]
    source: common-practice
    status: trial
  - id: noise
    ask: Any knock?
    plain: Any knock?
    help: Listen.
    how: stand
    minutes: 1
    topic: noise
    answers: {none: none, front: front, rear: rear, both: both}
    default: none
    when-several: both
    usually: {front: never, rear: never}
    points-to: {front: {"front.rebound.low.too-fast": often}, rear: {"rear.rebound.low.too-fast": often}}
    confusable-with: [{id: pattern, tell: ask again}]
    source: common-practice
    status: trial
  - id: leak
    ask: Any leak?
    plain: Any leak?
    help: Look.
    how: stand
    minutes: 1
    topic: leak
    safety: true
    answers: {none: none, leaks: it leaks}
    default: none
    when-several: cancel
    usually: {leaks: never}
    points-to: {leaks: {"front.rebound.low.too-fast": often}}
    confusable-with: [{id: noise, tell: ask again}]
    source: common-practice
    status: trial
end-names:
  - {id: front, names: [fork], parts: [nose], hints: [bars]}
  - {id: rear, names: [shock], parts: [tail], hints: [saddle]}
concepts:
  - {id: falls, words: [plunges, goes down, gives way]}
  - {id: in-turns, where: true, words: [corners, out of turns]}
  - {id: knobs, masks: true, words: [corners knob]}
  - {id: thrown, same: true, words: [bucks, tosses]}
  - {id: praise, words: [lovely, no complaint]}
words:
  - id: wobbly
    weak: question
    unless: [praise]
    says: [wobbly]
    could-be: [{question: "height@{end}", answer: high}]
    source: common-practice
  - id: muddy
    weak: all
    says: [muddy]
    could-be: [{question: pattern, answer: one}]
    source: common-practice
  - id: fine-then-not
    across: true
    says: [<praise> falls/sinks]
    could-be: [{question: "height@{end}", answer: low}]
    source: common-practice
  - id: falls-in-turns
    says: [<falls> <in-turns>]
    could-be: [{question: "height@{end}", answer: low}]
    source: common-practice
  - id: uses-half
    says: [uses <number> <number>]
    number: {to: 60, of: true}
    could-be: [{question: "height@{end}", answer: high}]
    source: common-practice
  - id: shoots-back
    says: [shoots back up]
    could-be: [{question: "height@{end}", answer: high}]
    source: common-practice
  - id: leaks
    says: [leaks, dripping]
    could-be: [{question: leak, answer: leaks}]
    source: common-practice
  - id: harsh
    says: [harsh, rough feel]
    ambiguous: true
    means: [it packs down in a row, it kicks on one hit]
    separates: [pattern, "kick@{end}"]
    could-be: [{question: pattern, answer: row}, {question: pattern, answer: one}]
    source: common-practice
  - id: kicks
    says: [kicks, bucks]
    could-be: [{question: "kick@{end}", answer: kicks}]
    source: common-practice
  - id: kicks-alone
    says: [kicks/bucks on a lone/single bump/hit/root]
    could-be: [{question: pattern, answer: one}, {question: "kick@{end}", answer: kicks}]
    source: common-practice
  - id: sits-low
    says: [sits low, sinks into its travel]
    could-be: [{question: "height@{end}", answer: low}]
    source: common-practice
  - id: right-height
    says: [stands level]
    could-be: [{question: "height@{end}", answer: right}]
    source: common-practice
  - id: no-return
    says: [does not come back up]
    could-be: [{question: "height@{end}", answer: low}]
    source: common-practice
  - id: knocks
    says: [knocks, clunks]
    could-be: [{question: noise, answer: front}, {question: noise, answer: rear}, {question: noise, answer: both}]
    source: common-practice
  - id: nose-high
    says: [front high]
    could-be: [{question: "height@front", answer: high}]
    source: common-practice
`;
