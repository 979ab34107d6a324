/** Answers to what a rider asked about doing, a line each. */
import { withStop } from '../../form/full-stop.ts';
import { MOST_NAME, printable } from '../foreign-text.ts';
import { inTen } from '../phrases.ts';
import type { Result } from '../result/result.ts';
import { paragraph } from '../wrap.ts';
import type { Words } from './voice.ts';

export function askedLines({ asked = [], verdict }: Result, { style }: Words): string[] {
  return asked.map((one) =>
    paragraph(
      `"${printable(one.phrase, MOST_NAME)}": ${answerTo(one, verdict)}`,
      style.width,
      '  - ',
      '    ',
    ),
  );
}

function answerTo(
  { first, why, better, worse }: NonNullable<Result['asked']>[number],
  verdict: Result['verdict'],
): string {
  if (first && verdict === 'change') return 'yes, that is this change.';
  if (why !== null) return withStop(`no: ${why}`);
  const odds = `One step of it: ${inTen(better)} better, ${inTen(worse)} worse.`;
  return worse >= better ? `no. ${odds}` : `not now. ${odds}`;
}
