import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/form/problem.ts';
import { compileTexts, PACK, rulesOf } from '../support/compile-text.ts';
import { SMALL as RULES } from '../support/small-rules.ts';

const CHECKS = `
checks:
  - name: slow
    for: [front, rear]
    given: {"row.trend@{end}": worse}
    expect: {first: "{end}.rebound.low.too-slow"}
`;

function problems(rules: string, more: Record<string, string> = {}): string[] {
  return compileTexts({ 'a.yaml': rules, ...more }).problems.map(problemLine);
}

describe('compiling', () => {
  it('makes one entry an end, with every placeholder filled in', () => {
    const rules = rulesOf({ 'a.yaml': RULES });
    expect(rules.questions.map((q) => q.id)).toEqual([
      'pattern',
      'row.trend@front',
      'row.trend@rear',
      'row.trend@either',
    ]);
    expect(rules.questions[2]!.ask).toBe('Each hit at the rear?');
    expect(rules.questions[3]).toMatchObject({
      ask: 'Each hit at the front or rear?',
      either: [1, 2],
      links: [],
    });
    expect(rules.causes.map((c) => c.id)).toEqual([
      'front.rebound.low.too-slow',
      'front.rebound.low.too-fast',
      'rear.rebound.low.too-slow',
      'rear.rebound.low.too-fast',
    ]);
  });
  it('begins a question with a capital, also where it begins with the end', () => {
    const rules = rulesOf({
      'a.yaml': RULES.replace('ask: Each hit at the {end}?', 'ask: "{end}: each hit?"'),
    });
    expect(rules.questions[2]!.ask).toBe('Rear: each hit?');
  });
  it('scales the priors so that they add up to the expected number of causes, in proportion to their words', () => {
    const { causes } = rulesOf({ 'a.yaml': RULES });
    expect(causes.reduce((s, c) => s + c.prior, 0)).toBeCloseTo(1, 12);
    expect(causes[0]!.prior / causes[1]!.prior).toBeCloseTo(0.725 / 0.25, 12);
  });
  it('expands a check for both ends', () => {
    const { checks } = compileTexts({ 'a.yaml': RULES, 'a.checks.yaml': CHECKS });
    expect(checks.map((c) => c.expect.first)).toEqual([
      'front.rebound.low.too-slow',
      'rear.rebound.low.too-slow',
    ]);
  });
  it('lets a later pack replace an entry by id and keep the rest', () => {
    const mine = RULES.slice(RULES.indexOf('  - id: row.trend'), RULES.indexOf('adjustments:')).replaceAll(
      'usually}}',
      'always}}',
    );
    const rules = rulesOf({ 'a.yaml': RULES }, { 'mine.yaml': `questions:\n${mine}` });
    expect(rules.questions.find((q) => q.id === 'row.trend@rear')!.links[0]![2]).toBeCloseTo(0.997, 12);
    expect(rules.questions.map((q) => q.id)).toContain('pattern');
    expect(rules.packs.map((p) => p.name)).toEqual(['test', 'test1']);
  });
  it('lets a later pack replace one number of what is near a target and keep the rest', () => {
    const first = `${PACK}sheet-check: {near: {sag: 3, tyre: 8}}\n`;
    const later = `pack: mine\nversion: 1.0.0\nabout: mine\nsheet-check: {near: {sag: 1}}\n`;
    const { near } = rulesOf({ 'pack.yaml': first, 'a.yaml': RULES }, { 'pack.yaml': later }).sheetCheck;
    // The last is what counts where no pack says so.
    expect([near.sag, near.tyre, near.pressure]).toEqual([1, 8, 5]);
  });
});

