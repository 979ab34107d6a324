/**
 * A bike as a rider tells of it, without a sheet: which springs, knobs and levers it has, and roughly where they are.
 *
 *     has:
 *       kind: hardtail                      # may be left out
 *       front:
 *         spring: air                       # air | coil
 *         rebound: one                      # none | one | two, or where the only one stands: middle
 *         compression: { low: open, high: none }        # knob | none | where it stands
 *         # or unsure: there may be a knob, nobody looked
 *         lever: closed                     # of a pack: knob | none | a position | 2/5 | where it stands
 *
 * Places are closed, nearly-closed, middle, nearly-open and open. An end that is told of has the damper knobs that are
 * named and no others; of an end that is left out, and of what packs add, nobody said whether it is there.
 */
import * as z from 'zod';
import { SIDES, speedOf, type Side } from '../circuits.ts';
import type { OwnSetting } from '../own-setting.ts';
import { BIKE_KINDS, PLACES, type End } from '../sheet.ts';

const where = z.enum(['none', 'knob', ...PLACES]).nullish();
const side = (speeds: readonly string[]) =>
  z
    .union([
      z.enum(['none', 'one', 'two', 'unsure', ...PLACES]),
      z.strictObject(Object.fromEntries(speeds.map((speed) => [speed, where]))),
    ])
    .nullish();
const end = {
  spring: z.enum(['air', 'coil']).nullish(),
  ...(Object.fromEntries(SIDES.map((one) => [one.side, side(one.circuits.map(speedOf))])) as Readonly<
    Record<Side, ReturnType<typeof side>>
  >),
};

/** @param own the settings that packs in use add; their words are the pack's */
export function saidSchemaWith(own: readonly OwnSetting[]) {
  const of = (which?: End) =>
    Object.fromEntries(own.filter((one) => one.end === which).map(({ key }) => [key, z.string().nullish()]));
  return z.strictObject({
    kind: z.enum(BIKE_KINDS).nullish(),
    front: z.strictObject({ ...end, ...of('front') }).nullish(),
    rear: z.strictObject({ ...end, ...of('rear') }).nullish(),
    ...of(),
  });
}

export type SaidFile = z.infer<ReturnType<typeof saidSchemaWith>>;
export type SaidEndFile = NonNullable<SaidFile['front']>;
