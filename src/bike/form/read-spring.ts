/** The spring of one end of a bike sheet, in its file form: see read-end.ts. */
import { defined } from '../defined.ts';
import type { Fields } from './fields.ts';
import { LIMITS } from './limits.ts';
import type { AirSpring, CoilSpring, UnitChoice } from '../sheet.ts';

const AIR_KEYS = ['kind', 'pressure', 'min', 'max', 'maker', 'spacers', 'spacers-max'];
const COIL_KEYS = ['kind', 'rate', 'preload', 'preload-max', 'preload-per-turn'];

/** @param f the end the spring belongs to */
export function readSpring(f: Fields, units: UnitChoice): AirSpring | CoilSpring | undefined {
  const write = 'Write spring: { kind: air, pressure: 80 } or { kind: coil, rate: 80 }.';
  f.need('spring', write);
  const raw = f.get('spring') as { kind?: unknown } | undefined;
  if (raw?.kind === 'air') return readAir(f, units);
  if (raw?.kind === 'coil') return readCoil(f, units);
  const s = f.below('spring', [...AIR_KEYS, ...COIL_KEYS]);
  s?.need('kind', write);
  s?.choice('kind', ['air', 'coil']);
  return undefined;
}

function readAir(f: Fields, units: UnitChoice): AirSpring {
  const s = f.below('spring', AIR_KEYS)!;
  const pressure = (key: string): number | undefined =>
    s.quantity(key, 'pressure', units, LIMITS.springPressure);
  const spring = {
    kind: 'air' as const,
    pressure: pressure('pressure'),
    pressureMin: pressure('min'),
    pressureMax: pressure('max'),
    pressureMaker: pressure('maker'),
    spacers: s.number('spacers', LIMITS.volumeSpacers),
    spacersMax: s.number('spacers-max', LIMITS.volumeSpacers),
  };
  const {
    pressureMin: min = -Infinity,
    pressureMax: max = Infinity,
    spacers,
    spacersMax = Infinity,
  } = spring;
  if (min > max) s.wrong(['min'], `${s.name}: min is above max.`, 'Swap the two.');
  else
    for (const [key, value = min] of [
      ['pressure', spring.pressure],
      ['maker', spring.pressureMaker],
    ] as const)
      if (value < min || value > max)
        s.wrong(
          [key],
          `${s.name}: ${key} is ${value > max ? "above the manufacturer's maximum" : "below the manufacturer's minimum"}.`,
          'Check it with a gauge and against the manual before riding.',
          'warning',
        );
  if (spacers !== undefined && spacers > spacersMax)
    s.wrong(
      ['spacers'],
      `${s.name}: ${spacers} spacers where at most ${spacersMax} fit.`,
      'Count them again.',
    );
  return defined<AirSpring>(spring);
}

function readCoil(f: Fields, units: UnitChoice): CoilSpring {
  const s = f.below('spring', COIL_KEYS)!;
  const spring = {
    kind: 'coil' as const,
    rate: s.quantity('rate', 'rate', units, LIMITS.rate),
    preload: s.quantity('preload', 'length', units, LIMITS.preload),
    preloadMax: s.quantity('preload-max', 'length', units, LIMITS.preload),
    preloadPerTurn: s.quantity('preload-per-turn', 'length', units, LIMITS.preloadPerTurn),
  };
  if (spring.preload !== undefined && spring.preload > (spring.preloadMax ?? Infinity))
    s.wrong(
      ['preload'],
      `${s.name}: preload is above the manufacturer's maximum preload.`,
      'Turn the collar back, and look for a stiffer spring.',
      'warning',
    );
  return defined<CoilSpring>(spring);
}
