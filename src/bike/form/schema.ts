/**
 * The file form of a bike sheet as a zod schema, for editors: `z.toJSONSchema(sheetSchema)`. Sheets are read by
 * `readSheet`, which also compares fields with each other and says what to do. Imported only when a schema is asked for.
 */
import * as z from 'zod';
import { LIMITS, type Range } from './limits.ts';
import { SIDES, speedOf } from '../circuits.ts';
import type { OwnSetting } from '../own-setting.ts';
import { BASIS } from './read-end.ts';
import { UNCOUNTED } from './read-knobs.ts';
import { rigidEnd, SHEET_FORMAT } from './read.ts';
import { BIKE_KINDS, PLACES, type End } from '../sheet.ts';
import { unitsOf, unitSpellings, type Dimension } from '../units.ts';

const text = (longest: number): z.ZodString => z.string().trim().min(1).max(longest);

/** A number in the sheet's unit, or a text with its own. */
function quantity(dimension: Dimension, description: string): z.ZodOptional<z.ZodUnion> {
  const units = unitSpellings(dimension).map(anyCase).join('|');
  const form = new RegExp(String.raw`^\s*\+?(\d+([.,]\d*)?|[.,]\d+)\s*(${units})?\s*$`);
  return z
    .union([z.number().min(0), z.string().regex(form)])
    .meta({
      description: `${description}; a plain number is in the sheet's unit, or e.g. 5 ${unitsOf(dimension)[0]}`,
    })
    .optional();
}

/** JSON Schema's patterns know no flag for "case does not matter". */
function anyCase(word: string): string {
  return word.replaceAll(/[a-z]/gi, (c) => `[${c.toLowerCase()}${c.toUpperCase()}]`);
}

function share(most: number, description: string): z.ZodOptional<z.ZodUnion> {
  return z
    .union([z.number().min(0).max(most), z.string().regex(/^\s*\+?(\d+([.,]\d*)?|[.,]\d+)\s*%\s*$/)])
    .meta({ description: `${description}, such as 28%` })
    .optional();
}

const number = ([least, most]: Range): z.ZodNumber => z.number().min(least).max(most);
const whole = ([least, most]: Range): z.ZodInt => z.int().min(least).max(most);

const clicks = whole([0, LIMITS.clicks[1]]);
const counted = z.strictObject({
  clicks: z
    .union([whole(LIMITS.clicks), z.literal(UNCOUNTED)])
    .meta({ description: 'how many from fully closed to fully open; unknown when nobody counted' }),
  now: clicks.optional().meta({ description: 'clicks from fully closed now' }),
  near: z.enum(PLACES).optional().meta({ description: 'roughly where it stands, when nobody counted' }),
  maker: clicks.optional().meta({ description: "clicks from fully closed on the maker's starting sheet" }),
  ratio: number(LIMITS.ratio)
    .optional()
    .meta({ description: 'what one click does to the circuit, e.g. 1.07' }),
});
const knob = z.union([z.literal('none'), counted]).optional();
const side = (what: string, speeds: readonly string[]) =>
  z
    .union([
      z.literal('none'),
      counted,
      z.strictObject(Object.fromEntries(speeds.map((speed) => [speed, knob]))),
    ])
    .meta({
      description: `the ${what} knobs, low- and high-speed, or the only one; leave out what is not there`,
    })
    .optional();

const spacers = number(LIMITS.volumeSpacers).optional();
const spring = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('air'),
      pressure: quantity('pressure', 'gauge pressure now'),
      min: quantity('pressure', "the maker's least"),
      max: quantity('pressure', "the maker's most"),
      maker: quantity('pressure', "on the maker's starting sheet"),
      spacers: spacers.meta({ description: 'volume spacers fitted' }),
      'spacers-max': spacers.meta({ description: 'the most that fit' }),
    }),
    z.strictObject({
      kind: z.literal('coil'),
      rate: quantity('rate', "the coil's own rate"),
      preload: quantity('length', 'how far the collar squeezes the coil'),
      'preload-max': quantity('length', "the maker's most preload"),
      'preload-per-turn': quantity('length', 'how far one turn moves the collar'),
    }),
  ])
  .meta({ description: 'the spring of this end' });

const point = z.strictObject({
  circuit: z.enum(['rebound', 'compression']),
  speed: number(LIMITS.shaftSpeed).meta({ description: 'shaft speed, m/s' }),
  force: number(LIMITS.force).meta({ description: 'N, always positive' }),
  low: clicks.meta({ description: 'clicks from closed of the low-speed knob when it was measured' }),
  high: clicks.meta({ description: 'clicks from closed of the high-speed knob when it was measured' }),
});

