/**
 * The file form of one end of a bike sheet:
 *
 *     travel: 170                   # at the wheel
 *     stroke: 62.5                  # rear only: of the shock
 *     leverage: [3.0, 2.7, 2.4]     # rear only: wheel travel per shock travel at 0, 50 and 100 % of the travel
 *     spring: { kind: air, pressure: 82, min: 50, max: 120, maker: 80, spacers: 2, spacers-max: 5 }
 *     spring: { kind: coil, rate: 80, preload: 1, preload-max: 3, preload-per-turn: 1 }     # or this
 *     sag: { measured: 22%, wanted: 20%, rider: standing, kit: with, lever: open }     # the last three: how
 *     travel-used: 94%              # on the hardest recent run
 *     rebound: { low: { clicks: 16, now: 8, maker: 8, ratio: 1.07 }, high: none }
 *     rebound: { clicks: 16, now: 8 }                 # one rebound knob
 *     compression: { low: { clicks: unknown, near: middle } }
 *     tyre: { now: 23 psi, wanted: 23 psi }
 *     curve: [{ circuit: rebound, speed: 0.1, force: 180, low: 8, high: 4 }]     # m/s and N, measured at these clicks
 *     note: ...
 *     bottom-out: { clicks: 4, now: 2, maker: 2 }     # a pack's, in clicks
 *     lever: open                                     # a pack's, by named position, { now: open, maker: open }, or 2/5
 *
 * `clicks` is how many the knob has from fully closed to fully open; `now` and `maker` are counted from fully closed.
 * A knob that is not there is left out, or written `none`. A hardtail's rear has a tyre and a note, nothing else.
 */
import * as z from 'zod';
import { maybe, taught } from '../../form/teach.ts';
import { SIDES, speedOf, type Side } from '../circuits.ts';
import { ownFormOf, type OwnSetting } from '../own-setting.ts';
import { PLACES } from '../sheet.ts';
import { BASIS, LIMITS, UNCOUNTED } from './limits.ts';
import { number, quantity, share, text, whole } from './values.ts';

const count = (description: string) => whole(LIMITS.counted).nullish().meta({ description });
const clicks = taught(
  z
    .union([whole(LIMITS.clicks), z.literal(UNCOUNTED)])
    .meta({ description: 'how many from fully closed to fully open; unknown when nobody counted' }),
  `Write clicks: and how many the knob has from fully closed to fully open, or clicks: ${UNCOUNTED}.`,
);
const counted = z.strictObject({
  clicks,
  now: count('clicks from fully closed now'),
  near: z.enum(PLACES).nullish().meta({ description: 'roughly where it stands, when nobody counted' }),
  maker: count("clicks from fully closed on the maker's starting sheet"),
});
const knob = counted.extend({
  ratio: number(LIMITS.ratio)
    .nullish()
    .meta({ description: 'what one click does to the circuit, e.g. 1.07' }),
});
export type KnobFile = z.infer<typeof knob>;

const none = z.literal('none');
const A_KNOB =
  'Write { clicks: 16, now: 8 }: how many it has, and where it stands from fully closed; or none.';
const orNone = taught(z.union([none, knob]).nullish(), A_KNOB);
const side = (what: string, speeds: readonly string[]) =>
  taught(
    z
      .union([none, knob, z.strictObject(Object.fromEntries(speeds.map((speed) => [speed, orNone])))])
      .nullish()
      .meta({
        description: `the ${what} knobs, low- and high-speed, or the only one; leave out what is not there`,
      }),
    A_KNOB,
  );
export type SideFile = z.infer<ReturnType<typeof side>>;

const spacers = number(LIMITS.volumeSpacers).nullish();
const air = z.strictObject({
  kind: z.literal('air'),
  pressure: maybe(quantity('pressure', 'gauge pressure now')),
  min: maybe(quantity('pressure', "the maker's least")),
  max: maybe(quantity('pressure', "the maker's most")),
  maker: maybe(quantity('pressure', "on the maker's starting sheet")),
  spacers: spacers.meta({ description: 'volume spacers fitted' }),
  'spacers-max': spacers.meta({ description: 'the most that fit' }),
});
const coil = z.strictObject({
  kind: z.literal('coil'),
  rate: maybe(quantity('rate', "the coil's own rate")),
  preload: maybe(quantity('length', 'how far the collar squeezes the coil')),
  'preload-max': maybe(quantity('length', "the maker's most preload")),
  'preload-per-turn': maybe(quantity('length', 'how far one turn moves the collar')),
});
const spring = taught(
  z.discriminatedUnion('kind', [air, coil]).meta({ description: 'the spring of this end' }),
  'Write spring: { kind: air, pressure: 80 } or { kind: coil, rate: 80 }.',
);
export type SpringFile = z.infer<typeof spring>;

