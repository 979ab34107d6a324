/** What can have been tried on a bike: each thing with its ways, and the unit it is counted in. */
import type { ChangeUnit } from '../../bike/change.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import type { Row } from '../../bike/row.ts';
import { dialOf, rowsOf } from '../../bike/settings.ts';
import { settingWords } from '../../bike/setting-words.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Choice } from '../../console/prompter.ts';
import type { CompiledRules, Setting } from '../../rulebase/compiled.ts';

/** The bike that is asked about. */
export interface Triable {
  /** absent: all that a bike can have */
  readonly sheet: BikeSheet | undefined;
  readonly rules: Pick<CompiledRules, 'settings' | 'causes' | 'adjusters' | 'openings' | 'questions'>;
}

export interface Thing {
  /** where it stands: unlike the setting, it tells a coil from its preload */
  readonly stand: string;
  readonly setting: string;
  readonly name: string;
  /** absent: nothing is counted */
  readonly unit?: ChangeUnit;
  /** one alone: nobody need be asked which */
  readonly ways: readonly Choice[];
}

/** @param where an end, or `bike` for what is at neither: bars, levers, saddle */
export function thingsAt(where: string, { sheet, rules }: Triable): Thing[] {
  const rows = rowsOf(rules.adjusters).filter(({ end = 'bike' }) => end === where);
  const counted = rows.flatMap((row): Thing[] => {
    const unit = unitOf(row, sheet);
    if (unit === undefined) return [];
    const several = rows.filter((one) => one.setting === row.setting && unitOf(one, sheet)).length > 1;
    const name = several || row.own !== undefined ? nameOf(row, several) : settingWords(row.stand, sheet);
    const { setting, stand } = row;
    return [{ stand, setting, unit, name: name.replace(`${where} `, ''), ways: waysOf(unit, row.own) }];
  });
  const fitted = rules.settings.filter(
    ({ id, end, kind }) =>
      where === 'bike' &&
      end === undefined &&
      kind === 'cockpit' &&
      rows.every(({ setting }) => setting !== id),
  );
  return [
    ...counted,
    ...fitted.map((one): Thing => ({
      stand: one.id,
      setting: one.id,
      name: one.name,
      ways: told(one, rules),
    })),
  ];
}

function nameOf(row: Row, several: boolean): string {
  return several ? row.title.toLowerCase() : row.words;
}

/** The unit it is counted in on this bike; undefined where the bike has no such thing, or it is only read. */
function unitOf({ setting, units }: Row, sheet: BikeSheet | undefined): ChangeUnit | undefined {
  const own: readonly string[] = sheet === undefined ? [] : Object.values(sheet.units);
  // A collar is turned, where the sheet says how far a turn moves it.
  const rank = (unit: ChangeUnit): number => (unit === 'turns' ? 0 : own.includes(unit) ? 1 : 2);
  return units
    .toSorted((a, b) => rank(a) - rank(b))
    .find((unit) => sheet === undefined || !('message' in dialOf(sheet, { setting, unit })));
}

/** Both ways of a knob. */
export const KNOB_WAYS: readonly Choice[] = [
  { value: 'open', name: 'opened: out, anticlockwise' },
  { value: 'close', name: 'closed: in, clockwise' },
];

function waysOf(unit: ChangeUnit, own: OwnSetting | undefined): readonly Choice[] {
  if (unit === 'clicks') return KNOB_WAYS;
  if (unit === 'positions') {
    const [low, high] = [own?.positions?.[0], own?.positions?.at(-1)];
    return [
      { value: 'more', name: high === undefined ? 'more open' : `towards ${high}` },
      { value: 'less', name: low === undefined ? 'less open' : `towards ${low}` },
    ];
  }
  return [
    { value: 'more', name: `more ${unit}` },
    { value: 'less', name: `${['spacers', 'turns'].includes(unit) ? 'fewer' : 'less'} ${unit}` },
  ];
}

/** By the word that riders use first for each direction; what can be off in one way alone was changed, whichever way. */
function told({ ways = {}, causes: own }: Setting, { causes }: Triable['rules']): Choice[] {
  const words = own.flatMap((cause) => {
    const word = Object.keys(ways).find((way) => ways[way] === causes[cause]!.direction);
    return word === undefined ? [] : [{ value: word, name: word }];
  });
  return words.length > 1 ? words : [{ value: 'changed', name: 'changed' }];
}
