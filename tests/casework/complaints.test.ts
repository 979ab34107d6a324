import { readDeed } from '../../src/bike/deed.ts';
import { describe, expect, it } from 'vitest';
import type { CaseResult } from '../../src/casework/case.ts';
import { complaintsOf, type Complaint } from '../../src/casework/complaints.ts';
import { consult } from '../../src/casework/consult.ts';
import { lastScreen } from '../../src/report/last-screen.ts';
import { type Result, promised } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { PLAIN } from '../../src/report/style.ts';
import { complaintLines } from '../../src/report/verdict/complaint-lines.ts';
import { baseMatcher } from '../support/base-rules.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

const { match } = baseMatcher();
const SAID = 'It bucks me off the lip, and my hands are dead at the bottom';

function heard(
  said: string,
  answers: Readonly<Record<string, string>>,
  on = bench,
  results: readonly CaseResult[] = [],
) {
  const kase = caseOf(answers, { said, results });
  const readings = match(said);
  const c = consult(model, on, kase, { next: true, explain: 5, fit: true });
  return { c, readings, result: toResult(model, kase, c, { readings }) };
}
const of = (said: string, answers: Readonly<Record<string, string>>): Complaint[] => {
  const { c, readings } = heard(said, answers);
  return complaintsOf(model, bench, c, readings);
};
const KICKS = { ...SOUND, lip: 'rear-over', 'lone-hit.kick@rear': 'kicks', 'return-speed@rear': 'deep' };

const AS_MECHANIC = { style: PLAIN, rules, audience: 'mechanic' } as const;
const ANSWERS = { ...KICKS, 'arms-steep': 'give-out', hands: 'palms' };

