/** What the knobs of a bike sheet mean: those of the damper, and what rule packs add. */
import { printable } from '../../form/text.ts';
import { isMap, defined } from '../../form/plain-data.ts';
import type { Sound } from '../../form/checked.ts';
import { SIDES, speedOf, type Circuit, type Side } from '../circuits.ts';
import { countedPosition, type OwnPlace, type OwnSetting, type OwnStand } from '../own-setting.ts';
import { didYouMean } from '../../form/suggest.ts';
import type { Adjuster, EndSheet } from '../sheet.ts';
import { dimensionOf, readQuantity, siPer, type Unit } from '../units.ts';
import type { KnobFile, SideFile } from './end-schema.ts';
import { UNCOUNTED } from './limits.ts';
import type { Place } from './place.ts';

type Knob = Sound<KnobFile>;

export function adjustersOf(
  file: { readonly [S in Side]?: Sound<SideFile> | undefined },
  f: Place,
): EndSheet['adjusters'] {
  const out: Partial<Record<Circuit, Adjuster>> = {};
  for (const { side, circuits } of SIDES) {
    const raw = file[side];
    if (raw === 'none' || raw === undefined || raw === null) continue;
    // A lone knob may be written without saying which of the two it is.
    if (isKnob(raw)) {
      out[circuits[0]!] = adjusterOf(raw, f.below(side));
      continue;
    }
    for (const circuit of circuits) {
      const knob = raw[speedOf(circuit)] as Knob | 'none' | null | undefined;
      if (knob !== undefined && knob !== null && knob !== 'none')
        out[circuit] = adjusterOf(knob, f.below(side, speedOf(circuit)));
    }
  }
  return out;
}

function isKnob(raw: Exclude<Sound<SideFile>, 'none' | null | undefined>): raw is Knob {
  return Object.hasOwn(raw, 'clicks');
}

function adjusterOf(knob: Knob, f: Place): Adjuster {
  const { now, near, ...counts } = countedOf(knob, f);
  if (near !== undefined && now !== undefined)
    f.wrong(
      ['near'],
      'now says where the knob stands; near is not needed beside it.',
      'Take near: out.',
      'warning',
    );
  return defined<Adjuster>({
    ...counts,
    now,
    near: now === undefined ? near : undefined,
    ratio: knob.ratio ?? undefined,
  });
}

/** The counts of a knob; its clicks are undefined when nobody has counted them. */
function countedOf(knob: Knob, f: Place) {
  const { clicks } = knob;
  const range = typeof clicks === 'number' ? clicks : undefined;
  const counts = { now: knob.now ?? undefined, maker: knob.maker ?? undefined };
  for (const [key, value = 0] of Object.entries(counts))
    if (range !== undefined && value > range)
      f.wrong(
        [key],
        `${key} is ${value} clicks from closed, but the knob has only ${range}.`,
        'Count again from fully closed, without force.',
      );
  return { range, ...counts, near: knob.near ?? undefined };
}

/** What the sheet says of the settings that packs add, by key. */
export function ownOf(file: object, f: Place, settings: readonly OwnSetting[]): Owns | undefined {
  return ownsOf(file, settings, (own, raw) =>
    raw === undefined || raw === null ? undefined : raw === 'none' ? raw : placeOf(own, raw, f),
  );
}

type Owns = Readonly<Record<string, OwnStand>>;

/** @param stand of a setting, from what stands at its key; undefined: nothing is said of it */
export function ownsOf(
  file: object,
  settings: readonly OwnSetting[],
  stand: (own: OwnSetting, raw: unknown) => OwnStand | undefined,
): Owns | undefined {
  const said = new Map<string, unknown>(Object.entries(file));
  const owns = settings.flatMap((own): [string, OwnStand][] => {
    const at = stand(own, said.get(own.key));
    return at === undefined ? [] : [[own.key, at]];
  });
  return owns.length === 0 ? undefined : Object.fromEntries(owns);
}

function placeOf(own: OwnSetting, raw: unknown, f: Place): OwnPlace | undefined {
  const here = f.below(own.key);
  if (own.unit === 'clicks') return clicksOf(own, raw as Knob, here);
  // The value alone may stand in place of the map.
  const map = isMap(raw) ? raw : { now: raw };
  const at = (key: string): readonly string[] => (isMap(raw) ? [key] : []);
  if (own.unit !== 'positions') {
    const number = (key: string): number | undefined => numberOf(here, map[key], at(key), own);
    const place = { now: number('now'), maker: number('maker'), min: number('min'), max: number('max') };
    return defined<OwnPlace>(place);
  }
  const counted = typeof map['now'] === 'string' ? countedPosition(map['now'], own) : undefined;
  const listed = counted?.positions ?? ((map['positions'] ?? undefined) as readonly string[] | undefined);
  const positions = listed ?? own.positions ?? [];
  const index = (key: 'now' | 'maker'): number | undefined => {
    const name = map[key] ?? undefined;
    if (name === undefined || (key === 'now' && name === UNCOUNTED)) return undefined;
    if (key === 'now' && counted !== undefined) return counted.now;
    const found = positions.indexOf(String(name));
    if (found >= 0) return found;
    here.wrong(
      at(key),
      `${printable(String(name))} is not a position of the ${own.words}.`,
      didYouMean(String(name), positions) ||
        `Write one of ${positions.join(', ')}, or none; or which of how many from ${positions[0]} on, such as 2/5.`,
    );
    return undefined;
  };
  return defined<OwnPlace>({ now: index('now'), maker: index('maker'), positions: listed });
}

function clicksOf({ range: [least, most] }: OwnSetting, knob: Knob, f: Place): OwnPlace {
  const { clicks } = knob;
  if (typeof clicks === 'number' && (clicks < least || clicks > most))
    f.wrong(['clicks'], `clicks is ${clicks}; no bike goes outside ${least} to ${most}.`, 'Count again.');
  return defined<OwnPlace>(countedOf(knob, f));
}

/** A number in the pack's unit, or with a unit of the same kind. */
function numberOf(
  f: Place,
  raw: unknown,
  at: readonly string[],
  { unit, range: [least, most], words }: OwnSetting,
): number | undefined {
  if (raw === undefined || raw === null || raw === UNCOUNTED) return undefined;
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
      ? `${printable(String(raw))} is not a number for the ${words}.`
      : `${printable(String(raw))} is outside ${least} to ${most} ${unit}.`,
    `Write a number from ${least} to ${most} (${unit}), or none.`,
  );
  return undefined;
}
