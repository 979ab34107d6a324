/**
 * The knobs of one end of a bike sheet, in their file form: those of the damper, and what rule packs add.
 *
 *     rebound: { low: { clicks: 16, now: 8, maker: 8, ratio: 1.07 }, high: none }
 *     rebound: { clicks: 16, now: 8 }                 # one rebound knob
 *     rebound: { low: { clicks: unknown, near: middle } }
 *     bottom-out: { clicks: 4, now: 2, maker: 2 }     # a pack's, in clicks
 *     lever: open                                     # a pack's, by named position; or { now: open, maker: open }
 *     bar-width: { now: 780, maker: 800 }             # a pack's, in its unit
 */
import { isMap } from '../../form/is-map.ts';
import { SIDES, speedOf, type Circuit } from '../circuits.ts';
import { defined } from '../defined.ts';
import { Fields } from './fields.ts';
import { LIMITS } from './limits.ts';
import type { OwnPlace, OwnSetting, OwnStand } from '../own-setting.ts';
import { didYouMean } from '../../form/suggest.ts';
import { PLACES, type Adjuster, type EndSheet } from '../sheet.ts';
import { dimensionOf, readQuantity, shown, siPer, type Unit } from '../units.ts';

const KNOB_KEYS = ['clicks', 'now', 'near', 'maker', 'ratio'];
/** Said in place of the clicks of a knob that nobody has counted. */
export const UNCOUNTED = 'unknown';

export function readAdjusters(f: Fields): EndSheet['adjusters'] {
  const out: Partial<Record<Circuit, Adjuster>> = {};
  for (const { side, circuits } of SIDES) {
    const speeds = circuits.map(speedOf);
    // A lone knob may be written without saying which of the two it is.
    const raw = f.get(side);
    if (raw === 'none') continue;
    if (isMap(raw) && Object.hasOwn(raw, 'clicks') && !speeds.some((speed) => Object.hasOwn(raw, speed))) {
      const adjuster = readAdjuster(f.below(side, KNOB_KEYS)!);
      if (adjuster !== undefined) out[circuits[0]!] = adjuster;
      continue;
    }
    const pair = f.below(side, speeds);
    for (const circuit of circuits) {
      const speed = speedOf(circuit);
      const knob = pair?.get(speed) === 'none' ? undefined : pair?.below(speed, KNOB_KEYS);
      const adjuster = knob && readAdjuster(knob);
      if (adjuster !== undefined) out[circuit] = adjuster;
    }
  }
  return out;
}

function readAdjuster(f: Fields): Adjuster | undefined {
  f.need(
    'clicks',
    `Write clicks: and how many the knob has from fully closed to fully open, or clicks: ${UNCOUNTED}.`,
  );
  const range = readClicks(f);
  const counts = { now: f.number('now', [0, 1000], true), maker: f.number('maker', [0, 1000], true) };
  withinRange(f, counts, range);
  const near = f.choice('near', PLACES);
  if (near !== undefined && counts.now !== undefined)
    f.wrong(
      ['near'],
      `${f.name}: now says where the knob stands; near is not needed beside it.`,
      'Take near: out.',
      'warning',
    );
  const ratio = f.number('ratio', LIMITS.ratio);
  if (range === undefined && f.get('clicks') !== UNCOUNTED) return undefined;
  return defined<Adjuster>({ range, ...counts, near: counts.now === undefined ? near : undefined, ratio });
}

/** The clicks a knob has; undefined when they are unknown, missing or wrong. */
function readClicks(f: Fields, range: readonly [number, number] = LIMITS.clicks): number | undefined {
  return f.get('clicks') === UNCOUNTED ? undefined : f.number('clicks', range, true);
}

function withinRange(
  f: Fields,
  counts: Readonly<Record<string, number | undefined>>,
  range: number | undefined,
): void {
  for (const [key, value = 0] of Object.entries(counts))
    if (range !== undefined && value > range)
      f.wrong(
        [key],
        `${f.name}: ${key} is ${value} clicks from closed, but the knob has only ${range}.`,
        'Count again from fully closed, without force.',
      );
}