describe('two complaints', () => {
  it('are told apart: what the change does for each, or what to check for it', () => {
    const [lip, hands, ...more] = of(SAID, ANSWERS);
    // The same hands in other words: numb, or giving out.
    for (const again of more) expect(again.phrase).toContain('hands');
    expect(lip!.phrase).toContain('lip');
    expect(lip!.helped).toBeGreaterThan(0.5);
    expect(hands!.phrase).toContain('hands');
    expect(hands!.helped).toBeLessThan(0.5);
    expect(hands!.instead ?? hands!.ask).toBeDefined();
  });
  it('at two ends have a question each, about what is behind the one that the change is not for', () => {
    const said = 'the front washes out and the rear hangs up on square edges';
    const told = { 'flat-turn.front': 'washes', 'square-edge@rear': 'spike', 'tyre-target@front': 'over' };
    const { result } = heard(said, { ...SOUND, ...told });
    expect(result.first).toBe('front.tyre.softer');
    const rear = result.complaints.find(({ phrase }) => phrase.includes('square'))!;
    expect(rear.promise).toBe('none');
    const asked = rules.questions[model.questionIndex.get(rear.ask!)!]!;
    expect(asked.end ?? 'rear').toBe('rear');
    const sign = rules.questions[model.questionIndex.get('square-edge@rear')!]!;
    const behind = new Set(sign.links.map(([cause]) => cause));
    expect(asked.links.some(([cause]) => behind.has(cause))).toBe(true);
    // Once it is told, the next best one is named, and never one that was answered.
    const again = heard(said, { ...SOUND, ...told, [asked.id]: asked.answers[0]!.id }).result;
    expect(again.complaints.map(({ ask }) => ask)).not.toContain(asked.id);
  });
  it('wait for what is measured first where that is for them, and are told so', () => {
    const c = heard(SAID, ANSWERS).result;
    const [lip] = c.complaints;
    const step = { id: 'front.compression.high.open', do: 'Open it', plain: 'Open it' };
    const after = { ...lip!, promise: 'none' as const, instead: step };
    const insteadOf = { id: step.id, do: step.do, why: 'nobody measured it' };
    const lines = (because: Result['because']): string =>
      complaintLines({ ...c, because, insteadOf, complaints: [after, c.complaints[1]!] }, AS_MECHANIC)[0]!
        .line;
    expect(lines('measure-first')).toContain('this comes first, then: Open it.');
    expect(lines('held-back')).not.toContain('this comes first');
  });
  it('name no step for one on a cause that is one in ten, nor what the rules refuse', () => {
    const said = 'alone it is great; behind my mate I get arm pump and the bike is slow to turn';
    const on = { ...SOUND, complaint: 'arms', hands: 'fingers', 'turn-in': 'slow', tense: 'yes' };
    const { result } = heard(said, { ...on, 'other-rider': 'fine' });
    const slow = result.complaints.filter(({ phrase }) => phrase.includes('slow'));
    expect(slow.length).toBeGreaterThan(0);
    for (const { instead } of slow) expect(instead?.id ?? 'none').not.toMatch(/spring|click|rebound|ramp/);
    const bouncing = { ...SOUND, complaint: 'rows', 'repeated-hits.trend@either': 'skips' };
    const rear = heard('it skips', { ...bouncing, 'push-return@rear': 'springs' }).result;
    for (const { instead } of rear.complaints) expect(instead?.id).not.toBe('front.rebound.low.open');
    expect(rear.adjustments.map(({ id }) => id)).not.toContain('front.rebound.low.open');
  });
  it('have a step named for them by what the pack lets', () => {
    const named = (least: number): boolean[] => {
      const advice = { ...rules.numbers.advice, 'may-try': least, 'may-help': 0.05 };
      const told = { ...model, rules: { ...rules, numbers: { ...rules.numbers, advice } } };
      const cases = ['other-rider', 'tense', 'turn-in'].map((question) => ({ [question]: 'cannot-tell' }));
      return cases.flatMap((more) => {
        const { c, readings } = heard(SAID, { ...ANSWERS, 'repeated-hits.trend@front': 'worse', ...more });
        return complaintsOf(told, bench, c, readings).map(({ instead }) => {
          const rule = instead === undefined ? undefined : rules.adjustments[instead];
          return rule?.change !== undefined && rule.kind !== 'cockpit';
        });
      });
    };
    expect(named(0)).toContain(true);
    expect(named(1)).not.toContain(true);
  });
  it('stay two where nobody asked about the second yet', () => {
    const [, hands] = of(SAID, KICKS);
    expect(hands).toMatchObject({ helped: null });
    expect(rules.questions[hands!.ask()!]!.id).toMatch(/arms-steep|hands/);
  });
  it('never name a rebuild as the next thing, nor what comes first already', () => {
    const { result } = heard(SAID, ANSWERS);
    expect(result.complaints.some(({ instead }) => instead !== null)).toBe(true);
    for (const { instead } of result.complaints) {
      expect(instead?.id ?? '').not.toMatch(/rebuild/);
      expect(instead?.id ?? '-').not.toBe(result.first);
    }
  });
  it('never name the step that was just ridden and rated worse', () => {
    const before = heard(SAID, ANSWERS).result;
    const step = before.adjustments.find(({ id }) => id === before.first)!;
    const result = { outcome: 'worse', kept: false, points: -0.1, error: 1.5 } as const;
    const after = heard(SAID, ANSWERS, bench, [{ ...result, change: readDeed(step.change!) }]).result;
    expect(after.refused.map(({ id }) => id)).toContain(step.id);
    expect(after.complaints.map(({ instead }) => instead?.id)).not.toContain(step.id);
  });
  it('name no change beside a bike that is not to be ridden', () => {
    expect(heard(SAID, ANSWERS).result.complaints.some(({ instead }) => instead !== null)).toBe(true);
    const { result } = heard(SAID, { ...ANSWERS, 'safety.found': 'loose' });
    expect(result.verdict).toBe('stop');
    expect(result.complaints.length).toBeGreaterThan(0);
    for (const { instead } of result.complaints) expect(instead).toBeNull();
  });
  it('are explained by what the answer says, also where nobody said at which end', () => {
    const { result } = heard('it skips over every root', {
      ...SOUND,
      'hit-pattern': 'row',
      'repeated-hits.trend@either': 'skips',
      'liveliness@rear': 'wooden',
      'lever@rear': 'closed',
    });
    expect(result.first).toBe('rear.lever.open');
    expect(result.complaints.map(({ promise }) => promise)).toContain('fix');
  });
  it.each(['setting', 'tyre', 'spacer', 'part', 'several'])(
    'name nothing that undoes a service where it was a %s',
    (change) => {
      const on = { ...SOUND, 'recent-change': change, 'change-effect': 'worse', 'new-part': 'tyre' };
      const { result } = heard('Since I changed the tyre pressure it suddenly feels harsh', on);
      expect(result.verdict).toBe('change');
      expect(result.complaints.length).toBeGreaterThan(0);
      for (const { instead } of result.complaints) expect(instead?.id).not.toBe('service.put-back');
    },
  );
  it('are none where the words only tell what was done before it began', () => {
    const told = { ...SOUND, 'recent-change': 'service', 'bottoming@front': 'hard' };
    const phrases = of('It was serviced three weeks ago. The fork bottoms out hard.', told).map(
      ({ phrase }) => phrase,
    );
    expect(phrases.join()).toMatch(/bottoms/);
    expect(phrases.join()).not.toMatch(/service/);
  });
  it('are not said to stay where nobody confirmed what they mean', () => {
    const lines = (said: string, answers: Readonly<Record<string, string>>): string =>
      complaintLines(heard(said, answers).result, { style: PLAIN, rules, audience: 'mechanic' })
        .map(({ line }) => line)
        .join('\n');
    const open = lines('the rear wallows, and it bucks me off the lip', KICKS);
    expect(open).toMatch(/"[^"]*wallows[^"]*": not confirmed yet\. Check this\./);
    expect(open).not.toContain('will not fix it');
    // Sore palms that were told of are not what a fast rear brings.
    const sore = lines(SAID, ANSWERS);
    expect(sore).toMatch(/"hands are dead[^"]*": this change will not fix it\./);
  });
  it('are counted once where one reading of the same words is known', () => {
    const all = of('first the back goes hard as a plank', {
      ...SOUND,
      'liveliness@rear': 'wooden',
      'return-speed@rear': 'deep',
      'repeated-hits.depth@rear': 'deeper',
    });
    expect(new Set(all.map((one) => one.phrase)).size).toBe(all.length);
  });
  it('are no complaints where they were denied', () => {
    expect(of('it never bucks me off the lip', KICKS)).toEqual([]);
  });
});

