import { expect, it } from 'vitest';
import { saidShares } from '../../src/words/figures.ts';
import { baseRules } from '../support/base-rules.ts';

const { rules } = baseRules();
const said = (text: string): string[] =>
  saidShares(text, ['sag', 'sags'], rules).map(({ end, figure }) => `${end} ${figure}`);

it.each([
  ["Sag's 30 percent, 19.5 of 65, I measured it", ['rear 19.5/65 mm']],
  ["The fork's at 17 percent, 25 of 150, I measured it.", ['front 25/150 mm']],
  ['rear sag is 31 %', ['rear 31 %']],
  ['sag is 27mm of 150mm at the front and 18 out of 60 at the rear', ['front 27/150 mm', 'rear 18/60 mm']],
  ['fork sag 20 per cent', ['front 20 %']],
  ['front sag is 17,5 %, rear 16/57,5', ['rear 16/57.5 mm', 'front 17.5 %']],
  // An end is named before its figure, or after it.
  ['sag front 20% and rear 30%', ['front 20 %', 'rear 30 %']],
  ['sag 20% front and 30% rear', ['front 20 %', 'rear 30 %']],
  // Which of two is read off the bike is asked.
  ['front sag should be 20% but it is 15%', ['front 20 %', 'front 15 %']],
  // Which end a share alone is of, nobody said.
  ['sag is 30 %', []],
  // No sag: clicks, how often, and travel that was used.
  ['rebound is 3 of 16 at the front', []],
  ['sag is fine at the front but rebound is 8 of 20 clicks at the rear', []],
  ['fork at 17 percent, that is 17 of 100 psi', []],
  ['it happens 90 percent of the time at the front', []],
  ["I've never had more than 115 millimetres out of my 140 fork", []],
])('%s tells of %j', (text, figures) => {
  expect(said(text)).toEqual(figures);
});

it('leaves out what the gauge does not read', () => {
  const mayBe = ({ figure }: { readonly figure: string }): boolean => figure !== '100 %';
  expect(saidShares("I'm 100 percent sure the front sag is 20 %", ['sag'], rules, mayBe)).toMatchObject([
    { figure: '20 %' },
  ]);
});

it('quotes what was said', () => {
  expect(saidShares("Sag's 30 percent, 19.5 of 65 mm", ['sag'], rules)[0]!.text).toBe('19.5 of 65 mm');
  expect(saidShares('rear sag is 27,5 %', ['sag'], rules)[0]!.text).toBe('27,5 %');
});
