/** Once the first step was ridden: log and sheet are told, and the interview goes on with what is left. */
import { standsOf } from '../../../bike/setting-values.ts';
import { rowFor } from '../../../bike/settings.ts';
import { settingWords } from '../../../bike/setting-words.ts';
import type { Io } from '../../../host/io.ts';
import { toCaseFile, type Interview } from '../../../interview/state.ts';
import type { Plain } from '../../../logbook/documents.ts';
import { shownValue } from '../../../logbook/entry.ts';
import type { Style } from '../../../report/style.ts';
import { foldCommand, paragraph } from '../../../report/wrap.ts';
import { openToWrite } from '../../../workspace/bikes/open-bike.ts';
import { writeRidden } from '../../../workspace/bikes/ridden-step.ts';
import { outlookOf } from '../../../workspace/outlook.ts';
import type { CaseRecord } from '../../../workspace/cases/case-texts.ts';
import { newRecord } from '../begun-from.ts';
import type { Ridden } from '../interview-session.ts';

/**
 * Writes down what came of the step, and says how the bike should stand now.
 * @param bike the sheet's file as the line names it
 */
export async function tellLog(
  state: Interview,
  { change, outcome }: Ridden,
  { bike, style }: { readonly bike: string; readonly style: Style },
  io: Io,
): Promise<void> {
  const open = await openToWrite(bike, io);
  const told = { id: state.id, data: toCaseFile(state) };
  const moved = await writeRidden(open, { change, outcome, case: told }, io);
  const { sheet } = open;
  const { stand } = rowFor(change, sheet.settings) ?? {};
  const stays = standsOf(sheet).filter(({ setting }) => setting === stand);
  const words = (moved.length > 0 ? moved.map(({ to, ...rest }) => ({ ...rest, value: to })) : stays).map(
    ({ setting, value, unit }) => `${settingWords(setting, sheet)} ${shownValue(value, unit)}`,
  );
  const said =
    moved.length > 0
      ? `The bike sheet now says ${words.join(', ')}. Make sure the bike is set the same.`
      : `Put it back now: ${words.join(', ')}.`;
  await io.out(`\n${paragraph(`Written into the log. ${said}`, style.width)}\n`);
}

/** What is next on that bike, where nothing is left of what bothered. */
export async function sayNext(
  bike: string,
  { rules, style }: { readonly rules: readonly string[]; readonly style: Style },
  io: Io,
): Promise<void> {
  const { next } = await outlookOf(bike, await openToWrite(bike, io), rules, io);
  const lines = next.do.split('\n').map((line) => paragraph(line, style.width));
  if (next.command !== undefined) lines.push(foldCommand(next.command, style.width));
  await io.out(`${lines.join('\n')}\n`);
}

/**
 * The next interview where a step that stays left something of what bothered: what was answered holds still, and is told of
 * the bike as it is now. It is about the bike of the line.
 * @param data a case as its file has it
 */
export function stillBothers(
  { bike: _, has: __, tried: ___, changed: ____, results: _____, earlier: ______, interview, ...data }: Plain,
  io: Io,
): CaseRecord {
  const { about, for: whom } = (interview ?? {}) as { readonly about?: unknown; readonly for?: unknown };
  const record = newRecord({ id: undefined }, io);
  const begun = {
    ...(about === undefined ? {} : { about }),
    ...(whom === undefined ? {} : { for: whom }),
    begun: io.now().toISOString(),
  };
  return { ...record, data: { ...data, id: record.name, interview: begun } };
}
