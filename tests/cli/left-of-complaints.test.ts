import { describe, expect, it } from 'vitest';
import { leftOfComplaints as leftOf, type AskedFor } from '../../src/cli/asking/left-of-complaints.ts';
import type { Result } from '../../src/report/result/result.ts';

type Complaint = Result['complaints'][number];
type Args = Parameters<typeof leftOf>;
const leftOfComplaints = (result: Args[0], ended: Args[1], asked: Args[2]) =>
  leftOf(result, ended, asked, { 'nothing-for': 2, 'may-help': 1, all: 3 });
const told = (phrase: string, promise: Complaint['promise'], ask: string | null): Complaint => ({
  phrase,
  told: true,
  neverNormal: false,
  helped: 0,
  promise,
  instead: null,
  ask,
});
const FIXED = told('bucks', 'fix', 'return-speed@rear');
const of = (complaints: readonly Complaint[], verdict: Result['verdict'] = 'change') => ({
  complaints,
  because: null,
  insteadOf: null,
  verdict,
});

describe('what is left to ask of a second complaint', () => {
  it.each([
    ['one that the change does nothing for', told('tucks', 'none', 'sag@front'), 'sag@front'],
    ['one that nothing explains', told('tucks', null, 'sag@front'), 'sag@front'],
    ['one that the change may help', told('tucks', 'help', 'sag@front'), 'sag@front'],
    ['nothing of one that it should fix', told('tucks', 'fix', 'sag@front'), undefined],
    ['nothing of one that it is aimed at', told('tucks', 'aimed', 'sag@front'), undefined],
    ['nothing where no question tells enough', told('tucks', 'none', null), undefined],
  ] as const)('is %s', (_, second, question) => {
    expect(leftOfComplaints(of([FIXED, second]), 'enough', [])?.question).toBe(question);
  });
  it('is nothing where there is one complaint, or the asking was ended', () => {
    const two = of([FIXED, told('tucks', 'none', 'sag@front')]);
    expect(leftOfComplaints(of([told('tucks', 'none', 'sag@front')]), 'enough', [])).toBeUndefined();
    for (const ended of ['danger', 'finished', 'stuck'] as const)
      expect(leftOfComplaints(two, ended, [])).toBeUndefined();
    expect(leftOfComplaints(two, 'full', [])).toBeDefined();
  });
  it('is that of the only complaint too, where no change is for it', () => {
    const one = told('kicks', null, 'pedals-kick');
    expect(leftOfComplaints(of([one], 'unknown'), 'enough', [])?.question).toBe('pedals-kick');
    expect(leftOfComplaints(of([one], 'leave'), 'enough', [])?.question).toBe('pedals-kick');
  });
  it('is never more than two of one, one of one that may be helped, and three of all; and none twice', () => {
    const asked: AskedFor[] = [];
    for (let n = 0; n < 9; n++) {
      const list = [
        told('tucks', 'help', `h${n}`),
        told('hums', 'none', `n${n}`),
        told('buzzes', 'none', `b${n}`),
      ];
      const next = leftOfComplaints(of(list), 'enough', asked);
      if (next !== undefined) asked.push(next);
    }
    expect(asked.map(({ phrase }) => phrase)).toEqual(['hums', 'hums', 'buzzes']);
    const helped = of([FIXED, told('tucks', 'help', 'x')]);
    expect(leftOfComplaints(helped, 'enough', [{ phrase: 'tucks', question: 'y' }])).toBeUndefined();
    expect(leftOfComplaints(helped, 'enough', [{ phrase: 'hums', question: 'x' }])).toBeUndefined();
  });
});
