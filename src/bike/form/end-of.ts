/** What one end of a bike sheet means; its file form is in `end-schema.ts`. */
import { defined } from '../../form/plain-data.ts';
import type { Sound } from '../../form/checked.ts';
import type { OwnSetting } from '../own-setting.ts';
import type { AirSpring, CoilSpring, CurvePoint, End, EndSheet, SagBasis } from '../sheet.ts';
import type { EndFile, PointFile, SpringFile } from './end-schema.ts';
import { adjustersOf, ownOf } from './knobs-of.ts';
import { LIMITS } from './limits.ts';
import { textOf, type Place } from './place.ts';

/** @returns undefined when it is not sound enough to be an end */
export function endOf(
  file: Sound<EndFile>,
  f: Place,
  end: End,
  own: readonly OwnSetting[],
): EndSheet | undefined {
  const there = <T>(value: T): Exclude<T, 'none' | null> | undefined =>
    value === 'none' || value === null ? undefined : (value as Exclude<T, 'none' | null>);
  if (end === 'rear')
    for (const key of OF_SUSPENSION)
      if (file[key] === 'none')
        f.wrong(
          [key],
          `${key} is none, which only an end without suspension has.`,
          `Leave ${key}: out where nobody knows it, or write kind: hardtail.`,
        );
  const travel = f.quantity('travel', there(file.travel), 'length', LIMITS.travel);
  if (end === 'rear' && isLeftOut(file))
    f.missing('spring', 'Write spring: { kind: air, pressure: 80 } or { kind: coil, rate: 80 }.');
  const spring = springOf(there(file.spring), f.below('spring'));
  const sag = there(file.sag);
  const adjusters = adjustersOf(file, f);
  const rest = {
    ...(end === 'rear' ? linkageOf(there(file.stroke), there(file.leverage), f, travel) : noLinkage(file, f)),
    sagMeasured: f.below('sag').share('measured', sag?.measured, LIMITS.sag),
    sagWanted: f.below('sag').share('wanted', sag?.wanted, LIMITS.sag),
    sagBasis: basisOf(sag),
    travelUsed: f.share('travel-used', there(file['travel-used']), LIMITS.travelUsed),
    adjusters,
    own: ownOf(file, f, own),
    tyre: tyreOf(file, f),
    curve: there(file.curve)?.flatMap((one, i) => pointOf(one, f.below('curve', i), adjusters)),
    note: textOf(file.note),
  };
  return spring === undefined ? undefined : defined<EndSheet>({ ...rest, travel: travel ?? 0, spring });
}

/** What is left out, not none, where nobody knows it; of a spring that is none, and of knobs, more is said below. */
const OF_SUSPENSION = ['travel', 'stroke', 'leverage', 'sag', 'travel-used', 'curve'] as const;

/** Not written, or only said of an end without suspension; what was written wrongly has been told of already. */
function isLeftOut(file: Sound<EndFile>): boolean {
  return file.spring === 'none' || file.spring === null || !Object.hasOwn(file, 'spring');
}

export const RIGID_END: EndSheet = { rigid: true, travel: 0, spring: { kind: 'air' }, adjusters: {} };

/**
 * An end without suspension: its tyre, and what packs add to any end.
 * @param kind of the bike, for messages
 */
export function rigidEndOf(
  file: Sound<EndFile>,
  f: Place,
  kind: string,
  own: readonly OwnSetting[],
): EndSheet | undefined {
  for (const [key, value] of Object.entries(file))
    if (value !== undefined && value !== null && value !== 'none' && !OF_A_RIGID_END.includes(key))
      if (own.every((one) => one.key !== key))
        f.wrong(
          [key],
          `a ${kind} has no ${f.path.join(' ')} suspension, so it has no ${key} there.`,
          `Take ${key}: out, or write another kind: of bike.`,
        );
  return defined<EndSheet>({
    ...RIGID_END,
    own: ownOf(file, f, own),
    tyre: tyreOf(file, f),
    note: textOf(file.note),
  });
}
const OF_A_RIGID_END: readonly string[] = ['tyre', 'note'];

function springOf(file: Sound<SpringFile> | undefined, s: Place): AirSpring | CoilSpring | undefined {
  if (file?.kind === 'air') return airOf(file, s);
  if (file?.kind === 'coil') return coilOf(file, s);
  return undefined;
}

