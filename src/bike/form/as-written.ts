/** Where a value of the canonical form stands in a file that uses a shorter one. */
import { isMap } from '../../form/is-map.ts';
import { SIDES, speedOf } from '../circuits.ts';
import type { Edit } from './edit-file.ts';

/**
 * `front.rebound.low.now` is `front.rebound.now` in a file whose only rebound knob is written without its speed, and
 * `front.lever.now` is `front.lever` where the value stands alone.
 * @param raw the file as it was read
 */
export function asWritten({ path, ...edit }: Edit, raw: unknown): Edit {
  const out: string[] = [];
  let here: unknown = raw;
  for (const [i, key] of path.entries()) {
    if (!isMap(here)) {
      // The value alone stands where the map would be.
      if (here !== undefined && here !== null && key === 'now' && i === path.length - 1) break;
      out.push(key);
      continue;
    }
    const side = SIDES.find((one) => one.side === out.at(-1));
    if (side !== undefined && Object.hasOwn(here, 'clicks') && key === speedOf(side.circuits[0]!)) continue;
    out.push(key);
    here = Object.hasOwn(here, key) ? here[key] : undefined;
  }
  return { ...edit, path: out };
}
