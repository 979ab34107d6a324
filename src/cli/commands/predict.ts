/** `earshot predict`: what a change does on this bike, or what a knob does over its whole range. */
import { json, capital } from '../../form/text.ts';
import { choice, command, flag, format, text, type Given } from '../takes.ts';
import { degrees } from '../values.ts';
import { parseChange, printChange, type Change } from '../../bike/change.ts';
import { dialOf, rowFor, rowsOf } from '../../bike/settings.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { BIKE_KINDS, type BikeSheet, type Circuit, type End } from '../../bike/sheet.ts';
import {
  atTemperature,
  defaultBike,
  feelableClicks,
  predict as predictOn,
  REFERENCE_CELSIUS,
  standingOn,
  sweep,
  type Bike,
} from '../../physics/index.ts';
import { drawingsOf, type SheetPhysics } from '../../report/pit-sheet/physics.ts';
import { predictText, slopeText, sweepText } from '../../report/bike/predict-text.ts';
import type { Style } from '../../report/style.ts';
import { didYouMean } from '../../form/suggest.ts';
import { EXIT, Refusal, type ExitCode, type Io } from '../../host/io.ts';
import { sheetOf } from '../../workspace/bikes/known-bikes.ts';
import { ownSettings } from '../../workspace/rules/own-settings.ts';
import { sheetBike } from '../../workspace/physics.ts';

const options = {
  bike: text('file', 'bike sheet'),
  kind: choice('kind', 'default bike when no sheet is given', BIKE_KINDS, 'enduro'),
  change: text('change', 'for example front.rebound.low+2, several separated by commas'),
  sweep: text('knob', 'a knob over its whole range: where it starts to pack down or kick'),
  slope: degrees('how the same clicks act on a slope'),
  celsius: degrees('oil temperature'),
  svg: text('file', 'write the plots as an SVG file'),
  force: flag('overwrite an existing file'),
  full: flag('also what hardly changes, and what each number means'),
  format: format('text', 'json'),
};
type PredictOptions = Given<typeof options> & { readonly style: Style };

export const predictCommand = command({
  about: 'what a change does on this bike, before → after',
  options,
  examples: [
    ['earshot predict --change front.rebound.low+2', 'on a default bike'],
    ['earshot predict --bike my-bike.yaml --sweep rear.rebound.low', 'a knob over its whole range'],
    ['earshot predict --bike my-bike.yaml --change rear.tyre-2psi --svg plots.svg', 'with plots in a file'],
  ],
  run: async (given, { io, style }) => predict({ ...given, style: await style() }, io),
});

async function predict(options: PredictOptions, io: Io): Promise<ExitCode> {
  if (options.change === undefined && options.sweep === undefined && options.slope === undefined) {
    throw new Refusal(
      'Say what to look at: --change front.rebound.low+2, --sweep front.rebound.low, or --slope 25.',
    );
  }
  if (options.svg !== undefined) {
    if (options.change === undefined)
      throw new Refusal('Plots are of a change: --svg goes with --change front.rebound.low+2.');
    const { mayBeNew } = await import('../../disk/write-new.ts');
    await mayBeNew(options.svg, options.force, io);
  }
  const own = await ownSettings(io);
  const { name, bike: cold, notes, sheet } = await theBike(options, own, io);
  const bike = options.celsius === undefined ? cold : atTemperature(cold, options.celsius);
  const warm =
    options.celsius === undefined
      ? []
      : [
          `oil at ${options.celsius} °C instead of ${REFERENCE_CELSIUS} °C: only the low-speed passage and the seals' drag follow it`,
        ];
  if (options.slope !== undefined) await slopeOne(options.slope, options, bike, io);
  if (options.sweep !== undefined) await sweepOne(options, bike, name, io);
  if (options.change !== undefined)
    await changeOne(options, own, { name, bike, notes: [...notes, ...warm], ...(sheet && { sheet }) }, io);
  return EXIT.done;
}

interface TheBike {
  readonly name: string;
  readonly bike: Bike;
  readonly notes: readonly string[];
  readonly sheet?: BikeSheet;
}

