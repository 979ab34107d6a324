/** How a spring is turned: air pressure, coil rate, preload, and volume spacers. */
import { dial, readings, withEnd, type Made, type NoDial, type Of } from './dial.ts';
import { LIMITS } from '../form/limits.ts';
import type { End } from '../sheet.ts';
import { siPer, type Unit } from '../units.ts';

export function air(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'air')
      return {
        message: `The ${end} has a coil spring; it has no pressure.`,
        remedy: `Change its preload (${of.setting}+1mm) or fit another coil (${of.setting}+5N/mm).`,
      };
    const [least, most] = LIMITS.springPressure;
    const stale = readings(sheet, end, ['sag.measured', 'travel-used']);
    return dial(
      of,
      siPer(of.unit as Unit),
      spring.pressure,
      [spring.pressureMin ?? least, spring.pressureMax ?? most],
      {
        minIs: spring.pressureMin === undefined ? 'what any spring takes' : "the manufacturer's minimum",
        maxIs: spring.pressureMax === undefined ? 'what any spring takes' : "the manufacturer's maximum",
        limited: { min: spring.pressureMin !== undefined, max: spring.pressureMax !== undefined },
        stale,
        put: (pressure) => withEnd(sheet, end, stale, { spring: { ...spring, pressure } }),
      },
    );
  };
}

export function coilRate(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'coil') return noCoil(end, of, 'rate');
    const stale = readings(sheet, end, ['sag.measured', 'travel-used']);
    return dial(of, siPer(of.unit as Unit), spring.rate, LIMITS.rate, {
      minIs: 'the softest coil there is',
      maxIs: 'the stiffest coil there is',
      limited: { min: false, max: false },
      stale,
      put: (rate) => withEnd(sheet, end, stale, { spring: { ...spring, rate } }),
    });
  };
}

export function preload(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'coil') return noCoil(end, of, 'preload');
    const si = of.unit === 'turns' ? spring.preloadPerTurn : siPer(of.unit as Unit);
    if (si === undefined)
      return {
        message: `The sheet does not say how far one turn moves the ${end} collar.`,
        remedy: `Measure it and write preload-per-turn: on the sheet, or say it in mm: ${of.setting}+1mm.`,
      };
    const stale = readings(sheet, end, ['sag.measured', 'travel-used']);
    return dial(of, si, spring.preload, [LIMITS.preload[0], spring.preloadMax ?? LIMITS.preload[1]], {
      minIs: 'no preload at all, and the coil rattles',
      maxIs: spring.preloadMax === undefined ? 'what any coil takes' : "the manufacturer's maximum preload",
      limited: { min: true, max: spring.preloadMax !== undefined },
      stale,
      put: (to) => withEnd(sheet, end, stale, { spring: { ...spring, preload: to } }),
    });
  };
}

function noCoil(end: End, { setting }: Of, what: 'rate' | 'preload'): NoDial {
  return {
    message: `The ${end} has an air spring; it has no ${what} to set.`,
    remedy: `Change its pressure: ${setting}+5psi.`,
  };
}

export function spacers(end: End): Made {
  return (sheet, of) => {
    const { spring } = sheet.ends[end];
    if (spring.kind !== 'air')
      return {
        message: `The ${end} has a coil spring; there are no volume spacers in it.`,
        remedy: 'Choose another adjustment.',
      };
    const stale = readings(sheet, end, ['travel-used']);
    return dial(of, 1, spring.spacers, [0, spring.spacersMax ?? LIMITS.volumeSpacers[1]], {
      minIs: 'none at all',
      maxIs: 'as many as fit',
      limited: { min: true, max: true },
      stale,
      put: (count) => withEnd(sheet, end, stale, { spring: { ...spring, spacers: count } }),
    });
  };
}
