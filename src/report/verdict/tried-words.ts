/** A change that was tried, as one sentence to be confirmed. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { settingWords } from '../../bike/setting-words.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Tried } from '../../casework/case.ts';
import type { TriedReading } from '../../words/tried/tried.ts';
import { capital } from '../../form/text.ts';
import { changeWords } from '../bike/change-words.ts';

const WAYS: Readonly<Record<string, string>> = {
  open: 'opened',
  close: 'closed',
  more: 'more',
  less: 'less',
};
const RESULTS: Readonly<Record<Tried['result'], string>> = {
  better: 'it got better',
  same: 'it made no difference',
  worse: 'it got worse',
  'not-sure': 'not sure what it did',
};

const LEFT: Readonly<Record<Tried['putBack'], string>> = {
  yes: 'put back',
  no: 'still on',
  unknown: 'not known whether it was put back',
};

/** `Rear low-speed rebound opened 2 clicks: it made no difference; put back`; in the rider's words where it did two things. */
export function triedWords(
  {
    setting,
    end,
    direction,
    by,
    unit,
    result,
    said,
    putBack,
  }: Omit<TriedReading, 'text' | 'confirmed' | 'spans' | 'for'>,
  sheet?: BikeSheet,
): string {
  const name =
    end === undefined
      ? settingWords(`front.${setting}`).replace('front ', '')
      : settingWords(`${end}.${setting}`, sheet);
  const quoted = said === undefined ? '' : ` ("${said}")`;
  return `${capital(name)} ${turnedWords(direction, by, unit)}: ${RESULTS[result]}${quoted}${putBack === 'yes' ? '; put back' : ''}`;
}

/** `opened 2 clicks`, `5 psi less`; by which way alone where nobody said how far. */
function turnedWords(direction: string, by: number | undefined, unit = ''): string {
  const way = WAYS[direction] ?? direction;
  if (by === undefined) return way;
  const far = `${by} ${by === 1 ? unit.replace(/s$/, '') : unit}`.trim();
  return direction === 'open' || direction === 'close' ? `${way} ${far}` : `${far} ${way}`;
}

/** The same of what was told at the prompt, in a case that holds it. */
export function toldWords(
  { change, setting = '', end, direction = '', by, unit, result, putBack }: Tried,
  { rules, sheet }: Pick<PreparedBike, 'rules' | 'sheet'>,
): string {
  const whole = end === undefined ? setting : `${end}.${setting}`;
  const name = rules.settings.find(({ id }) => id === whole)?.name ?? settingWords(whole, sheet);
  const ways = typeof direction === 'string' ? [direction] : direction;
  const what =
    change === undefined
      ? `${name} ${ways.map((way) => turnedWords(way, by, unit)).join(' or ')}`
      : changeWords(change, sheet, rules);
  return `${capital(what)}: ${RESULTS[result]}; ${LEFT[putBack]}`;
}
