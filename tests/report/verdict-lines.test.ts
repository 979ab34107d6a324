/** What a report says of a verdict: the numbers that it compares are those it tells, and what is refused stands where it belongs. */
import { describe, expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { markdownReport } from '../../src/report/markdown.ts';
import type { Result, ResultCause } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { PLAIN } from '../../src/report/style.ts';
import { textReport } from '../../src/report/text.ts';
import { insteadLine } from '../../src/report/verdict/step-lines.ts';
import { refusedLines, verdictLines } from '../../src/report/verdict/verdict-lines.ts';
import type { Words } from '../../src/report/verdict/voice.ts';
import { bench, model, rules, toldOf } from '../support/told.ts';

const kase = toldOf('target');
const result = toResult(model, kase, consult(model, bench, kase, { next: true, explain: 5, fit: true }));
const words: Words = { style: PLAIN, rules, audience: 'mechanic' };
const cause = (id: string, probability: number, pair?: ResultCause['pair']): ResultCause => ({
  id,
  name: id,
  probability,
  evidence: [],
  ...(pair && { pair }),
});
const PAIRED = [
  cause('x', 0.25),
  cause('low', 0.24, { other: 'high', name: 'either circuit', probability: 0.4 }),
  cause('high', 0.22),
];

describe('what is likeliest', () => {
  const first = (over: Partial<Result>): string | undefined =>
    verdictLines({ ...result, because: null, refused: [], ...over }, words)
      .join(' ')
      .replaceAll(/\s+/g, ' ')
      .match(/(?:Likeliest so far|Next most likely): .*?%\)(?:\. Next: .*?%\))?/)?.[0];

  it.each([
    [0.3, 'Likeliest so far: either circuit (40 %). Next: nothing off (30 %)'],
    [0.23, 'Likeliest so far: either circuit (40 %). Next: x (25 %)'],
    [0.5, 'Likeliest so far: nothing off (50 %). Next: either circuit (40 %)'],
  ])('of a change that waits is told by the numbers shown, nothing off at %d', (nothing, line) => {
    expect(first({ verdict: 'unknown', nothing, causes: PAIRED })).toBe(line);
  });
  it('speaks against a change where a bike that is right is likelier than not', () => {
    const said = (nothing: number): string =>
      verdictLines(
        { ...result, verdict: 'unknown', because: null, refused: [], blocked: [], nothing, causes: PAIRED },
        words,
      ).join(' ');
    expect(said(0.6)).toContain('nothing speaks for a change');
    expect(said(0.4)).toContain('too unsure');
  });
  it('beside a bike that is right is the line that would be shown of it', () => {
    expect(first({ verdict: 'leave', nothing: 0.5, causes: PAIRED })).toBe(
      'Next most likely: either circuit (40 %)',
    );
  });
});

describe('what is likelier than not, and no step is left for', () => {
  const knob = rules.adjustments.find(({ id }) => id === 'rear.compression.high.close')!;
  const told = (probability: number, waits?: Result['blocked'][number]['waits']): string =>
    textReport(
      {
        ...result,
        verdict: 'unknown',
        because: null,
        nothing: 0.05,
        causes: [cause('rear.compression.high.too-soft', probability)],
        refused: [],
        blocked:
          waits === undefined
            ? []
            : [{ id: knob.id, do: knob.do, why: 'this bike has no knob for it', next: [], waits }],
      },
      { rules },
    ).replaceAll(/\s+/g, ' ');
  const rebuild = { id: 'x', do: 'Have the damper revalved', why: 'it is a big job', ask: null };

  it.each([
    [0.88, 'Change nothing yet', 'But no step for it promises enough to be worth a trial.'],
    [0.4, 'Not sure yet: change nothing', 'That is too unsure to change anything.'],
  ])('is not called unsure: at %d', (probability, head, why) => {
    expect(told(probability)).toContain(`${head} Likeliest so far: rear.compression.high.too-soft`);
    expect(told(probability)).toContain(why);
  });
  it('is told with the knob that is missing, once, and what comes after it', () => {
    const text = told(0.88, rebuild);
    expect(text.split('no knob for it')).toHaveLength(2);
    expect(text).toContain('After that comes "Have the damper revalved", but it is a big job.');
    const { ask } = rules.questions.find(({ id }) => id === 'lever@rear')!;
    expect(told(0.88, { ...rebuild, ask: 'lever@rear' })).toContain(`revalved". First check: ${ask}`);
  });
});

