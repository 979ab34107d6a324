/** `earshot bike set`: what was counted or read goes onto the sheet, and into its log. Nothing was turned. */
import { setValues, type Given } from '../bike/set-values.ts';
import { movedBetween } from '../bike/stands.ts';
import { writeSheet } from '../bike/write.ts';
import type { EntryDraft } from '../logbook/entry.ts';
import { neverCounted, stockTaking } from '../logbook/stock-taking.ts';
import type { Style } from '../report/style.ts';
import { parse } from 'yaml';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { onlyBike } from './known-bikes.ts';
import { writing } from './log-write.ts';
import { openToWrite } from './open-bike.ts';

export interface BikeSetOptions {
  /** absent: the only bike that is known */
  readonly bike?: string | undefined;
  /** key=value */
  readonly values: readonly string[];
  readonly reason?: string | undefined;
  readonly style: Style;
}

export async function bikeSet(options: BikeSetOptions, io: Io): Promise<ExitCode> {
  const given = options.values.map(keyAndValue);
  const bike = await openToWrite(options.bike ?? onlyBike(io), io);
  const intent = `set ${options.values.join(' ')}`;
  return await writing(bike, options, intent, io, async (before, write) => {
    const { sheet, problems } = setValues(before, given);
    if (sheet === undefined) throw new Refusal(problems.join('\n'), EXIT.some);
    if (JSON.stringify(writeSheet(sheet)) === JSON.stringify(writeSheet(before)))
      throw new Refusal('The sheet says so already; nothing was written.', EXIT.some);
    const changes = movedBetween(before, sheet);
    // The clicks of a knob, or a mass, stand nowhere in a log: the words keep what was written.
    const draft: EntryDraft =
      changes.length > 0
        ? { kind: 'counted', changes, ...(options.reason === undefined ? {} : { reason: options.reason }) }
        : { kind: 'note', reason: `${options.reason ?? 'on the sheet'}: ${options.values.join(', ')}` };
    if (neverCounted((await bike.log.readHistory()).entries) && changes.length > 0) {
      const start = stockTaking(before);
      if (start.changes?.length !== 0) await bike.log.append(start);
    }
    const what = { kind: draft.kind as 'counted' | 'note', changes };
    await write(what, sheet, () => bike.log.append(draft));
  });
}

function keyAndValue(text: string): Given {
  const equals = text.indexOf('=');
  const value = text.slice(equals + 1).trim();
  if (equals < 1 || value === '')
    throw new Refusal(
      `${text}: write a setting, = and its value, such as front.rebound.low=5 or rear.sag=29%.`,
    );
  return { key: text.slice(0, equals).trim().toLowerCase(), value: scalar(value) };
}

/** `5` is a number, `29%` and `1.6 bar` are texts. */
function scalar(text: string): unknown {
  try {
    return parse(text, { schema: 'core', maxAliasCount: 0 }) as unknown;
  } catch {
    return text;
  }
}
