/**
 * The file form of a bike sheet. What it means, `sheet-of.ts` says.
 *
 *     bike: 1                       # format version
 *     id: park-bike
 *     name: the park bike
 *     kind: enduro                  # hardtail | cross-country | trail | enduro | downhill | e-bike
 *     units: { pressure: psi, mass: kg, rate: N/mm, length: mm }    # what a plain number means
 *     rider-mass: 84                # with kit
 *     bike-mass: 15.5
 *     geometry: { wheelbase: 1240, head-angle: 64.5 }
 *     front: ...                    # see end-schema.ts
 *     rear: ...
 *     cockpit: { spacers-under-stem: 15, lever-angle: 30 }
 *     changed: [{ what: new bar, when: 2026-04-01 }]                # newest first
 *     note: anything else worth knowing
 *
 * A plain number is in the sheet's unit; any quantity may carry its own (`5.6 bar`). Sag and travel used are percentages.
 * Only `bike`, `id`, `kind`, and the `spring` of each end must be there; what nobody measured is left out. A
 * hardtail has no rear suspension: its `rear:` says the tyre, or is left out.
 */
import * as z from 'zod';
import { maybe, othersFrom, taught } from '../../form/teach.ts';
import type { OwnSetting } from '../own-setting.ts';
import { BIKE_KINDS, type End } from '../sheet.ts';
import { unitsOf } from '../units.ts';
import { frontForm, ownForm, rearForm } from './end-schema.ts';
import { LIMITS, SHEET_FORMAT } from './limits.ts';
import { number, quantity, text } from './values.ts';

const unit = <D extends 'pressure' | 'mass' | 'rate' | 'length'>(dimension: D) =>
  z.enum(unitsOf(dimension)).nullish();

const changed = z.strictObject({
  what: taught(text(200), 'Write what: new bar.'),
  when: text(20).nullish().meta({ description: 'year-month-day' }),
});

const FROM_PACKS = 'What a rule pack adds is known with that pack: --rules FOLDER.';

/** @param own the settings that packs in use add */
export function sheetSchemaWith(own: readonly OwnSetting[]) {
  return othersFrom(sheetForm(own), FROM_PACKS);
}

function sheetForm(own: readonly OwnSetting[]) {
  const of = (end?: End) =>
    Object.fromEntries(own.filter((one) => one.end === end).map((one) => [one.key, ownForm(one)]));
  return taught(
    z
      .strictObject({
        bike: taught(
          z.literal(SHEET_FORMAT).meta({ description: 'the number of the format' }),
          `Write bike: ${SHEET_FORMAT} (the number of the format) on the first line.`,
        ),
        id: taught(
          text(60).meta({ description: 'a short name, for files and logs' }),
          'Give the bike a short name: id: park-bike.',
        ),
        name: text(200).nullish(),
        kind: z.enum(BIKE_KINDS),
        units: z
          .strictObject({
            pressure: unit('pressure'),
            mass: unit('mass'),
            rate: unit('rate'),
            length: unit('length'),
          })
          .meta({ description: 'what a plain number means' })
          .nullish(),
        'rider-mass': maybe(quantity('mass', 'the rider with kit')),
        'bike-mass': maybe(quantity('mass', 'the bike alone')),
        geometry: z
          .strictObject({
            wheelbase: maybe(quantity('length', 'from axle to axle')),
            'head-angle': number(LIMITS.headAngle).nullish().meta({ description: 'degrees from horizontal' }),
          })
          .nullish(),
        front: taught(
          othersFrom(z.strictObject({ ...frontForm, ...of('front') }), FROM_PACKS),
          'Write front: with travel, spring, rebound and compression below it.',
        ),
        rear: othersFrom(z.strictObject({ ...rearForm, ...of('rear') }), FROM_PACKS)
          .nullish()
          .meta({ description: 'with a spring on all but a hardtail, whose rear is a tyre' }),
        ...of(),
        cockpit: z
          .strictObject({
            'spacers-under-stem': maybe(quantity('length', 'spacers under the stem')),
            'lever-angle': number(LIMITS.leverAngle)
              .nullish()
              .meta({ description: 'brake levers, degrees below horizontal' }),
          })
          .nullish(),
        changed: taught(
          z.array(changed).nullish().meta({ description: 'what was changed lately, newest first' }),
          'Write - { what: new bar, when: 2026-04-01 }.',
        ),
        note: text(2000).nullish(),
      })
      .meta({ title: 'Bike sheet', description: 'What one bike has and where it stands now' }),
    'Write its keys below each other, as the examples in examples/bikes do.',
  );
}

export const sheetSchema = sheetSchemaWith([]);
export type SheetFile = z.infer<typeof sheetSchema>;

/** Keys of a sheet and of its ends that no setting of a pack may have. */
export const RESERVED: ReadonlySet<string> = new Set(
  [sheetSchema.shape, frontForm, rearForm].flatMap((form) => Object.keys(form)),
);