const of = <T extends readonly [string, ...string[]]>(words: T, description: string) =>
  z.enum(words).nullish().meta({ description });
const sag = z
  .strictObject({
    measured: maybe(share(LIMITS.sag[1], 'sag measured')),
    wanted: maybe(share(LIMITS.sag[1], 'sag wanted')),
    rider: of(BASIS.rider, 'how the rider was on the bike'),
    kit: of(BASIS.kit, 'with all that is worn and carried, or without'),
    lever: of(BASIS.lever, 'the climb lever or lock-out meanwhile'),
  })
  .meta({
    description: "share of the travel (at the rear, of the shock's stroke) with the rider in riding position",
  });

const POINT =
  'Give circuit, speed (m/s), force (N), and the clicks low and high it was measured at (0 for a knob that is not there).';
const at = (which: string) =>
  taught(
    z
      .int()
      .min(0)
      .max(LIMITS.clicks[1])
      .meta({ description: `clicks from closed of the ${which}-speed knob when it was measured` }),
    POINT,
  );
const point = z.strictObject({
  circuit: taught(z.enum(['rebound', 'compression']), POINT),
  speed: taught(number(LIMITS.shaftSpeed).meta({ description: 'shaft speed, m/s' }), POINT),
  force: taught(number(LIMITS.force).meta({ description: 'N, always positive' }), POINT),
  low: at('low'),
  high: at('high'),
});
const curve = taught(
  z.array(point).meta({ description: 'a measured damper curve' }),
  'Write - { circuit: rebound, speed: 0.1, force: 180, low: 8, high: 4 }.',
);
export type PointFile = z.infer<typeof point>;

const travel = quantity('length', 'wheel travel; left out where nobody knows it');
const used = share(LIMITS.travelUsed[1], 'share of the travel the hardest recent run used');
const sides = Object.fromEntries(
  SIDES.map((one) => [one.side, side(one.side, one.circuits.map(speedOf))]),
) as Readonly<Record<Side, ReturnType<typeof side>>>;
const any = {
  tyre: z
    .strictObject({
      now: maybe(quantity('pressure', 'pressure now')),
      wanted: maybe(quantity('pressure', 'pressure wanted')),
    })
    .nullish(),
  note: text(2000).nullish(),
  ...sides,
};

/** What stands only below `rear:` is passed over with a warning. */
const misplaced = z.unknown().optional().meta({ description: 'of the rear shock; not used here' });
export const frontForm = {
  ...{ travel: maybe(travel), stroke: misplaced, leverage: misplaced, spring },
  sag: maybe(sag),
  'travel-used': maybe(used),
  curve: maybe(curve),
  ...any,
};

/** A hardtail has none of it, which its sheet may say. */
const orNot = <T extends z.ZodType>(schema: T) => z.union([none, schema]).nullish();
const ratio = number(LIMITS.leverage);
export const rearForm = {
  travel: orNot(travel),
  stroke: orNot(quantity('length', 'of the shock')),
  leverage: orNot(
    taught(
      z
        .tuple([ratio, ratio, ratio])
        .meta({ description: 'wheel travel per shock travel at 0, 50 and 100 % of the travel' }),
      'Write leverage: [3.0, 2.7, 2.4].',
    ),
  ),
  spring: orNot(spring),
  sag: orNot(sag),
  'travel-used': orNot(used),
  curve: orNot(curve),
  ...any,
};

const front = z.strictObject(frontForm);
const rear = z.strictObject(rearForm);
export type EndFile = z.infer<typeof front> | z.infer<typeof rear>;

/** Settings of packs, by how they are counted: their names and ranges are the pack's. */
const word = z.string();
const amount = z.union([z.number(), z.string().min(1)]).nullish();
export const OWN_FORMS = {
  clicks: z.union([none, counted]),
  positions: z.union([
    word,
    z.strictObject({ now: word.nullish(), maker: word.nullish(), positions: z.array(word).min(1).nullish() }),
  ]),
  number: z.union([
    z.number(),
    word.min(1),
    z.strictObject({ now: amount, maker: amount, min: amount, max: amount }),
  ]),
};

/** A setting of a pack, as its sheet says it. */
export function ownForm({ unit, positions, range, words }: OwnSetting) {
  const names = positions?.join(', ') ?? `${range.join(' to ')} ${unit}`;
  return taught(
    OWN_FORMS[ownFormOf(unit)].nullish().meta({ description: `${words}: ${names}, or none` }),
    unit === 'clicks'
      ? `Write clicks: and how many it has from fully closed to fully open, or clicks: ${UNCOUNTED}.`
      : `Write ${positions === undefined ? `a number (${range.join(' to ')} ${unit})` : `one of ${names}`}, or none.`,
  );
}