function airOf(file: Sound<SpringFile & { kind: 'air' }>, s: Place): AirSpring {
  const pressure = (key: 'pressure' | 'min' | 'max' | 'maker'): number | undefined =>
    s.quantity(key, file[key], 'pressure', LIMITS.springPressure);
  const spring = {
    kind: 'air' as const,
    pressure: pressure('pressure'),
    pressureMin: pressure('min'),
    pressureMax: pressure('max'),
    pressureMaker: pressure('maker'),
    spacers: file.spacers ?? undefined,
    spacersMax: file['spacers-max'] ?? undefined,
  };
  const { pressureMin: min = -Infinity, pressureMax: max = Infinity, spacers } = spring;
  if (min > max) s.wrong(['min'], 'min is above max.', 'Swap the two.');
  else
    for (const [key, value = min] of [
      ['pressure', spring.pressure],
      ['maker', spring.pressureMaker],
    ] as const)
      if (value < min || value > max)
        s.wrong(
          [key],
          `${key} is ${value > max ? "above the manufacturer's maximum" : "below the manufacturer's minimum"}.`,
          'Check it with a gauge and against the manual before riding.',
          'warning',
        );
  if (spacers !== undefined && spacers > (spring.spacersMax ?? Infinity))
    s.wrong(['spacers'], `${spacers} spacers where at most ${spring.spacersMax} fit.`, 'Count them again.');
  return defined<AirSpring>(spring);
}

function coilOf(file: Sound<SpringFile & { kind: 'coil' }>, s: Place): CoilSpring {
  const spring = {
    kind: 'coil' as const,
    rate: s.quantity('rate', file.rate, 'rate', LIMITS.rate),
    preload: s.quantity('preload', file.preload, 'length', LIMITS.preload),
    preloadMax: s.quantity('preload-max', file['preload-max'], 'length', LIMITS.preload),
    preloadPerTurn: s.quantity('preload-per-turn', file['preload-per-turn'], 'length', LIMITS.preloadPerTurn),
  };
  if (spring.preload !== undefined && spring.preload > (spring.preloadMax ?? Infinity))
    s.wrong(
      ['preload'],
      "preload is above the manufacturer's maximum preload.",
      'Turn the collar back, and look for a stiffer spring.',
      'warning',
    );
  return defined<CoilSpring>(spring);
}

type SagFile = Exclude<Sound<EndFile>['sag'], 'none' | null>;

function basisOf(sag: SagFile): SagBasis | undefined {
  const basis = defined<SagBasis>({
    rider: sag?.rider ?? undefined,
    kit: sag?.kit ?? undefined,
    lever: sag?.lever ?? undefined,
  });
  return Object.keys(basis).length === 0 ? undefined : basis;
}

function tyreOf({ tyre }: Sound<EndFile>, f: Place): EndSheet['tyre'] | undefined {
  if (tyre === undefined || tyre === null) return undefined;
  return defined<{ now?: number; wanted?: number }>({
    now: f.below('tyre').quantity('now', tyre.now, 'pressure', LIMITS.tyrePressure),
    wanted: f.below('tyre').quantity('wanted', tyre.wanted, 'pressure', LIMITS.tyrePressure),
  });
}

function linkageOf(
  strokeFile: unknown,
  leverage: unknown,
  f: Place,
  travel: number | undefined,
): Pick<{ [K in keyof EndSheet]: EndSheet[K] | undefined }, 'stroke' | 'leverage'> {
  const stroke = f.quantity('stroke', strokeFile, 'length', LIMITS.stroke);
  if (stroke !== undefined && travel !== undefined && stroke > travel)
    f.wrong(
      ['stroke'],
      'the shock stroke is longer than the wheel travel.',
      'Swap the two, or check their units.',
    );
  return { stroke, leverage: leverage as EndSheet['leverage'] };
}

function noLinkage(file: Sound<EndFile>, f: Place): object {
  for (const key of ['stroke', 'leverage'] as const)
    if (file[key] !== undefined && file[key] !== null)
      f.wrong(
        [key],
        `${key} is about the rear shock and is not used here.`,
        'Move it below rear:.',
        'warning',
      );
  return {};
}

function pointOf(
  file: Sound<PointFile> | undefined,
  p: Place,
  adjusters: EndSheet['adjusters'],
): CurvePoint[] {
  if (file?.circuit === undefined) return [];
  for (const speed of ['low', 'high'] as const) {
    const range = adjusters[`${file.circuit}.${speed}`]?.range ?? Infinity;
    if ((file[speed] ?? 0) > range)
      p.wrong(
        [speed],
        `${speed} is ${file[speed]} clicks from closed, but that knob has only ${range}.`,
        'Count again from fully closed.',
      );
  }
  return [file as CurvePoint];
}
