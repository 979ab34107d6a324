/** What is offered of a text, and what is left to be asked because it stands on too little. */
import { describe, expect, it } from 'vitest';
import { withoutDoubtful } from '../../src/words/choice/sure.ts';
import { buildMatcher, type Candidate, type Reading } from '../../src/words/matcher.ts';
import { baseWords } from '../support/base-rules.ts';
import { baseRules } from './base-pack.ts';

const rules = baseRules();
const offersWith = (heard: typeof rules.heard): ((said: string) => string[]) => {
  const matcher = buildMatcher({ ...rules, heard }, baseWords());
  return (said) => matcher.match(said).flatMap((r) => r.candidates.map((c) => `${c.question}=${c.answer}`));
};
const offers = offersWith(rules.heard);
const anyhow = offersWith({});

describe('a doubtful reading', () => {
  const SAID =
    "Everything was dialled in Sunday, tonight the bike feels like it's filled with honey, slow coming back at both ends and hard on the first hits";

  it('is left out where other words are surer', () => {
    const doubtful = 'return-speed@either=deep';
    expect(anyhow(SAID)).toContain(doubtful);
    expect(offers(SAID)).not.toContain(doubtful);
    expect(offers(SAID)).toContain('push-return@front=creeps');
  });

  it('is offered where nothing was ever judged', () => {
    expect(anyhow(SAID).length).toBeGreaterThan(offers(SAID).length);
  });

  it('is offered where it reads the whole clause', () => {
    const heard = { ...rules.heard, landing: { right: 0, wrong: 50 } };
    expect(offersWith(heard)('The saddle squeaks when I pedal, it lands hard')).toContain(
      'landing@either=hard',
    );
  });

  it('is left out where it reaches over a word that joins two things', () => {
    const joined =
      "The front is harsh on the brake bumps, a friend behind me says I'm stiff as a board and pulling the front all the way through";
    const other = 'stiction@front=hardly';
    expect(anyhow(joined)).toContain(other);
    expect(offers(joined)).not.toContain(other);
  });

  it('is a matter of how its question was judged', () => {
    const judged = (right: number, wrong: number): string[] =>
      offersWith({ 'trouble-end': { right: 200, wrong: 40 }, 'return-speed': { right, wrong } })(SAID);
    expect(judged(90, 0)).toContain('return-speed@either=deep');
    expect(judged(0, 90)).not.toContain('return-speed@either=deep');
  });

  it('that may be a danger is offered', () => {
    const heard = { ...rules.heard, 'safety.found': { right: 0, wrong: 200 } };
    const said =
      'the front is slow to come back on every root and I think I saw a crack somewhere in the shed';
    expect(anyhow(said)).toContain('safety.found=crack');
    expect(offersWith(heard)(said)).toContain('safety.found=crack');
  });
});

describe('of readings of which each is doubtful', () => {
  const reading = (...candidates: Candidate[]): Reading => ({
    phrase: 'one',
    text: 'said',
    position: 0,
    negated: false,
    ambiguous: false,
    means: [],
    separates: [],
    candidates,
    score: 1,
  });
  const [a, b, c] = ['a', 'b', 'c'].map((question): Candidate => ({
    question,
    answer: 'yes',
    confirmed: false,
  })) as [Candidate, Candidate, Candidate];
  const sure = new Map([
    [a, 0.3],
    [b, 0.4],
    [c, 0.2],
  ]);
  const left = (stays: Candidate[] = []): string[] =>
    withoutDoubtful(
      [reading(a), reading(b, c)],
      (one) => sure.get(one)!,
      (one) => stays.includes(one),
    ).flatMap((r) => r.candidates.map((one) => one.question));

  it('the surest is offered', () => {
    expect(left()).toEqual(['b']);
  });

  it('what must be offered stays beside it', () => {
    expect(left([c])).toEqual(['b', 'c']);
  });

  it('a denial stays', () => {
    const no = { ...reading(c), negated: true };
    expect(
      withoutDoubtful(
        [reading(b), no],
        (one) => sure.get(one)!,
        () => false,
      ),
    ).toEqual([{ ...reading(b), sure: sure.get(b) }, no]);
  });
});
