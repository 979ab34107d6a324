/** What a gauge asks for: a step that brings what was measured nearer to its target. */
import type { Known } from '../diagnosis/gates.ts';
import type { Model } from '../diagnosis/model.ts';
import { sheetFindings } from '../diagnosis/sheet-evidence.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import type { Adjustment } from '../rulebase/compiled-adjustment.ts';

/** Causes that a ruler or a gauge read, by more than a reading may be off; by index. Clicks are counted, and no gauge. */
function gaugedOff(model: Model, sheet: BikeSheet, known: Known | undefined): ReadonlySet<number> {
  const { settings, questions, sheetCheck } = model.rules;
  const off = new Set<number>();
  for (const { reads, deviation, decibans } of sheetFindings(model, sheet))
    if (reads !== 'clicks' && Math.abs(deviation) > sheetCheck.near[reads])
      for (const [cause, db] of decibans) if (db > 0) off.add(cause);
  for (const { id, measures, answers, links } of known === undefined ? [] : questions) {
    const said = measures === undefined ? undefined : known!.answers.get(id);
    const setting = settings.find((one) => one.id === measures);
    for (const [cause, sign] of said === undefined ? [] : links)
      if (answers[sign]!.id === said && setting?.causes.includes(cause) === true) off.add(cause);
  }
  return off;
}

/**
 * Whether an adjustment brings what a gauge read off nearer to its target. A measured setting is kept there unless it rides
 * worse (common practice, no source).
 * @param known what was answered; absent: nothing
 */
export function isByGauge(
  model: Model,
  sheet: BikeSheet,
  { change, moves }: Pick<Adjustment, 'change' | 'moves'>,
  known?: Known,
): boolean {
  const { settings } = model.rules;
  const off = gaugedOff(model, sheet, known);
  return moves.some(
    ({ setting, toward }) =>
      settings[setting]!.id === change?.setting &&
      settings[setting]!.causes.some((cause) => cause !== toward && off.has(cause)),
  );
}
