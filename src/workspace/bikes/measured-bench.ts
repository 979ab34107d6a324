/** The bench of a bike whose numbers were told in the answers: it steps by them, as by those of its sheet. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Of } from '../../bike/dial/dial.ts';
import { outlives, withReadings, type Reading } from '../../bike/gauge/with-readings.ts';
import { changesOf, type Deed } from '../../bike/deed.ts';
import { changeable } from '../../bike/settings.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CaseAnswer, Round } from '../../casework/case.ts';
import { priorOf } from '../../diagnosis/belief.ts';
import type { Model } from '../../diagnosis/model.ts';
import { hasReading, oddsWithSheet } from '../../diagnosis/sheet-evidence.ts';

/**
 * What was told is evidence as the answer that it is; so it is none of the sheet's besides, nor is an older number of the
 * same setting, whatever was ridden since, nor what was read at another pressure. The bike stands by it until a change that was kept made it untrue.
 * @param bench with the numbers of other answers, or with none
 * @param make the bench of another sheet
 * @returns the same one where the answers tell no other numbers than it has
 */
export async function measuredBench(
  model: Model,
  bench: PreparedBike,
  { answers, results }: Pick<Round, 'answers' | 'results'>,
  make: (sheet: BikeSheet) => Promise<PreparedBike>,
): Promise<PreparedBike> {
  const plain = bench.told?.plain ?? bench;
  const { sheet } = plain;
  if (sheet === undefined) return bench;
  const told = answers.flatMap((answer) => readingOf(model, answer) ?? []);
  if (told.length === 0) return plain;
  const settings = new Set(told.map(({ setting }) => setting));
  const readings = told.flatMap(({ reading }) => (holds(model, sheet, reading, results) ? [reading] : []));
  const key = JSON.stringify([readings, [...settings]]);
  if (key === bench.told?.key) return bench;
  const made = readings.length === 0 ? plain : await make(withReadings(sheet, readings));
  const findings = plain.findings.filter(({ setting }) => {
    const own = model.rules.settings[setting]!;
    const gone = hasReading(sheet, own) && !hasReading(made.sheet ?? sheet, own);
    return !settings.has(own.id) && !gone;
  });
  const odds = oddsWithSheet(model, findings, sheet);
  return {
    ...made,
    ...(plain.leftGood === undefined ? {} : { leftGood: plain.leftGood }),
    findings,
    odds,
    prior: priorOf(model, odds),
    told: { plain, key },
  };
}

/** Whether what was measured before these trials is so after them. */
function holds(model: Model, sheet: BikeSheet, reading: Reading, results: Round['results']): boolean {
  return results.every(
    ({ change, kept, changedAfter }) =>
      changedAfter !== true &&
      (!kept || turnedBy(model, sheet, change).every((of) => outlives(sheet, reading, of))),
  );
}

/** What a deed turned; of an adjustment without a number, all that it moves. */
function turnedBy({ rules }: Model, { settings: own }: BikeSheet, deed: Deed): readonly Of[] {
  const named = 'name' in deed ? rules.adjustments.find(({ id }) => id === deed.name) : undefined;
  if (named === undefined) return changesOf(deed);
  if (named.change !== undefined) return [named.change];
  const units = changeable(own);
  return named.moves.flatMap((move) => {
    const setting = rules.settings[move.setting]!.id;
    return (units.get(setting) ?? []).map((unit) => ({ setting, unit }));
  });
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