const ratio = number(LIMITS.leverage);
const end = {
  travel: quantity('length', 'wheel travel; left out where nobody knows it'),
  spring,
  sag: z
    .strictObject({
      measured: share(LIMITS.sag[1], 'sag measured'),
      wanted: share(LIMITS.sag[1], 'sag wanted'),
      rider: z.enum(BASIS.rider).optional().meta({ description: 'how the rider was on the bike' }),
      kit: z
        .enum(BASIS.kit)
        .optional()
        .meta({ description: 'with all that is worn and carried, or without' }),
      lever: z.enum(BASIS.lever).optional().meta({ description: 'the climb lever or lock-out meanwhile' }),
    })
    .meta({ description: 'share of the travel with the rider in riding position' })
    .optional(),
  'travel-used': share(LIMITS.travelUsed[1], 'share of the travel the hardest recent run used'),
  ...Object.fromEntries(SIDES.map((one) => [one.side, side(one.side, one.circuits.map(speedOf))])),
  tyre: z
    .strictObject({
      now: quantity('pressure', 'pressure now'),
      wanted: quantity('pressure', 'pressure wanted'),
    })
    .optional(),
  curve: z.array(point).meta({ description: 'a measured damper curve' }).optional(),
  note: text(2000).optional(),
};

/** A setting of a pack, as its sheet says it. */
function ownForm({ unit, positions, range: [least, most], words }: OwnSetting): z.ZodOptional {
  const value =
    unit === 'positions' ? z.string() : z.union([z.number().min(least).max(most), z.string().min(1)]);
  const form =
    unit === 'clicks'
      ? counted.omit({ ratio: true })
      : z.union([
          value,
          z.strictObject({
            now: value.optional(),
            maker: value.optional(),
            ...(unit === 'positions'
              ? { positions: z.array(z.string()).optional() }
              : { min: value.optional(), max: value.optional() }),
          }),
        ]);
  const names = positions === undefined ? unit : positions.join(', ');
  return z
    .union([z.literal('none'), form])
    .meta({ description: `${words}: ${names}, or none` })
    .optional();
}

/** @param own the settings that packs in use add */
export function sheetSchemaWith(own: readonly OwnSetting[]) {
  const of = (end?: End): Record<string, z.ZodOptional> =>
    Object.fromEntries(own.filter((one) => one.end === end).map((one) => [one.key, ownForm(one)]));
  return z
    .strictObject({
      bike: z.literal(SHEET_FORMAT).meta({ description: 'the number of the format' }),
      id: z.union([text(60), z.number()]).meta({ description: 'a short name, for files and logs' }),
      name: text(200).optional(),
      kind: z.enum(BIKE_KINDS),
      units: z
        .strictObject({
          pressure: z.enum(unitsOf('pressure')).optional(),
          mass: z.enum(unitsOf('mass')).optional(),
          rate: z.enum(unitsOf('rate')).optional(),
          length: z.enum(unitsOf('length')).optional(),
        })
        .meta({ description: 'what a plain number means' })
        .optional(),
      'rider-mass': quantity('mass', 'the rider with kit'),
      'bike-mass': quantity('mass', 'the bike alone'),
      geometry: z
        .strictObject({
          wheelbase: quantity('length', 'from axle to axle'),
          'head-angle': number(LIMITS.headAngle).optional().meta({ description: 'degrees from horizontal' }),
        })
        .optional(),
      front: z.strictObject({ ...end, ...of('front') }),
      rear: z
        .strictObject({
          ...end,
          ...of('rear'),
          spring: end.spring.optional(),
          stroke: quantity('length', 'of the shock'),
          leverage: z
            .tuple([ratio, ratio, ratio])
            .meta({ description: 'wheel travel per shock travel at 0, 50 and 100 % of the travel' })
            .optional(),
        })
        .optional()
        .meta({ description: 'with a spring on all but a hardtail, whose rear is a tyre' }),
      ...of(),
      cockpit: z
        .strictObject({
          'spacers-under-stem': quantity('length', 'spacers under the stem'),
          'lever-angle': number(LIMITS.leverAngle)
            .optional()
            .meta({ description: 'brake levers, degrees below horizontal' }),
        })
        .optional(),
      changed: z
        .array(
          z.strictObject({
            what: text(200),
            when: text(20).optional().meta({ description: 'year-month-day' }),
          }),
        )
        .meta({ description: 'what was changed lately, newest first' })
        .optional(),
      note: text(2000).optional(),
    })
    .superRefine(({ kind, rear }, context) => {
      const rigid = rigidEnd(kind, 'rear') !== undefined;
      for (const key of ['travel', 'spring'] as const)
        if (rigid ? rear?.[key] !== undefined : key === 'spring' && rear?.[key] === undefined)
          context.addIssue({ code: 'custom', path: ['rear', key], message: rigid ? 'not there' : 'missing' });
    })
    .meta({ title: 'Bike sheet', description: 'What one bike has and where it stands now' });
}

export const sheetSchema = sheetSchemaWith([]);