describe('what is wrong with a line', () => {
  // Each row: what is done to the good rules, and the whole message that must come out.
  it.each([
    [
      'an unknown cause',
      ['"{end}.rebound.low.too-slow": usually', '"{end}.rebound.low.to-slow": usually'],
      'a.yaml:44:25: error: No cause front.rebound.low.to-slow. Did you mean front.rebound.low.too-slow? [unknown-id]',
    ],
    [
      'an unknown word',
      ['usually: {worse: rarely}', 'usually: {worse: rarly}'],
      'a.yaml:43:22: error: rarly is not a word of the scale. Did you mean rarely? [unknown-word]',
    ],
    [
      'a misspelt key',
      ['    topic: row', '    topics: row'],
      'a.yaml:39:5: error: questions › row.trend: topics is not known here. Did you mean topic? [shape]',
    ],
    [
      'a missing key',
      ['    topic: row\n', ''],
      'a.yaml:31:5: error: questions › row.trend: topic is missing. Name the impression it is answered from; questions of one topic share their trust. [shape]',
    ],
    [
      'a missing text without a lesson of its own',
      ['    ask: One hit or a row?\n', ''],
      'questions › pattern: ask is missing. Add ask: (a text). [shape]',
    ],
    [
      'a missing choice',
      ['    kind: click\n', ''],
      'adjustments › {end}.rebound.low.open: kind is missing. Add kind: one of click, pressure,',
    ],
    [
      'a number out of bounds',
      ['minutes: 1\n', 'minutes: -1\n'],
      'adjustments › {end}.rebound.low.open › minutes: found -1, expected 0 or more. Say what it costs, in minutes',
    ],
    [
      'a source that is neither word nor title',
      ['    source: {title: A handbook, year: 2007}\n', '    source: hearsay\n'],
      'source: found "hearsay", expected one of common-practice, from-memory, or a map.',
    ],
    [
      'a gate on an answer that is none',
      ['only-if: {pattern: [row]}', 'only-if: {pattern: [rows]}'],
      'error: pattern has no answer rows. Did you mean row? [gate-shut]',
    ],
    [
      'a gate on no question',
      ['only-if: {pattern: [row]}', 'only-if: {patern: [row]}'],
      'The gate asks for patern, which is no question. Did you mean pattern? [unknown-id]',
    ],
    [
      'a cause behind the default',
      ['points-to: {worse:', 'points-to: {same:'],
      'same is the default of row.trend@front, so it cannot point to a cause.',
    ],
    [
      'a default that is no answer',
      ['default: same', 'default: sam'],
      'The default sam is not an answer. Did you mean same? [unknown-id]',
    ],
    [
      'a wrong when-several',
      ['when-several: cancel', 'when-several: cancle'],
      'cancle is neither cancel, any nor an answer. Use cancel, any, or one of same, worse. [bad-several]',
    ],
    [
      'a placeholder without an end',
      ['ask: One hit or a row?', 'ask: One hit at the {end}?'],
      '{end} has no meaning here. Add for: [front, rear], or write the end out. [bad-template]',
    ],
    [
      'a wrong choice',
      ['how: recall\n    minutes: 0.3\n    only-if', 'how: recal\n    minutes: 0.3\n    only-if'],
      'found "recal", expected one of recall, stand, ride. Did you mean recall? [shape]',
    ],
    [
      'ends that are no list',
      ['for: [front, rear]', 'for: both'],
      'for: found "both", expected a list. Write for: [front, rear], or one of them; leave it out where it has no end. [shape]',
    ],
    [
      'a wrong type',
      ['minutes: 1\n', 'minutes: one\n'],
      'adjustments › {end}.rebound.low.open › minutes: found "one", expected a number.',
    ],
    [
      'a direction that does not exist',
      ['moves: {"{end}.rebound.low": too-fast}', 'moves: {"{end}.rebound.low": faster}'],
      'front.rebound.low has no direction faster.',
    ],
    [
      'an unknown caution',
      ['cautions: [stops]', 'cautions: [stop]'],
      'No caution stop. Did you mean stops? [unknown-id]',
    ],
    [
      'an unknown caution of what is likely',
      ['prior: sometimes, reads: high', 'prior: sometimes, reads: high, while-likely: {front: stop}'],
      'No caution stop. Did you mean stops? [unknown-id]',
    ],
    [
      'an answer that every question has by itself',
      ['answers: {same: same, worse: worse}', 'answers: {same: same, worse: worse, cannot-tell: no idea}'],
      'error: cannot-tell is an answer of every question by itself, and never a sign. Give this answer another id. [shape]',
    ],
    [
      'a change of no setting',
      ['change: {setting: "{end}.rebound.low"', 'change: {setting: "{end}.rebound.lo"'],
      'No setting front.rebound.lo. Did you mean front.rebound.low? [unknown-id]',
    ],
    [
      'a move of no setting',
      ['moves: {"{end}.rebound.low"', 'moves: {"{end}.rebound.lo"'],
      'No setting front.rebound.lo. Did you mean front.rebound.low? [unknown-id]',
    ],
    [
      'a rung that is none',
      ['    way-back: close it\n', '    next: ["{end}.rebound.low.opn"]\n    way-back: close it\n'],
      'No adjustment front.rebound.low.opn. Did you mean front.rebound.low.open? [unknown-id]',
    ],
    [
      'a fix of no cause',
      ['    way-back: close it\n', '    fixes: {"{end}.rebound.low.to-slow": 1}\n    way-back: close it\n'],
      'No cause front.rebound.low.to-slow. Did you mean front.rebound.low.too-slow? [unknown-id]',
    ],
    [
      'a missing base rate',
      ['    usually: {worse: rarely}\n', ''],
      'row.trend@front: how often a rider with nothing off reports worse is missing. Add worse: rarely (or another word) under usually:. [probability]',
    ],
    [
      'a retired rule without heir',
      [
        '    source: {title: A handbook, year: 2007}\n    status: trial',
        '    source: {title: A handbook, year: 2007}\n    status: retired',
      ],
      'row.trend@front is retired and names no heir.',
    ],
  ])('%s', (_, [from, to], expected) => {
    expect(RULES).toContain(from);
    expect(problems(RULES.replace(from!, to!)).join('\n')).toContain(expected);
  });

  it.each([
    [
      'a phrase for no question',
      'words:\n  - {id: w, says: [packs down], could-be: [{question: "row.trnd@{end}", answer: worse}], source: common-practice}\n',
      'No question row.trnd@{end}. Did you mean row.trend@{end}? [unknown-id]',
    ],
    [
      'a phrase for no answer',
      'words:\n  - {id: w, says: [packs down], could-be: [{question: "row.trend@{end}", answer: wors}], source: common-practice}\n',
      'row.trend@{end} has no answer wors. Did you mean worse? [unknown-id]',
    ],
    [
      'a phrase with a concept that is like no other',
      'words:\n  - {id: w, says: [<plunging> down], could-be: [{question: "row.trend@{end}", answer: worse}], source: common-practice}\n',
      'No concept plunging. Say its words under concepts:, or name one that is there. [unknown-id]',
    ],
    ...['unless: [number]', 'number: {to: 3}', 'weak: all'].map((also): [string, string, string] => [
      `a phrase across commas with ${also}`,
      `words:\n  - {id: w, says: [packs down], across: true, ${also}, could-be: [{question: "row.trend@{end}", answer: worse}], source: common-practice}\n`,
      `${also.replace(/ .*/, '')} is not looked at where across: true lets the words stand anywhere in a sentence. Leave out ${also.replace(/ .*/, '')}, or make a phrase without across: of it. [shape]`,
    ]),
    [
      'a phrase that no question separates',
      'words:\n  - {id: w, says: [harsh], ambiguous: true, separates: [patern], source: common-practice}\n',
      'No question patern. Did you mean pattern? [unknown-id]',
    ],
    [
      'readings judged of no question',
      'heard:\n  - {id: row.trnd, right: 3, wrong: 1}\n',
      'No question row.trnd. Did you mean row.trend? [unknown-id]',
    ],
    [
      'an opening of no topic',
      'openings:\n  - {id: o, say: it packs, plain: it packs, topics: [rows]}\n',
      'No question has the topic rows. Did you mean row? [unknown-id]',
    ],
    [
      'an opening that answers no question',
      'openings:\n  - {id: o, say: it packs, plain: it packs, topics: [row], answers: {patern: row}}\n',
      'No question patern. Did you mean pattern? [unknown-id]',
    ],
    [
      'an opening with no answer',
      'openings:\n  - {id: o, say: it packs, plain: it packs, topics: [row], answers: {pattern: rows}}\n',
      'pattern has no answer rows. Did you mean row? [unknown-id]',
    ],
  ])('%s', (_, words, expected) => {
    expect(problems(RULES, { 'b.yaml': words })).toEqual([expect.stringContaining(expected)]);
  });

  it('tells a misspelt move once, not also that nothing is moved', () => {
    const misspelt = RULES.replace('moves: {"{end}.rebound.low"', 'moves: {"{end}.rebound.lo"');
    expect(problems(misspelt)).toHaveLength(1);
    const none = problems(RULES.replace('    moves: {"{end}.rebound.low": too-fast}\n', ''));
    expect(none.join('\n')).toContain('front.rebound.low.open moves nothing and fixes nothing.');
  });

  it('finds a cycle of gates', () => {
    const cycle = RULES.replace(
      '    topic: pattern\n',
      '    only-if: {"row.trend@front": [worse]}\n    topic: pattern\n',
    );
    expect(problems(cycle).join('\n')).toContain(
      'These questions wait for each other: pattern → row.trend@front → pattern. Take one of the gates away. [gate-cycle]',
    );
  });
  it('finds an id that stands twice in one pack, and names the first place', () => {
    const twice = problems(RULES, {
      'b.yaml':
        'cautions:\n  - {id: stops, level: care, text: x, show: with, source: common-practice, status: trial}\n',
    });
    expect(twice).toEqual([
      'b.yaml:2:10: error: The id stops stands twice in the pack test; first at a.yaml:63. Give one of them an id of its own. [duplicate-id]',
    ]);
  });
  it('reports all problems of all files together, sorted by place', () => {
    const found = problems(
      RULES.replace('usually: {worse: rarely}', 'usually: {worse: rarly}').replace(
        'cautions: [stops]',
        'cautions: [stop]',
      ),
      {
        'b.checks.yaml':
          'checks:\n  - {name: x, given: {patern: row}, expect: {first: front.rebound.low.fast}}\n',
      },
    );
    expect(found.map((line) => line.replace(/: error.*\[/, ' ['))).toEqual([
      'a.yaml:43:22 [unknown-word]',
      'a.yaml:59:16 [unknown-id]',
      'b.checks.yaml:2:23 [unknown-id]',
      'b.checks.yaml:2:53 [unknown-id]',
    ]);
  });
  it.each([
    [
      'a key that stands twice',
      'questions: []\nquestions: []\n',
      'a.yaml:2:1: error: This key is here twice. Keep one of the two. [duplicate-key]',
    ],
    ['a tab', 'questions:\n\t- x\n', 'a.yaml:2:1: error: This line begins with a tab.'],
    [
      'an alias bomb',
      `a: &a [x, x, x, x, x, x, x, x, x]\nb: &b [*a, *a, *a, *a, *a, *a, *a, *a, *a]\nc: &c [*b, *b, *b, *b, *b, *b, *b, *b, *b]\nd: [*c, *c, *c, *c, *c, *c, *c, *c, *c]\n`,
      'The aliases of this file expand without bound.',
    ],
    ['very deep nesting', '['.repeat(20_000), 'a.yaml'],
  ])('%s', (_, text, expected) => {
    expect(problems(text).join('\n')).toContain(expected);
  });
  it('refuses a run without any rule', () => {
    expect(compileTexts({ 'a.yaml': '{}' }).problems.map((p) => p.code)).toEqual(['no-rules']);
  });
  it('refuses a pack that leaves out a number', () => {
    expect(
      compileTexts({ 'pack.yaml': PACK.replace(/ {2}fit: .*\n/, ''), 'a.yaml': RULES }).problems.map(
        (p) => p.message,
      ),
    ).toContain('pack.yaml: numbers › fit is missing.');
  });
});
