/** The knobs and switches of an end, as its sheet has them. */
import { SIDES } from '../circuits.ts';
import { settingWords } from '../setting-words.ts';
import { rowsOf } from '../settings.ts';
import { unless, type Told } from './sheet-check.ts';
import type { BikeSheet, End, EndSheet } from '../sheet.ts';

export function reboundChecks({ adjusters }: EndSheet, end: End): Told[] {
  const [rebound] = SIDES;
  return rebound!.circuits.every((circuit) => adjusters[circuit] === undefined)
    ? [
        {
          severity: 'missing',
          message: `no ${rebound!.side} knob recorded`,
          todo: 'If there is one, count its clicks.',
          writeDown: `${end}.rebound.low.clicks=N`,
        },
      ]
    : [];
}

/** Every knob and switch of an end, those that packs added included. */
export function knobChecks(sheet: BikeSheet, end: End): Told[] {
  return rowsOf(sheet.settings).flatMap((row): Told[] => {
    if (row.end !== end || (row.circuit === undefined && row.own === undefined)) return [];
    const said = row.shown(sheet);
    if (said === undefined) return [];
    const name = settingWords(row.setting, sheet).replace(`${end} `, '');
    const { now, of, maker, names, unit } = said;
    const clicks = unit === 'clicks';
    if (names !== undefined) return unless(now, `${name}: current setting not recorded`, row.own!.find);
    if (!clicks) return unless(now, `${name} not recorded`, row.own!.find);
    const near = row.circuit === undefined ? undefined : sheet.ends[end].adjusters[row.circuit]?.near;
    const stop = now === 0 ? 'closed' : now !== undefined && now === of ? 'open' : undefined;
    return [
      ...unless(
        now,
        near === undefined
          ? `${name}: current setting not recorded`
          : `${name}: current setting not recorded; roughly: ${near}`,
        'Count from fully closed, then turn it back. You need the number to undo a change.',
      ),
      ...unless(
        maker,
        `${name}: recommended clicks not recorded`,
        'See the manual; count from closed.',
        'note',
      ),
      ...(stop === undefined
        ? []
        : [
            {
              severity: 'note' as const,
              message: `${name} is fully ${stop}`,
              todo: `It goes no further that way${maker === undefined ? '' : `; ${maker} is recommended`}.`,
            },
          ]),
    ];
  });
}