describe('what would tell, where what looks best is refused', () => {
  it('is asked once on a page', () => {
    const step = rules.adjustments.find(({ id }) => id === 'rear.rebound.low.close')!;
    const next = rules.questions.find(({ id }) => id === 'kerb-drop@rear')!;
    const page = textReport(
      {
        ...result,
        verdict: 'unknown',
        because: null,
        nothing: 0.1,
        causes: [cause('rear.rebound.low.too-fast', 0.4)],
        blocked: [],
        refused: [{ id: step.id, do: step.do, why: 'it was rated worse', less: null, ridden: true }],
        next: { question: next.id, ask: next.ask, how: next.how, bits: 1, minutes: 1 },
        stop: null,
        assignments: [],
        unconfirmed: [],
        complaints: [],
      },
      { rules },
    ).replaceAll(/\s+/g, ' ');
    expect(page).toContain(`To find out: ${next.ask}`);
    expect(page.split(next.ask)).toHaveLength(2);
    expect(page).not.toContain('Next question');
  });
});

describe('a test that speaks against the answers', () => {
  const step = rules.adjustments.find(({ id }) => id === 'rear.rebound.low.close')!;
  const tested = { id: step.id, do: step.do, why: 'it was rated worse', less: null, ridden: true };
  const said = (probability: number, refused: Result['refused'][number], nothing = 0.1): string =>
    verdictLines(
      {
        ...result,
        verdict: 'unknown',
        because: null,
        nothing,
        causes: [cause('rear.rebound.low.too-fast', probability)],
        blocked: [],
        refused: [refused],
      },
      words,
    )
      .join(' ')
      .replaceAll(/\s+/g, ' ');
  it('is told as one, with what to look at', () => {
    expect(said(0.9, tested)).toMatch(/^ *The answers and what was tried disagree\..*rated worse/);
    expect(said(0.9, tested)).toContain(rules.againstTest!);
  });
  it.each([
    ['the cause is one of several', 0.3, tested],
    ['a smaller step is left', 0.9, { ...tested, less: 'rear.rebound.low-1' }],
    ['it was refused for another reason', 0.9, { ...tested, ridden: false }],
    ['it turns something else', 0.9, { ...tested, id: 'front.rebound.low.open' }],
  ])('is none where %s', (_, probability, refused) => {
    expect(said(probability, refused)).not.toContain('disagree');
  });
});

describe('what is refused', () => {
  const refused: Result['refused'] = [
    { id: 'a', do: 'Fit a longer fork', less: null, why: 'it may not fit', ridden: false },
  ];
  const LINE = 'Not advised: "Fit a longer fork", because it may not fit.';
  const over = (verdict: Result['verdict'], because: Result['because'] = null): Result => ({
    ...result,
    verdict,
    because,
    refused,
  });
  it.each([
    ['change', null, ['mechanic']],
    ['unknown', null, []],
    ['unknown', 'none-of-these', []],
    ['unknown', 'one-impression', []],
    ['unknown', 'unexplained', []],
    ['leave', null, []],
    ['stop', 'danger', []],
  ] as const)('with a verdict %s (%s) is told to: %j', (verdict, because, to) => {
    const told = (['mechanic', 'rider'] as const).filter((who) => {
      const lines = refusedLines(over(verdict, because), who);
      const text = markdownReport(over(verdict, because), who);
      expect(text.includes('Not advised')).toBe(lines.length > 0);
      return lines.includes(LINE);
    });
    expect(told).toEqual(to);
  });
  it('is told by the verdict itself where nothing is changed, and by nothing twice', () => {
    for (const text of [
      textReport(over('unknown'), { rules }),
      markdownReport(over('unknown'), 'mechanic', rules),
    ])
      expect(text.replaceAll(/\s+/g, ' ').split('it may not fit')).toHaveLength(2);
  });
  it('stands above a change for a mechanic, and not for a rider', () => {
    const said = (audience: Words['audience']): string => textReport(over('change'), { rules, audience });
    expect(said('mechanic')).toContain(LINE);
    expect(said('rider')).not.toContain('longer fork');
  });
});

it('what waits for a question ends as the question does', () => {
  const insteadOf = { id: 'x', do: 'Open it', plain: 'open it', why: 'this was not checked: does it move?' };
  expect(insteadLine({ insteadOf, because: null })).toMatch(/move\?$/);
  expect(insteadLine({ insteadOf: { ...insteadOf, why: 'it is dear' }, because: null })).toMatch(/dear\.$/);
});