async function theBike(options: PredictOptions, own: readonly OwnSetting[], io: Io): Promise<TheBike> {
  if (options.bike === undefined) {
    const bike = defaultBike(options.kind);
    return {
      name: `a default ${options.kind} bike`,
      bike,
      notes: [`no bike sheet given: a default ${options.kind} bike stands in`, ...bike.notes],
    };
  }
  const { loadSheet } = await import('../../workspace/bikes/load-sheet.ts');
  const { sheet, warnings } = await loadSheet(sheetOf(options.bike, io), io.cwd, own);
  for (const warning of warnings) io.err(`${warning}\n`);
  const bike = await sheetBike(sheet);
  return { name: sheet.name ?? sheet.id, bike, notes: bike.notes, sheet };
}

async function changeOne(
  options: PredictOptions,
  own: readonly OwnSetting[],
  { name, bike, notes, sheet }: TheBike,
  io: Io,
): Promise<void> {
  const { changes, problems } = parseChange(options.change!, own, sheet);
  if (problems.length > 0) throw new Refusal(problems.map((p) => `${p.message} ${p.remedy}`).join('\n'));
  // Where a part of a usual bike stands in for one that is not there, its numbers would be another bike's.
  const unfit = changes.flatMap((one) => {
    const dial = sheet === undefined ? undefined : dialOf(sheet, one);
    return dial !== undefined && 'message' in dial && dial.unfit === true ? [dial.message] : [];
  });
  if (unfit.length > 0) throw new Refusal(unfit.join('\n'), EXIT.some);
  const prediction = predictOn(bike, changes);
  if (!prediction.ok)
    throw new Refusal(
      prediction.refused.map((r) => `${printChange([r.change])}: ${r.why}.`).join('\n'),
      EXIT.some,
    );
  const drawings = (): Pick<SheetPhysics, 'curve' | 'row'> => drawingsOf(bike, prediction.after, changes[0]!);
  if (options.svg !== undefined) {
    const [{ plotsSvg }, { writeNew }] = await Promise.all([
      import('../../report/plots/plot-svg.ts'),
      import('../../disk/write-new.ts'),
    ]);
    const { curve, row } = drawings();
    const plots = plotsSvg([curve, row].filter((d) => d !== undefined));
    await writeNew(options.svg, plots, options.force, io);
  }
  const change = printChange(changes);
  if (options.format === 'json')
    await io.out(
      json({ format: 1, bike: name, change, warnings: bike.warnings, metrics: prediction.metrics, notes }),
    );
  else
    await io.out(
      predictText(
        {
          change,
          bike: name,
          metrics: prediction.metrics,
          drawings: drawings(),
          notes,
          warnings: bike.warnings,
          feel: feltOf(bike, changes),
          full: options.full,
        },
        options.style,
      ),
    );
}

/** How many clicks of a knob turned alone can be felt: what the steps of a diagnosis go by. */
function feltOf(
  bike: Bike,
  [change, ...more]: readonly Change[],
): { readonly turned: number; readonly felt: number } | undefined {
  const row = change === undefined || more.length > 0 ? undefined : rowFor(change);
  if (row?.circuit === undefined || row.end === undefined) return undefined;
  return {
    turned: Math.abs(change!.by),
    felt: feelableClicks(bike, row.end, row.circuit, change!.by > 0),
  };
}

async function sweepOne(options: PredictOptions, bike: Bike, name: string, io: Io): Promise<void> {
  const known = rowsOf().flatMap(({ setting, circuit }) => (circuit === undefined ? [] : [setting]));
  if (!known.includes(options.sweep!))
    throw new Refusal(
      `There is no knob ${options.sweep}. ${didYouMean(options.sweep!, known) || `Knobs: ${known.join(', ')}.`}`,
    );
  const [end, ...rest] = options.sweep!.split('.');
  const swept = sweep(bike, end as End, rest.join('.') as Circuit, undefined, ['kerb']);
  if (!swept.ok) throw new Refusal(`${capital(swept.why)}.`, EXIT.some);
  if (options.format === 'json')
    await io.out(json({ format: 1, bike: name, warnings: bike.warnings, ...swept.sweep }));
  else await io.out(sweepText(swept.sweep, name, bike.warnings, options.style));
}

async function slopeOne(slope: number, options: PredictOptions, bike: Bike, io: Io): Promise<void> {
  const [level, steep] = [standingOn(bike, 0), standingOn(bike, slope)];
  if (options.format === 'json') await io.out(json({ format: 1, slope, level, steep }));
  else {
    for (const warning of bike.warnings) io.err(`${warning}\n`);
    await io.out(slopeText(slope, level, steep, options.style));
  }
}
