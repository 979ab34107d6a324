import { expect, test } from 'vitest';
import { judge } from '../../src/trials/judge.ts';
import { grounds, verdictSentence } from '../../src/trials/verdict-words.ts';
import type { Trial } from '../../src/trials/trial.ts';
import { change, rode } from './invented.ts';
import { baseRules } from '../support/base-rules.ts';
import { penSheetText, setLine } from '../../src/report/bike/trial-text.ts';
import { PLAIN } from '../../src/report/style.ts';
import { penRows, penSheet } from '../../src/trials/pen-sheet.ts';

const words = (trial: Trial): string => {
  const judged = judge(trial);
  return [verdictSentence(trial, judged), ...grounds(trial, judged)].join('\n');
};
const both = { bothWays: true };

test.each([
  ['R4 R4 +6 R4 +6 +6 R4', {}, 'Keep the front low-speed rebound at 10 clicks from closed.'],
  [
    'R4 R4 +6 -2 -2 +6 R4',
    both,
    'Keep the front low-speed rebound at 10 clicks from closed for now, and try 12 next',
  ],
  ['R4 R4 +2 R4 +2 +2 R4', {}, 'Leave the front low-speed rebound at 8 clicks from closed: nothing tried'],
  ['R4 R4 +2 R4 R4 +2', {}, 'Put the front low-speed rebound back to 8 clicks from closed'],
  ['R5 R5 +5 -1 -1 +5 R5', both, 'set the front low-speed rebound to 9 clicks from closed'],
  [
    'R4 R4 +5 R5 +5 +4',
    {},
    "Can't tell yet. Put the front low-speed rebound back to 8 clicks from closed until",
  ],
  ['R4 R4 +5 R5', {}, "Can't tell yet. Leave the front low-speed rebound at 8 clicks from closed until"],
  ['R4 R2 +6 R6 +2 +3 R5', {}, "More runs won't settle it"],
  [
    'R4 R4 +5 R5 +5 +4 R4',
    {},
    'No clear difference: leave the front low-speed rebound at 8 clicks from closed, and look elsewhere',
  ],
  ['R4 R2 +6 R6 +2 +5 R5', {}, 'too much to tell'],
  ['R4 R4', {}, 'No run with the change yet'],
  ['R4 R4 +6', {}, 'Ride 4 more runs to finish this round'],
  ['R3 R3 +6 -6 -6 +6 R3', both, 'Riders tend to like a change'],
  ['R1 R2 +3 R4 +5 +6 R7', {}, 'The ratings drifted by +1.0 points a run'],
])('%s says: %s %s', (text, over, sentence) => {
  expect(words(rode(text, over))).toContain(sentence);
});

/** Rated in one word a run, as most riders will. */
const inOneMark = (trial: Trial): Trial => ({
  ...trial,
  ridden: trial.ridden.map((run) => ({ ...run, ratings: { overall: run.ratings['overall']! } })),
});

test('a verdict that is not sure says which way it leans, and no line of it speaks against another', () => {
  const better = words(inOneMark(rode('R2 +5 R2 +5', { short: true })));
  expect(better).toMatch(/^Better so far, but not sure yet: ride the same runs once more \(4 runs\)\.\n/);
  expect(better).toContain('At this rate 4 more runs should settle it.');
  expect(better).not.toMatch(/[Pp]ut the/);
  expect(better).toContain('better, but not sure enough to keep it');
  expect(better).toContain('One mark a run says little.');
  const worse = words(inOneMark(rode('R5 +2 R5 +2', { short: true })));
  expect(worse).toMatch(/^Put the .* back to 8 clicks from closed/);
  const steady = words(inOneMark(rode('R3 +5 R3 +5', { short: true })));
  expect(steady).toMatch(/^Better so far, but not sure yet: ride the same runs once more/);
});

test('a gain in every single run leans to better where its interval is too wide to show it, a mixed one does not', () => {
  const known = (text: string): Trial => ({ ...inOneMark(rode(text, { short: true })), hidden: false });
  expect(words(known('R4 +5 R4 +5'))).toMatch(
    /^Better, but not sure.* Keep the step on the rider's word, or /,
  );
  expect(words(known('R4 +5 R4 +5'))).toContain('better, if anything');
  expect(words(known('R4 +6 R5 +5'))).not.toMatch(/^Better/);
  expect(words(known('R5 +4 R5 +4'))).toMatch(/^(Worse|Put the)/);
});

test('what is better and beyond what more runs would tell is not called no difference', () => {
  const said = words({ ...rode('R4 +5 R4 +5', { short: true }), hidden: false });
  expect(said).toMatch(/^Better, but not sure, and more runs like these won't tell\. .* unseen/);
  expect(said).not.toContain('look elsewhere');
});

test('where more runs would say no more than to put it back, that is said now', () => {
  const said = words(rode('R4 +4 R4 +4', { short: true }));
  expect(said).toMatch(/^No clear difference: put the .* back to 8 clicks from closed, and look elsewhere\./);
  expect(said).toContain('4 more runs like these would say no more than that.');
});

test('that belief could explain it is said only where it could', () => {
  const open = (text: string): string => words({ ...rode(text), hidden: false });
  expect(open('R4 R4 +5 R4 +5 +4 R4')).toContain('no more than believing in the step could explain');
});

test('each direction is named by where the adjuster stood, with size, interval and the chance that counts', () => {
  expect(words(rode('R4 R4 +6 R4 +6 +6 R4'))).toMatch(
    /2 clicks out \(at 10 from closed\) against 8: rated 2\.0 points better \(of 7\), likely 1\.\d to 2\.\d better: better, (9\d|over 99) % chance it is worth keeping\. Ridden 3 times\./,
  );
});

test('says what an open trial counts for, and that nobody said it was hidden', () => {
  const trial = rode('R4 R4 +6 R4 +6 +6 R4');
  expect(words(trial)).not.toContain('Knowing alone');
  expect(words({ ...trial, hidden: false })).toContain(
    'The rider knew the settings. Knowing alone can move a rating by 0.4',
  );
  const { hidden, ...unsaid } = trial;
  expect(hidden).toBe(true);
  expect(words(unsaid)).toContain('Nobody said the settings were hidden');
});

test('a pressure in another unit than the sheet is rounded as a gauge shows it', () => {
  const from = 1.75e5 / 6894.757293168361;
  const psi = {
    setting: 'rear.tyre',
    from,
    to: from - 2,
    unit: 'psi',
    min: 10,
    max: 60,
    grain: 0.5,
  } as const;
  const trial = rode('R4 R4 -6 R4 -6 -6 R4', { change: change(psi) });
  expect(words(trial)).toMatch(
    /Keep the rear tyre[^.]* at 23\.4 psi\.\n2 psi less \(at 23\.4\) against 25\.4:/,
  );
  expect(setLine(trial, penRows(trial, 2)[0]!)).toMatch(/at (?:23|25)\.4 psi/);
  expect(penSheetText(penSheet(trial, baseRules().rules.rideRules, 2), 'tyre', 'bike', PLAIN)).not.toMatch(
    /\d\.\d\d/,
  );
});
