/**
 * Reports of real riders, mechanics and published guides with the cause that was found or given, each with its source in
 * field-cases/cases.yaml; their answers were written down six times, apart, by readers who saw only the wording of the
 * questions. The floors are what was reached, less a case or two; they may only be raised. The last two writers came when the
 * rules had been worked on with the others' answers for long, and write half as much again.
 */
import { describe, expect, it } from 'vitest';
import { GUIDES, isOdd, readInvented, UNUSED } from '../bench/reports/invented.ts';
import { baseRules } from '../support/base-rules.ts';
import { halfOf, namesOfCauses, reports, score, shares, written } from './field-cases/score.ts';
import { readReports, WRITERS } from './field-cases/table.ts';

const { rules } = baseRules();

const EARLY = { first: 67, three: 79, shownFirst: 69, shownThree: 80 };
const LATE = { first: 61, three: 82, shownFirst: 60, shownThree: 82 };
const floorsOf = (writer: (typeof WRITERS)[number]) => ('ef'.includes(writer) ? LATE : EARLY);

describe('field reports', () => {
  for (const writer of WRITERS) {
    const floors = floorsOf(writer);
    const core = readReports(rules, writer)
      .filter(({ report }) => report.tier === 'core')
      .map((x) => x.score);
    it(`are read as well as they were, from the answers of writer ${writer}`, () => {
      const all = shares(core);
      expect(all.n).toBe(52);
      expect(all.first).toBeGreaterThanOrEqual(floors.first);
      expect(all.three).toBeGreaterThanOrEqual(floors.three);
      expect(all.wrong).toBeLessThanOrEqual(4);
      const shown = shares(
        readReports(rules, writer, 'shown')
          .filter(({ report }) => report.tier === 'core')
          .map(({ score: s }) => s),
      );
      expect(shown.first).toBeGreaterThanOrEqual(floors.shownFirst);
      expect(shown.three).toBeGreaterThanOrEqual(floors.shownThree);
      expect(shown.wrong).toBeLessThanOrEqual(4);
    });
  }
  it('that were invented are read as two engineers read their words', () => {
    const all = shares(readInvented(rules));
    expect(all.n).toBe(180);
    expect(all.first).toBeGreaterThanOrEqual(84);
    expect(all.three).toBeGreaterThanOrEqual(94);
  });
  it('that were invented afterwards, and that no strength was moved toward, are read as well', () => {
    const all = shares(readInvented(rules, UNUSED));
    expect(all.n).toBe(220);
    expect(all.first).toBeGreaterThanOrEqual(87);
    expect(all.three).toBeGreaterThanOrEqual(93);
  });
  it('in the style of printed help, that nobody looked at, are read nearly as well', () => {
    const all = shares(readInvented(rules, GUIDES).filter(({ id }) => isOdd(id)));
    expect(all.n).toBe(70);
    expect(all.first).toBeGreaterThanOrEqual(76);
    expect(all.three).toBeGreaterThanOrEqual(87);
  });
  it('stand in full from every writer, each answer known to the rules', () => {
    for (const writer of WRITERS)
      expect(
        written(writer)
          .map((w) => w.id)
          .sort(),
      ).toEqual(
        reports()
          .map((r) => r.id)
          .sort(),
      );
  });
  it('split into two halves by their source', () => {
    const halves = reports().map(halfOf);
    expect(halves.filter((h) => h === 'open')).toHaveLength(36);
    expect(halves.filter((h) => h === 'scored')).toHaveLength(42);
  });
  it('know a name for every cause of the rules', () => {
    const names = namesOfCauses();
    expect(rules.causes.filter((c) => !names.has(c.id)).map((c) => c.id)).toEqual([]);
  });
  it('score a right, a tolerated and an opposite first cause', () => {
    const report = reports().find((r) => r.id === 'ho-001')!;
    const as = (...names: string[]) =>
      score(
        report,
        names.map((n) => [n]),
      );
    expect(as('rear.rebound.high.too-much')).toMatchObject({ first: true, three: true, wrong: false });
    expect(as('rear.spring.too-soft', 'rear.rebound.low.too-much')).toMatchObject({
      first: false,
      three: true,
      tolerated: true,
    });
    expect(as('rear.rebound.low.too-little')).toMatchObject({ first: false, wrong: true });
  });
});
