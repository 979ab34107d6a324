/** What counts as on target on a bike sheet. */
import * as z from 'zod';

const least = z.number().min(0);

/** What counts as on target on a bike sheet. */
export const near = z.strictObject({
  sag: least.meta({ description: 'percentage points of travel' }),
  tyre: least.meta({ description: 'percent of the target' }),
  pressure: least.meta({ description: "of an air spring, percent of the maker's figure" }),
  leverage: least.meta({ description: 'percent that leverage and travel may differ from the stroke' }),
  clicks: least.meta({ description: "of a knob, clicks from the maker's figure" }),
  'travel-left': least.meta({ description: 'percent of travel that is short when left over' }),
  'travel-end': least.meta({ description: 'percent of travel that is nothing left' }),
  spacers: least.meta({ description: 'volume spacers that fit in most air springs' }),
  'tyre-for': z
    .strictObject({
      low: z.number().gt(0).lt(100),
      high: z.number().gt(100),
      rows: z
        .array(
          z.strictObject({
            kg: z.number().positive(),
            front: z.number().positive(),
            rear: z.number().positive(),
          }),
        )
        .min(2)
        .refine((rows) => rows.every(({ kg }, i) => i === 0 || kg > rows[i - 1]!.kg), 'by rising weight'),
    })
    .optional()
    .meta({
      description:
        "usual tyre pressures in psi by the rider's weight in kg, with kit; far off below `low` and above `high`, in percent of them",
    }),
});

export type Near = Readonly<z.infer<typeof near>>;

/** Where no pack says so. */
export const NEAR: Near = {
  sag: 2,
  tyre: 5,
  pressure: 5,
  leverage: 5,
  clicks: 2,
  'travel-left': 25,
  'travel-end': 2,
  spacers: 5,
};
