import { expect, test } from 'vitest';
import { judge } from '../../src/trials/judge.ts';
import { grounds, verdictSentence } from '../../src/trials/verdict-words.ts';
import { change, rode } from './invented.ts';

const said = (text: string, over = {}) => {
  const trial = rode(text, over);
  const judged = judge(trial);
  return [verdictSentence(trial, judged), ...grounds(trial, judged)].join('\n');
};

test.each([
  ['R4 R4 +6 R4 -2 R4', 'Keep the front low-speed rebound at 10 clicks for now, and try 12 next'],
  ['R5 R5 +6 R5 -1 R5 -1 R5 +6 R5', 'Keep the front low-speed rebound at 10 clicks.'],
  ['R6 R6 +3 R6 -3 R6', 'Put the front low-speed rebound back to 8 clicks'],
  ['R5 R5 +5 R5 -1 R5 -1 R5 +5 R5', 'put the front low-speed rebound to 9 clicks'],
  ['R4 R4 +6 R4 -4 R4', 'Cannot tell. Put the front low-speed rebound back to 8 clicks'],
  ['R4 R4 +6 R4 -4 R4', 'more runs would tell'],
  ['R2 R6 R1 R7 +6 R2 -6 R1 -2 R6 +3 R2', 'leave it, and look elsewhere'],
  ['R4 R4', 'No run with a change'],
  ['R4 R4 +6', 'Ride 3 more runs to finish the block'],
  ['R3 R3 +6 R3 -6 R3 -6 R3 +6 R3', 'the habit of liking a change'],
  ['R2 R2 +5 R4 -4 R6', 'Every setting drifted by +1.0 points a run'],
])('%s says: %s', (text, sentence) => {
  expect(said(text)).toContain(sentence);
});

test('each direction is named by where the adjuster stood, with size, interval and chances', () => {
  expect(said('R4 R4 +6 R4 -2 R4')).toMatch(
    /10 clicks against the reference: \+2\.0 points \(\+\d\.\d to \+\d\.\d with a chance of 95 %\), better with (9\d|over 99) %, the best of all with (9\d|over 99) %; ridden 1 time\./,
  );
});

test('what an adapted plan means for the verdict stands beside it', () => {
  expect(said('R3 R3 +6 R3 S3 R3', { change: change({ from: 0, to: 2 }) })).toContain(
    'The sham against the reference',
  );
});
