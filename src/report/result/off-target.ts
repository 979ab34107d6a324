/** What a gauge read off its target, whatever is felt: a bike is not said to be right beside it. */
import { writeNumber } from '../../bike/gauge/read-number.ts';
import type { Case } from '../../casework/case.ts';
import type { Consultation } from '../../casework/consult.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { SheetFinding } from '../../diagnosis/sheet-evidence.ts';
import { BY_WEIGHT, HELD_UP } from '../evidence-words.ts';
import { signed } from '../round.ts';
import type { Result } from './result.ts';

/** A finding on the sheet as an answer: how far it is off, and beside what. */
export function sheetAnswer({ deviation, heldUp, byMass }: SheetFinding): string {
  return [
    signed(deviation),
    ...(heldUp === true ? [HELD_UP] : []),
    ...(byMass === true ? [BY_WEIGHT] : []),
  ].join(' ');
}

/** By more than a reading may be off; clicks are counted, and where they end is the rider's taste. */
export function offTargetOf(
  { rules: { settings, questions, sheetCheck }, findings }: PreparedBike,
  kase: Case,
  { heard }: Pick<Consultation, 'heard'>,
): Result['offTarget'] {
  const onSheet = findings.flatMap((f) =>
    f.reads !== 'clicks' && Math.abs(f.deviation) > sheetCheck.near[f.reads]
      ? [{ question: `bike.${settings[f.setting]!.id}`, answer: sheetAnswer(f) }]
      : [],
  );
  const told = new Set(findings.map((f) => settings[f.setting]!.id));
  const answered = heard.evidence.flatMap(({ question, answer }) => {
    const q = questions[question]!;
    if (q.gauge === undefined || q.measures === undefined || answer === q.default || told.has(q.measures))
      return [];
    const measured = kase.answers.find((a) => a.question === q.id)?.measured;
    return [
      {
        question: q.id,
        answer: q.answers[answer]!.id,
        ...(measured === undefined ? {} : { measured: writeNumber(measured.value, measured.unit) }),
      },
    ];
  });
  return [...onSheet, ...answered];
}
