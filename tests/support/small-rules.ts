/** A small, whole rule base: two circuits' worth of causes, a gate, both ends, an adjustment, a caution. */
export const SMALL = `
settings:
  - id: "{end}.rebound.low"
    for: [front, rear]
    name: "{end} low-speed rebound"
    plain: how fast the {end} comes back
    kind: damper
    sheet: clicks
    adjuster: rebound.low
    source: common-practice
    status: trial
    directions:
      too-slow: {name: "{end} rebound too slow", plain: slow, prior: often, reads: low}
      too-fast: {name: "{end} rebound too fast", plain: fast, prior: sometimes, reads: high}
questions:
  - id: pattern
    ask: One hit or a row?
    plain: One hit or a row?
    help: Think of the last run.
    how: recall
    minutes: 0.3
    topic: pattern
    answers: {neither: neither, one: one, row: a row}
    default: neither
    when-several: any
    usually: {one: rarely, row: rarely}
    points-to: {row: {"front.rebound.low.too-slow": usually}, one: {"front.rebound.low.too-fast": usually}}
    confusable-with: [{id: "row.trend@front", tell: ask again}]
    source: common-practice
    status: trial
  - id: row.trend
    for: [front, rear]
    ask: Each hit at the {end}?
    plain: Each hit at the {end}?
    help: Ride it.
    how: recall
    minutes: 0.3
    only-if: {pattern: [row]}
    topic: row
    answers: {same: same, worse: worse}
    default: same
    when-several: cancel
    usually: {worse: rarely}
    points-to: {worse: {"{end}.rebound.low.too-slow": usually}}
    confusable-with: [{id: pattern, tell: ask again}]
    source: {title: A handbook, year: 2007}
    status: trial
adjustments:
  - id: "{end}.rebound.low.open"
    for: [front, rear]
    do: Open the {end} low-speed rebound
    plain: Turn it
    kind: click
    change: {setting: "{end}.rebound.low", by: 2, unit: clicks}
    minutes: 1
    moves: {"{end}.rebound.low": too-fast}
    way-back: close it
    feel: how it comes back
    cautions: [stops]
    source: common-practice
    status: trial
cautions:
  - {id: stops, level: care, text: Never force it., show: with, source: common-practice, status: trial}
`;
