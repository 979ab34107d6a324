/** What was changed already, and what came of it: asked once, and one key where nothing was. */
import { dialOf } from '../../bike/setting-access.ts';
import { changeable, rowsOf } from '../../bike/settings.ts';
import { settingWords } from '../../bike/setting-words.ts';
import { ENDS, type BikeSheet } from '../../bike/sheet.ts';
import type { Tried } from '../../casework/case.ts';
import type { Choice, Prompter } from '../../console/prompter.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { askPaged } from './ask-paged.ts';

/** What is asked about. */
export interface Triable {
  /** absent: all that a bike can have */
  readonly sheet: BikeSheet | undefined;
  /** the settings that packs add */
  readonly own: readonly OwnSetting[];
}

/** More than a rider remembers apart. */
const MOST = 5;

/** @returns undefined to go back */
export async function askTried(prompter: Prompter, bike: Triable): Promise<Tried[] | undefined> {
  const tried: Tried[] = [];
  while (tried.length < MOST) {
    const first = tried.length === 0;
    const { value } = await prompter.ask({
      head: first ? '' : `Noted: ${tried.length}`,
      message: first ? 'Tried anything yet?' : 'Tried anything else?',
      choices: [
        { value: 'no', name: first ? 'no, nothing' : 'no' },
        ...ENDS.map((end) => ({ value: end, name: `yes, at the ${end}` })),
        { value: 'bike', name: 'yes, bars or something else' },
      ],
      actions: [{ key: 'b', value: 'back', name: 'back' }],
    });
    if (value === 'back') {
      if (first) return undefined;
      tried.pop();
      continue;
    }
    if (value === 'no') break;
    const one = await askOne(prompter, value, bike);
    if (one !== undefined) tried.push(one);
  }
  return tried;
}

/** One change: what, which way, how far, what it did, and whether it was put back; undefined to go back. */
async function askOne(prompter: Prompter, where: string, bike: Triable): Promise<Tried | undefined> {
  const choose = async (message: string, choices: readonly Choice[]): Promise<string | undefined> => {
    const { value } = await askPaged(prompter, {
      head: '',
      message,
      choices,
      actions: [{ key: 'b', value: 'back', name: 'back' }],
    });
    return value === 'back' ? undefined : value;
  };
  const settings = settingsAt(where, bike);
  const setting = await choose('What was changed?', settings);
  if (setting === undefined) return undefined;
  const unit = changeable(bike.own).get(setting)![0]!;
  const direction = await choose('Which way?', waysOf(unit));
  if (direction === undefined) return undefined;
  const far = Number(
    (await prompter.text(`How many ${unit}? (Return: don't know)`)).trim().replace(',', '.'),
  );
  const result = await choose('What did it do?', [
    { value: 'better', name: 'better' },
    { value: 'same', name: 'no difference' },
    { value: 'worse', name: 'worse' },
    { value: 'not-sure', name: 'not sure' },
  ]);
  if (result === undefined) return undefined;
  const putBack = await choose('Was it put back?', [
    { value: 'yes', name: 'yes, it is as it was' },
    { value: 'no', name: 'no, it is still like that' },
    { value: 'unknown', name: "don't know" },
  ]);
  if (putBack === undefined) return undefined;
  return {
    setting,
    direction,
    ...(Number.isFinite(far) && far > 0 ? { by: far, unit } : {}),
    result: result as Tried['result'],
    putBack: putBack as Tried['putBack'],
  };
}

function settingsAt(where: string, { sheet, own }: Triable): Choice[] {
  const rows = rowsOf(own).filter(
    ({ setting, units: [unit], end = 'bike' }) =>
      unit !== undefined &&
      end === where &&
      (sheet === undefined || !('message' in dialOf(sheet, { setting, unit }))),
  );
  return [...new Set(rows.map((row) => row.setting))].map((value) => ({
    value,
    name: settingWords(value, sheet).replace(`${where} `, ''),
  }));
}

function waysOf(unit: string): Choice[] {
  return unit === 'clicks'
    ? [
        { value: 'open', name: 'opened: out, anticlockwise' },
        { value: 'close', name: 'closed: in, clockwise' },
      ]
    : [
        { value: 'more', name: `more ${unit === 'positions' ? 'open' : unit}` },
        {
          value: 'less',
          name: unit === 'positions' ? 'less open' : `${unit === 'spacers' ? 'fewer' : 'less'} ${unit}`,
        },
      ];
}
