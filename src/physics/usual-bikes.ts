/** The usual bike of each kind: what stands in for all that a sheet does not say. */
import {
  ENDS,
  type Adjuster,
  type BikeKind,
  type BikeSheet,
  type Circuit,
  type End,
  type EndSheet,
} from '../bike/sheet.ts';
import { AIR, COIL_PRELOAD, RIDER, TYRE } from './defaults.ts';

interface KindDefaults {
  readonly bikeMass: number;
  readonly wheelbase: number;
  readonly headAngle: number;
  readonly unsprung: Readonly<Record<End, number>>;
  readonly front: { readonly travel: number; readonly sag: number };
  readonly rear: {
    readonly travel: number;
    readonly stroke: number;
    readonly sag: number;
    readonly leverage: readonly [number, number, number];
    readonly spring: 'air' | 'coil';
  };
}

/** Assumptions for each kind: kg, m, degrees; sag as a share of the stroke, leverage at 0, 50 and 100 % of the travel. */
export const KINDS: Readonly<Record<BikeKind, KindDefaults>> = {
  // Its rear is a cross-country bike's, which the model needs: it has no rigid end (see `modelled`).
  hardtail: {
    bikeMass: 13,
    wheelbase: 1.17,
    headAngle: 66,
    unsprung: { front: 3, rear: 3.4 },
    front: { travel: 0.12, sag: 0.2 },
    rear: { travel: 0.1, stroke: 0.04, sag: 0.25, leverage: [2.7, 2.5, 2.3], spring: 'air' },
  },
  'cross-country': {
    bikeMass: 11.5,
    wheelbase: 1.16,
    headAngle: 67.5,
    unsprung: { front: 2.8, rear: 3.3 },
    front: { travel: 0.11, sag: 0.2 },
    rear: { travel: 0.11, stroke: 0.045, sag: 0.25, leverage: [2.65, 2.45, 2.25], spring: 'air' },
  },
  // The motor sits on the frame: the body is heavier, the wheels a little.
  'e-bike': {
    bikeMass: 24,
    wheelbase: 1.23,
    headAngle: 64.5,
    unsprung: { front: 3.5, rear: 4.4 },
    front: { travel: 0.15, sag: 0.2 },
    rear: { travel: 0.145, stroke: 0.0575, sag: 0.29, leverage: [2.75, 2.55, 2.3], spring: 'air' },
  },
  trail: {
    bikeMass: 14,
    wheelbase: 1.2,
    headAngle: 65.5,
    unsprung: { front: 3.2, rear: 3.8 },
    front: { travel: 0.14, sag: 0.2 },
    rear: { travel: 0.135, stroke: 0.0525, sag: 0.28, leverage: [2.8, 2.6, 2.35], spring: 'air' },
  },
  enduro: {
    bikeMass: 15.5,
    wheelbase: 1.245,
    headAngle: 64,
    unsprung: { front: 3.6, rear: 4.3 },
    front: { travel: 0.17, sag: 0.2 },
    rear: { travel: 0.165, stroke: 0.0625, sag: 0.29, leverage: [2.95, 2.65, 2.35], spring: 'air' },
  },
  downhill: {
    bikeMass: 17,
    wheelbase: 1.27,
    headAngle: 63,
    unsprung: { front: 4, rear: 4.8 },
    front: { travel: 0.2, sag: 0.19 },
    rear: { travel: 0.2, stroke: 0.075, sag: 0.3, leverage: [3.0, 2.7, 2.35], spring: 'coil' },
  },
};

const KNOBS = {
  'rebound.low': { range: 16, now: 8 },
  'rebound.high': { range: 8, now: 4 },
  'compression.low': { range: 16, now: 8 },
  'compression.high': { range: 8, now: 4 },
} satisfies Record<Circuit, { range: number; now: number }>;

/** The clicks of a knob; a usual knob's where nobody has counted them. */
export function rangeOf(circuit: Circuit, { range }: Adjuster): number {
  return range ?? KNOBS[circuit].range;
}

/**
 * The sheet as the model can take it: a rigid rear is stood in for by a usual one, since the model has no rigid end, and
 * a travel that nobody knows by that of its kind of bike.
 */
export function modelled(sheet: BikeSheet): BikeSheet {
  const rigid = sheet.ends.rear.rigid === true;
  const unknown = ENDS.filter((end) => sheet.ends[end].travel === 0);
  if (unknown.length === 0) return sheet;
  const usual = defaultSheet(sheet.kind).ends;
  const travel = (end: End): EndSheet =>
    unknown.includes(end) ? { ...sheet.ends[end], travel: usual[end].travel } : sheet.ends[end];
  const rear = rigid ? { ...usual.rear, tyre: sheet.ends.rear.tyre ?? {} } : travel('rear');
  return { ...sheet, ends: { front: travel('front'), rear } };
}

/** A bike sheet with every knob in the middle: what is used when nobody has written one. */
export function defaultSheet(kind: BikeKind): BikeSheet {
  const k = KINDS[kind];
  const air = { kind: 'air', spacers: AIR.spacers, spacersMax: AIR.spacersMax } as const;
  return {
    id: `default-${kind}`,
    name: `a usual ${kind} bike`,
    kind,
    units: { pressure: 'psi', mass: 'kg', rate: 'N/mm', length: 'mm' },
    riderMass: RIDER.mass,
    bikeMass: k.bikeMass,
    geometry: { wheelbase: k.wheelbase, headAngle: k.headAngle },
    ends: {
      front: {
        travel: k.front.travel,
        spring: air,
        sagMeasured: k.front.sag,
        sagWanted: k.front.sag,
        adjusters: KNOBS,
        tyre: { now: TYRE.pressure.front },
      },
      rear: {
        travel: k.rear.travel,
        stroke: k.rear.stroke,
        leverage: k.rear.leverage,
        spring: k.rear.spring === 'air' ? air : { kind: 'coil', preload: COIL_PRELOAD },
        sagMeasured: k.rear.sag,
        sagWanted: k.rear.sag,
        adjusters: KNOBS,
        tyre: { now: TYRE.pressure.rear },
      },
    },
  };
}
