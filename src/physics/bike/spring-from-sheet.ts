/** The spring of an end out of its part of the sheet; what that does not say follows from the sag under the weight on it. */
import type { End, EndSheet } from '../../bike/sheet.ts';
import { AIR, COIL_PRELOAD, PRELOAD_PITCH } from '../defaults.ts';
import { springForce, type AirSpringModel, type SpringModel } from './spring.ts';

export function airSpring(
  part: EndSheet,
  which: End,
  stroke: number,
  sagShaft: number,
  shaftLoad: number,
): AirSpringModel {
  const sheet = part.spring.kind === 'air' ? part.spring : undefined;
  const d = AIR[which];
  const spacersMax = sheet?.spacersMax ?? Math.max(AIR.spacersMax, sheet?.spacers ?? 0);
  const make = (pressure: number, area: number): AirSpringModel => ({
    kind: 'air',
    pressure,
    area,
    negativeArea: area * d.negativeShare,
    volume: area * stroke * d.volume,
    spacerVolume: area * stroke * d.spacer,
    spacers: sheet?.spacers ?? AIR.spacers,
    spacersMax,
    negativeVolume: area * d.negativeShare * d.negativeLength,
    portTravel: d.portTravel,
    exponent: AIR.exponent,
  });
  const given = sheet?.pressure;
  if (given !== undefined) {
    if (part.sagMeasured === undefined) return make(given, d.area);
    // Volumes follow the area, so the force at the measured sag is proportional to it: pressure and sag give the area.
    return make(given, shaftLoad / springForce(make(given, 1), sagShaft));
  }
  // The force is a straight line in the pressure.
  const none = springForce(make(0, d.area), sagShaft);
  const some = springForce(make(1e5, d.area), sagShaft);
  return make((1e5 * (shaftLoad - none)) / (some - none), d.area);
}

export function coilSpring(part: EndSheet, sagShaft: number, shaftLoad: number): SpringModel {
  const sheet = part.spring.kind === 'coil' ? part.spring : undefined;
  const preload = sheet?.preload ?? COIL_PRELOAD;
  return {
    kind: 'coil',
    preload,
    rate: sheet?.rate ?? shaftLoad / (sagShaft + preload),
    pitch: sheet?.preloadPerTurn ?? PRELOAD_PITCH,
  };
}