/** What the sheet says of the settings that packs add, by key. */
export function readOwn(
  f: Fields,
  settings: readonly OwnSetting[],
): Readonly<Record<string, OwnStand>> | undefined {
  const out: Record<string, OwnStand> = {};
  for (const own of settings) {
    const raw = f.get(own.key);
    if (raw === undefined) continue;
    const stand = raw === 'none' ? raw : readPlace(f, own, raw);
    if (stand !== undefined) out[own.key] = stand;
  }
  return Object.keys(out).length === 0 ? undefined : out;
}

function readPlace(f: Fields, own: OwnSetting, raw: unknown): OwnPlace | undefined {
  if (own.unit === 'clicks') {
    const knob = f.below(own.key, ['clicks', 'now', 'near', 'maker']);
    if (knob === undefined) return undefined;
    knob.need(
      'clicks',
      `Write clicks: and how many it has from fully closed to fully open, or clicks: ${UNCOUNTED}.`,
    );
    const range = readClicks(knob, own.range);
    const counts = { now: knob.number('now', [0, 1000], true), maker: knob.number('maker', [0, 1000], true) };
    withinRange(knob, counts, range);
    if (range === undefined && knob.get('clicks') !== UNCOUNTED) return undefined;
    return defined<OwnPlace>({ range, ...counts, near: knob.choice('near', PLACES) });
  }
  // The value alone may stand in place of the map.
  const m = isMap(raw)
    ? f.below(own.key, ['now', 'maker', ...(own.unit === 'positions' ? ['positions'] : ['min', 'max'])])!
    : new Fields({ now: raw }, [...f.path, own.key], ['now'], f.problems);
  const at = (key: string): readonly string[] => (isMap(raw) ? [key] : []);
  if (own.unit !== 'positions') {
    const number = (key: string): number | undefined => readNumber(m, key, at(key), own);
    const place = { now: number('now'), maker: number('maker'), min: number('min'), max: number('max') };
    return defined<OwnPlace>(place);
  }
  const listed = m.get('positions');
  const good = Array.isArray(listed) && listed.length > 0 && listed.every((one) => typeof one === 'string');
  if (listed !== undefined && !good)
    m.wrong(
      ['positions'],
      `${m.name}: positions must be a list of names.`,
      `Write positions: [${(own.positions ?? []).join(', ')}].`,
    );
  const positions = good ? (listed as string[]) : (own.positions ?? []);
  const index = (key: 'now' | 'maker'): number | undefined => {
    const name = m.get(key);
    if (name === undefined || (key === 'now' && name === UNCOUNTED)) return undefined;
    const found = positions.indexOf(String(name));
    if (found >= 0) return found;
    m.wrong(
      at(key),
      `${m.name}: ${shown(String(name))} is no position of the ${own.words}.`,
      didYouMean(String(name), positions) || `Write one of ${positions.join(', ')}, or none.`,
    );
    return undefined;
  };
  return defined<OwnPlace>({
    now: index('now'),
    maker: index('maker'),
    positions: good ? (listed as string[]) : undefined,
  });
}

/** A number in the pack's unit, or with a unit of the same kind. */
function readNumber(
  f: Fields,
  key: string,
  at: readonly string[],
  { unit, range: [least, most], words }: OwnSetting,
): number | undefined {
  const raw = f.get(key);
  if (raw === undefined || raw === UNCOUNTED) return undefined;
  const dimension = dimensionOf(unit);
  let value = typeof raw === 'number' && Number.isFinite(raw) ? raw : undefined;
  if (value === undefined && dimension !== undefined) {
    const read = readQuantity(raw, dimension, unit as never);
    if (read.ok) value = Number((read.value / siPer(unit as Unit)).toPrecision(9));
  }
  if (value !== undefined && value >= least && value <= most) return value;
  f.wrong(
    at,
    value === undefined
      ? `${f.name}: ${shown(String(raw))} is no number for the ${words}.`
      : `${f.name}: ${shown(String(raw))} is outside ${least} to ${most} ${unit}.`,
    `Write a number from ${least} to ${most} (${unit}), or none.`,
  );
  return undefined;
}
