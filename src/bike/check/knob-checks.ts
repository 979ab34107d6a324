/** The knobs and switches of an end, as its sheet has them. */
import { SIDES } from '../circuits.ts';
import { settingWords } from '../setting-words.ts';
import { rowsOf } from '../settings.ts';
import { told, uncounted, unless, type Told } from './sheet-check.ts';
import type { SheetTrade } from './sheet-trade.ts';
import type { BikeSheet, End, EndSheet } from '../sheet.ts';

export function reboundChecks({ adjusters }: EndSheet, end: End, todo: SheetTrade['todo']): Told[] {
  const [rebound] = SIDES;
  return rebound!.circuits.every((circuit) => adjusters[circuit] === undefined)
    ? uncounted(undefined, `no ${rebound!.side} knob recorded`, todo.rebound, `${end}.rebound.low.clicks=N`)
    : [];
}

/** Every knob and switch of an end, those that packs added included. */
export function knobChecks(sheet: BikeSheet, end: End, { near: enough, todo }: SheetTrade): Told[] {
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
        todo.clicks,
      ),
      ...unless(maker, `${name}: recommended clicks not recorded`, todo.recommended, 'note'),
      ...(stop === undefined &&
      now !== undefined &&
      maker !== undefined &&
      Math.abs(now - maker) > enough.clicks
        ? told(
            'note',
            `${name} is at ${now}, ${Math.abs(now - maker)} clicks more ${now > maker ? 'open' : 'closed'} than the recommended ${maker}`,
            todo['clicks-off'],
          )
        : []),
      ...(stop === undefined
        ? []
        : told(
            'note',
            `${name} is fully ${stop}`,
            `It goes no further that way${maker === undefined ? '' : `; ${maker} is recommended`}.`,
          )),
    ];
  });
}
