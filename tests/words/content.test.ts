/** The phrases of the built-in pack: enough of them, each reachable, none hiding another. */
import { describe, expect, it } from 'vitest';
import { buildMatcher } from '../../src/words/matcher.ts';
import { slotsOf } from '../../src/words/slots.ts';
import { baseRules } from './base-pack.ts';

const rules = baseRules();
const matcher = buildMatcher(rules);

/** What is left of a way of saying it once small words are gone, whatever the order. */
const core = (says: string): string =>
  slotsOf(says)
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
      w.says.filter((s) =>
        slotsOf(s).every((slot) => ['front', 'rear', 'not'].includes([...slot.keys()][0]!)),
      ),
    );
    expect(bare).toEqual([]);
  });

  it('says nothing twice', () => {
    const seen = new Map<string, string>();
    const twice: string[] = [];
    for (const w of rules.words) {
      for (const s of w.says) {
        const key = core(s);
        if (seen.has(key)) twice.push(`${w.id}: ${s} = ${seen.get(key)}`);
        seen.set(key, `${w.id}: ${s}`);
      }
    }
    expect(twice).toEqual([]);
  });

  it('finds every phrase by each of its own ways of saying it', () => {
    const lost = rules.words.flatMap((w) =>
      w.says
        // One of several words at a time, the first, as a rider would say it.
        .map((s) => s.replaceAll(/([\w'-]+)(\/[\w'-]+)+/g, '$1'))
        .filter((s) => !matcher.match(s).some((r) => r.phrase === w.id && !r.negated))
        .map((s) => `${w.id}: ${s} → ${matcher.match(s).map((r) => r.phrase)}`),
    );
    expect(lost).toEqual([]);
  });
});
