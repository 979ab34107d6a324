/** The phrases of the built-in pack: enough of them, each reachable, none hiding another. */
import { describe, expect, it } from 'vitest';
import { buildHearing } from '../../src/words/hearing.ts';
import { buildMatcher } from '../../src/words/matcher.ts';
import { endVocabulary } from '../../src/words/end-names.ts';
import { conceptSlotsOf, slotsOf } from '../../src/words/slots.ts';
import { baseWords } from '../support/base-rules.ts';
import { baseRules } from './base-pack.ts';

const rules = baseRules();
// How sure a reading is tells nothing of the phrases.
const matcher = buildMatcher({ ...rules, heard: {} }, baseWords());
const ends = endVocabulary(rules.endNames);

/** What is left of a way of saying it once small words are gone, whatever the order. */
const core = (says: string): string =>
  slotsOf(says, ends)
    .map((slot) => [...slot.keys()].sort().join('/'))
    .sort()
    .join(' ');

describe('the phrases of the built-in pack', () => {
  it('has 150 ways of saying things and more, counted once small words and endings are gone', () => {
    const ways = new Set(rules.words.flatMap((w) => w.says.map(core)));
    expect(ways.size).toBeGreaterThanOrEqual(150);
  });

  it('speaks of every topic that questions are asked about', () => {
    const spoken = new Set(
      rules.words.flatMap((w) => w.couldBe.map((c) => c.question.replace('{end}', 'front'))),
    );
    const topics = new Set(rules.questions.filter((q) => spoken.has(q.id)).map((q) => q.topic));
    const silent = rules.questions
      .filter((q) => q.how !== 'ride' && !topics.has(q.topic))
      .map((q) => q.topic);
    expect(silent).toEqual([]);
  });

  it('gives every ambiguous phrase two meanings or more and the questions that separate them', () => {
    const bare = rules.words.filter((w) => w.ambiguous && (w.means.length < 2 || w.separates.length === 0));
    expect(bare.map((w) => w.id)).toEqual([]);
  });

  it('gives every other phrase something it could mean', () => {
    expect(rules.words.filter((w) => !w.ambiguous && w.couldBe.length === 0).map((w) => w.id)).toEqual([]);
  });

  it('has a word of its own in every way of saying, not only ends and denials', () => {
    const bare = rules.words.flatMap((w) =>
      w.says.filter(
        (s) =>
          w.weak === undefined &&
          slotsOf(s, ends).every((slot) => ['front', 'rear', 'not'].includes([...slot.keys()][0]!)),
      ),
    );
    expect(bare).toEqual([]);
  });

  it('says nothing twice with the same answers', () => {
    const seen = new Map<string, string>();
    const twice: string[] = [];
    for (const w of rules.words) {
      for (const s of w.says) {
        // In these the order tells.
        const words = w.across === true ? `across ${s}` : core(s);
        const key = `${words} ${JSON.stringify([w.couldBe, w.number])}`;
        if (seen.has(key)) twice.push(`${w.id}: ${s} = ${seen.get(key)}`);
        seen.set(key, `${w.id}: ${s}`);
      }
    }
    expect(twice).toEqual([]);
  });

  it('offers an answer of every phrase for each of its own ways of saying it', () => {
    const lost = rules.words
      .filter((w) => w.number === undefined && w.weak !== 'all')
      .flatMap((w) =>
        w.says
          .map(spoken)
          .filter((s) => !heard(s, w))
          .map((s) => `${w.id}: ${s} → ${matcher.match(s).map((r) => r.phrase)}`),
      );
    expect(lost).toEqual([]);
  });
});

/** One of several words at a time, the first, and the first way of a concept, as a rider would say it. */
const spoken = (says: string): string =>
  first(says).replaceAll(/<([^<>]*)>/g, (_, id: string) =>
    id === 'number' ? '12' : first(rules.concepts.find((c) => c.id === id)!.words[0]!),
  );

const first = (says: string): string => says.replaceAll(/([\w'<>-]+)(\/[\w'<>-]+)+/g, '$1');

/** By this phrase, by one that says more and offers one of its answers too, or by one that asks all that it asks. */
function heard(said: string, { id, couldBe, separates }: (typeof rules.words)[number]): boolean {
  const readings = matcher.match(said).filter((r) => !r.negated);
  const wanted = new Set(couldBe.map((c) => `${c.question.replace(/@.*/, '')}=${c.answer}`));
  return readings.some(
    (r) =>
      r.phrase === id ||
      r.candidates.some((c) => wanted.has(`${c.question.replace(/@.*/, '')}=${c.answer}`)) ||
      (separates.length > 0 && separates.every((q) => asks(r.separates).includes(bare(q)))),
  );
}

const bare = (question: string): string => question.replace(/@.*/, '');
const asks = (questions: readonly string[]): string[] => questions.map(bare);

describe('the dangers of the built-in pack', () => {
  it('are silenced by no everyday word that stands in the same statement', () => {
    const concepts = new Map(rules.concepts.map((c) => [c.id, c.words]));
    const silencing = rules.words
      .filter((w) => w.couldBe.some(({ question }) => question.startsWith('safety.')))
      .flatMap((w) =>
        (w.unless ?? []).flatMap((id) =>
          concepts
            .get(id)!
            .filter((text) => conceptSlotsOf(text, ends).length === 1)
            .map((text) => `${w.id}: ${text}`),
        ),
      );
    expect(silencing).toEqual([]);
  });

  it('are offered in the middle of other matters too', () => {
    const hear = buildHearing(rules, baseWords());
    const offers = (said: string): Set<string> =>
      new Set(
        hear(said)
          .readings.filter((r) => !r.negated)
          .flatMap((r) => r.candidates.map((c) => `${bare(c.question)}=${c.answer}`)),
      );
    const dangers = new Set(
      rules.questions.flatMap((q) => Object.keys(q.dangerous).map((answer) => `${bare(q.id)}=${answer}`)),
    );
    const lost = rules.words
      .filter((w) => w.weak === undefined && w.number === undefined && !w.ambiguous)
      .filter((w) => w.couldBe.some((c) => dangers.has(`${bare(c.question)}=${c.answer}`)))
      .flatMap((w) => w.says.map(spoken))
      .flatMap((said) => {
        const alone = [...offers(said)].filter((offer) => dangers.has(offer));
        if (alone.length === 0) return [];
        const amid = offers(`The rear kicks off every lip. ${said}. In corners the front pushes wide`);
        return alone.some((offer) => amid.has(offer)) ? [] : [said];
      });
    expect(lost).toEqual([]);
  });

  it('are read back to the rider as one sentence', () => {
    const bare = rules.questions.flatMap((q) =>
      Object.keys(q.dangerous)
        .filter((answer) => q.says?.[answer] === undefined)
        .map((answer) => `${q.id}=${answer}`),
    );
    expect(bare).toEqual([]);
  });
});
