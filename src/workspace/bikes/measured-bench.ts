/** The bench of a bike whose numbers were told in the answers: it steps by them, as by those of its sheet. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { withReadings, type Reading } from '../../bike/gauge/with-readings.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CaseAnswer } from '../../casework/case.ts';
import { priorOf } from '../../diagnosis/belief.ts';
import type { Model } from '../../diagnosis/model.ts';
import { oddsWithSheet } from '../../diagnosis/sheet-evidence.ts';

/**
 * What was told is evidence as the answer that it is; so it is none of the sheet's besides, nor is an older number of the
 * same setting.
 * @param bench with the numbers of other answers, or with none
 * @param make the bench of another sheet
 * @returns the same one where the answers tell no other numbers than it has
 */
export async function measuredBench(
  model: Model,
  bench: PreparedBike,
  answers: readonly CaseAnswer[],
  make: (sheet: BikeSheet) => Promise<PreparedBike>,
): Promise<PreparedBike> {
  const plain = bench.told?.plain ?? bench;
  const { sheet } = plain;
  if (sheet === undefined) return bench;
  const told = answers.flatMap((answer) => readingOf(model, answer) ?? []);
  if (told.length === 0) return plain;
  const readings = told.map(({ reading }) => reading);
  const key = JSON.stringify(readings);
  if (key === bench.told?.key) return bench;
  const made = await make(withReadings(sheet, readings));
  const settings = new Set(told.map(({ setting }) => setting));
  const findings = plain.findings.filter((f) => !settings.has(model.rules.settings[f.setting]!.id));
  const prior = priorOf(model, oddsWithSheet(model, findings, sheet));
  return { ...made, findings, prior, told: { plain, key } };
}

function readingOf(
  { rules, questionIndex }: Model,
  { question: id, measured }: CaseAnswer,
): { readonly setting: string | undefined; readonly reading: Reading } | undefined {
  const { gauge, end, measures } = rules.questions[questionIndex.get(id)!]!;
  if (measured === undefined || gauge === undefined || end === undefined) return undefined;
  const { value, band } = measured;
  return { setting: measures, reading: { end, reads: gauge.reads, value, band } };
}