describe('the last screen', () => {
  const { result } = heard(SAID, ANSWERS);
  const shown = (
    of_: Result,
    rows: number | undefined,
    audience: 'mechanic' | 'rider' = 'mechanic',
  ): string => lastScreen(of_, { style: PLAIN, rules, audience, rows, key: 'm' });
  const rows = (text: string): number => text.trimEnd().split('\n').length;

  it.each(['mechanic', 'rider'] as const)('holds what must be seen within 80 by 24, for a %s', (audience) => {
    // The question below it takes seven rows.
    const text = shown(result, 17, audience);
    expect(rows(text)).toBeLessThanOrEqual(17);
    for (const must of ['Do this first', 'To undo:', '  ! ', '  m: ']) expect(text).toContain(must);
    // What there is no room for is named.
    if (!text.includes('what was said'))
      for (const { phrase } of result.complaints) expect(text).toContain(`"${phrase}"`);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });
  it('leaves out on a low screen what can be read later, and never the change, its way back or its caution', () => {
    const [low, high] = [shown(result, 6), shown(result, undefined)];
    expect(rows(low)).toBeLessThan(rows(high));
    for (const must of ['Do this first', 'To undo:', '  ! ', '  m: ']) expect(low).toContain(must);
    expect(low).not.toContain('Why:');
    expect(high).toContain('Why:');
  });

  const many = (n: number): Result => ({
    ...result,
    adjustments: result.adjustments.map((a) => ({ ...a, note: null })),
    cautions: Array.from({ length: n }, (_, i) => ({
      id: `c${i}`,
      level: 'care' as const,
      text: `Mind danger number ${i}.`,
    })),
  });
  it('gives every caution its room before the odds, what was said and the reasons', () => {
    const bare = rows(shown(many(1), 1));
    for (let n = 1; n <= 5; n++) {
      const text = shown(many(5), bare + n - 1);
      expect(text.match(/Mind danger/g)).toHaveLength(n);
      if (n < 5)
        for (const later of ['Odds:', 'Feel for:', 'Why:', '  - "']) expect(text).not.toContain(later);
    }
  });
  it('names what is left out, with the key that shows it, and nothing that is there', () => {
    const [low, high] = [shown(many(4), 1), shown(many(4), undefined)];
    expect(low.replaceAll(/\s+/g, ' ')).toContain(
      ' m: 3 more cautions, what it will not fix, the odds, what was said, what to feel for, the reasons, what else it could be',
    );
    expect(high.trimEnd().split('\n').at(-1)).toBe('  m: what else it could be');
  });
  it('leaves no row free that a line which was left out would have fitted in', () => {
    const all = shown(many(4), undefined);
    for (let n = 1; n < rows(all); n++) {
      const text = shown(many(4), n);
      expect(rows(text)).toBeLessThanOrEqual(Math.max(n, rows(shown(many(4), 1))));
      const odds = all.split('\n').find((line) => line.includes('Odds:'))!;
      if (n - rows(text) > 2) expect(text, `${n} rows`).toContain(odds);
    }
  });
  it.each([
    [0.7, 0.7, 'fix'],
    [0.7, 0.69, 'aimed'],
    [0.69, 0.99, 'help'],
    [0.2, 0.1, 'help'],
    [0.19, 0.99, 'none'],
  ] as const)('promises of a complaint cured by %d, its cause at %d: %s', (helped, likely, promise) => {
    expect(promised(helped, likely, rules.numbers.advice)).toBe(promise);
  });
  it('promises as far as the pack says', () => {
    const { helped } = result.complaints[0]!;
    const at = (least: number): Result['complaints'][number] => {
      const advice = { ...rules.numbers.advice, 'should-fix': 1, 'may-help': least };
      const told = { ...rules, numbers: { ...rules.numbers, advice } };
      return heard(SAID, ANSWERS, { ...bench, rules: told }).result.complaints[0]!;
    };
    expect(at(helped! - 0.001).promise).toBe('help');
    expect(at(helped! + 0.001).promise).toBe('none');
  });
  it.each([
    ['fix', 'this change should fix it.'],
    ['aimed', 'this change may help.'],
    ['help', 'this change may help. If not: '],
    ['none', 'this change will not fix it. '],
    [null, 'nothing found so far explains it. '],
  ] as const)('says of a promise %s: %s', (promise, words) => {
    const [one] = result.complaints;
    expect(one).toMatchObject({ told: true });
    const other = { ...one!, phrase: 'another thing', promise: 'none' as const };
    const text = shown({ ...result, complaints: [{ ...one!, promise }, other] }, undefined);
    expect(text).toContain(`"${one!.phrase}": ${words}`);
  });
  it('says that it waits for an answer only where there is none', () => {
    const [one, two] = result.complaints;
    const list = [one!, { ...two!, told: false, promise: null, helped: null }];
    expect(shown({ ...result, complaints: list }, undefined)).toContain('not confirmed yet. ');
  });
  it('name what a rider can try for a sign with little behind it, beside a first change that is sure', () => {
    const told = { complaint: 'air', lip: 'rear-over', hands: 'numb', 'liveliness@rear': 'nervous' };
    const sure = { ...SOUND, ...told, 'push-return@rear': 'springs', 'knob-place@rear': 'open' };
    const hands = heard(SAID, sure).result.complaints.find(({ phrase }) => phrase.includes('hands'))!;
    expect(hands).toMatchObject({ told: true, promise: 'none' });
    expect(hands.instead?.id).toMatch(/^controls/);
  });
  it('shows the caution that is about this change, not the one about all', () => {
    expect(shown(result, 8)).toContain('With rebound closed too far, the rear packs down');
  });
  it('tells a rider which way to turn, and no circuit where there is one knob', () => {
    expect(shown(result, undefined, 'rider')).toMatch(/clockwise/);
    expect(shown(result, undefined, 'rider')).not.toMatch(/\d+\.\d → \d/);
  });
  it('says STOP and what to do, and nothing of a change', () => {
    const text = shown(heard('', { ...KICKS, 'safety.found': 'loose' }).result, 17);
    expect(text).toMatch(/^STOP: do not ride this bike/);
    expect(text).not.toMatch(/Do this first|First run/);
  });
});
