/** What becomes of everything that was said to bother: whether the first change is for it, and what to do where it is not. */
import { waitsBehind } from '../../advice/put-first.ts';
import { withStop } from '../../form/text.ts';
import { askWords, choiceWords } from '../evidence-words.ts';
import { MOST_NAME, printable } from '../foreign-text.ts';
import { firstOf, type Result } from '../result/result.ts';
import type { Words } from './voice.ts';
import { paragraph } from '../wrap.ts';

/** A line about a complaint, and whether the first change is known not to help it. */
export interface ComplaintLine {
  readonly line: string;
  readonly unhelped: boolean;
}

/** What becomes of every complaint, a line each; none where the first change is for the only one. */
export function complaintLines(r: Result, words: Words): ComplaintLine[] {
  if (r.verdict === 'stop') return [];
  const list = r.complaints;
  if (list.length === 0 || (list.length === 1 && isAimed(list[0]!))) return [];
  const said = new Map<string, Result['complaints'][number][]>();
  for (const one of list) said.set(one.phrase, [...(said.get(one.phrase) ?? []), one]);
  // Part of another phrase, with the same fate, is no complaint of its own.
  const parts = [...said.keys()].filter((phrase) =>
    [...said].some(
      ([other, all]) =>
        other !== phrase &&
        other.includes(phrase) &&
        fateOf(all, r, words) === fateOf(said.get(phrase)!, r, words),
    ),
  );
  for (const phrase of parts) said.delete(phrase);
  return [...said].map(([phrase, all]) => ({
    line: paragraph(
      `"${printable(phrase, MOST_NAME)}": ${fateOf(all, r, words)}`,
      words.style.width,
      '  - ',
      '    ',
    ),
    unhelped: r.verdict === 'change' && all.every(({ promise }) => promise === 'none'),
  }));
}

/** @param all what one phrase was confirmed to mean */
function fateOf(all: Result['complaints'], r: Result, { rules, audience }: Words): string {
  // The same words, for the change and against it: two answers about them do not go together.
  if (all.some(isAimed) && all.some(({ promise }) => promise === 'none'))
    return 'two answers about it disagree. Check which is right before you change anything.';
  const one = all.find(isAimed) ?? all[0]!;
  const { promise, instead, ask } = one;
  if (promise === 'fix') return 'this change should fix it.';
  if (promise === 'aimed') return 'this change may help.';
  const question =
    ask === null
      ? undefined
      : `${withStop(askWords(rules, ask, audience))}${choiceWords(rules, ask, audience)}`;
  const other =
    // What was ridden in vain is no way out of anything.
    instead === null || r.verdict !== 'change' || r.refused.some(({ id }) => id === instead.id)
      ? undefined
      : withStop(audience === 'rider' ? instead.plain : instead.do);
  if (promise === 'help')
    return `this change may help. If not${other === undefined && question !== undefined ? ', check this' : ''}: ${other ?? question ?? 'ask again.'}`;
  if (other !== undefined && waitsForFirst(one, r)) return `this comes first, then: ${other}`;
  const next =
    question !== undefined
      ? `Check this. ${question}`
      : other !== undefined
        ? `Next try: ${other}`
        : r.because === 'measure-first'
          ? 'Ask again after this check.'
          : all.some(({ neverNormal }) => neverNormal)
            ? 'No sound bike does this: have a qualified mechanic find it before the next ride.'
            : 'Watch for it on the next ride.';
  if (r.verdict !== 'change' || firstOf(r)?.feelsBetter === null) return next;
  // What the words alone could mean says nothing against the change.
  if (promise !== null) return `this change will not fix it. ${next}`;
  return `${all.some(({ told }) => told) ? 'nothing found so far explains it' : 'not confirmed yet'}. ${next}`;
}

/** Whether the change for it is the one that waits for what is measured or put back first. */
export function waitsForFirst(
  { instead }: Result['complaints'][number],
  { insteadOf, because }: Pick<Result, 'insteadOf' | 'because'>,
): boolean {
  return waitsBehind(because) && instead !== null && instead.id === insteadOf?.id;
}

/** Of what the rider said that which the first change does most for; undefined where it is for nothing that was said. */
export function aimedAt({ complaints }: Pick<Result, 'complaints'>): string | undefined {
  const [most] = complaints.filter(isAimed).toSorted((a, b) => (b.helped ?? 0) - (a.helped ?? 0));
  const phrase = most?.phrase;
  return phrase === undefined ? undefined : printable(phrase, MOST_NAME);
}

function isAimed({ promise }: Result['complaints'][number]): boolean {
  return promise === 'fix' || promise === 'aimed';
}
