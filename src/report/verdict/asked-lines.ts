/** Answers to what a rider asked about doing, a line each. */
import { withStop } from '../../form/text.ts';
import { MOST_NAME, printable } from '../foreign-text.ts';
import { inTen } from '../phrases.ts';
import type { Result } from '../result/result.ts';
import { paragraph } from '../wrap.ts';
import type { Words } from './voice.ts';

export function askedLines(result: Result, { style }: Words): string[] {
  const { asked = [] } = result;
  return asked.map((one) => {
    // One question may ask about two things: each has its own answer.
    const isOneOf = asked.filter(({ phrase }) => phrase === one.phrase).length > 1;
    const about = isOneOf ? ` (${one.what})` : '';
    return paragraph(
      `"${printable(one.phrase, MOST_NAME)}"${about}: ${answerTo(one, result)}`,
      style.width,
      '  - ',
      '    ',
    );
  });
}

function answerTo(
  { id, first, why, better, worse }: NonNullable<Result['asked']>[number],
  { verdict, insteadOf, complaints, adjustments }: Result,
): string {
  const isChange = verdict === 'change';
  if (first && isChange) return 'yes, that is this change.';
  if (why !== null) return withStop(`no: ${why}`);
  if (isChange && insteadOf?.id === id) return withStop(`not yet: ${insteadOf.why}`);
  const odds = `One step of it: ${inTen(better)} better, ${inTen(worse)} worse.`;
  const isNamed = [...complaints.flatMap(({ instead }) => instead ?? []), ...adjustments].some(
    (one) => one.id === id,
  );
  return worse >= better && !(isChange && isNamed) ? `no. ${odds}` : `not now. ${odds}`;
}
