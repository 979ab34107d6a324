/** A change that was tried, as one sentence to be confirmed. */
import { settingWords } from '../../bike/setting-words.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { TriedReading } from '../../words/tried.ts';
import { capital } from '../../form/capital.ts';

const WAYS: Readonly<Record<TriedReading['direction'], string>> = {
  open: 'opened',
  close: 'closed',
  more: 'more',
  less: 'less',
};
const RESULTS: Readonly<Record<TriedReading['result'], string>> = {
  better: 'it got better',
  same: 'it made no difference',
  worse: 'it got worse',
  'not-sure': 'not sure what it did',
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
  const far = by === undefined ? '' : `${by} ${by === 1 ? (unit ?? '').replace(/s$/, '') : (unit ?? '')}`;
  const turned = direction === 'open' || direction === 'close';
  const what = turned
    ? `${WAYS[direction]} ${far}`
    : far === ''
      ? WAYS[direction]
      : `${far} ${WAYS[direction]}`;
  return `${capital(name)} ${what.trim()}: ${RESULTS[result]}${said === undefined ? '' : ` ("${said}")`}${putBack === 'yes' ? '; put back' : ''}`;
}
