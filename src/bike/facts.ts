/** What the bike sheet says of a path, in the words that gates and adjustments use. */
import { CIRCUITS, ENDS, type BikeSheet, type Circuit, type End } from './sheet.ts';

/**
 * `front.spring` → air | coil; `rear.rebound.high` → knob | none; `kind` → trail | enduro | downhill.
 * @returns undefined when the sheet has no such path
 */
export function sheetFact(sheet: BikeSheet, path: string): string | undefined {
  if (path === 'kind') return sheet.kind;
  const [end, ...rest] = path.split('.');
  if (!ENDS.includes(end as End)) return undefined;
  const part = sheet.ends[end as End];
  const name = rest.join('.');
  if (name === 'spring' || name === 'spring.kind') return part.spring.kind;
  if (CIRCUITS.includes(name as Circuit))
    return part.adjusters[name as Circuit] === undefined ? 'none' : 'knob';
  return undefined;
}
