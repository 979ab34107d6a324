/** One end of the model out of its part of the sheet: spring, dampers where their knobs stand, stops, friction, tyre. */
import { CIRCUITS, type BikeSheet, type Circuit, type End, type EndSheet } from '../../bike/sheet.ts';
import { GRAVITY, type Body, type EndModel, type Knob } from './bike.ts';
import { circuitThrough, turned, type DamperCircuit } from './damper.ts';
import {
  AIR,
  clickRatio,
  COIL_PRELOAD,
  DAMPING,
  FRICTION,
  KINDS,
  MIDDLE,
  rangeOf,
  PRELOAD_PITCH,
  REAR_PULL,
  RIDER,
  STOPS,
  TYRE,
} from '../defaults.ts';
import type { FittedDamper } from '../fit.ts';
import { fullStroke, ratioAt, wheelTravel, type Linkage } from './linkage.ts';
import { springForce, springStiffness, type AirSpringModel, type SpringModel } from './spring.ts';
import { tyreAt, type Tyre } from './tyre.ts';

/**
 * With less sag than this, as a share of the stroke or of the travel to where the chambers part, a negative air chamber
 * still pulls the spring into its stroke, and no load gives its area (judgement; no bike is ridden so high).
 */
const LEAST_SAG = 0.05;
const PAST_PORT = 1.5;

/**
 * @param body whose weight stands on it
 * @param notes gets what the sheet and the model do not agree on
 */
export function endOf(
  sheet: BikeSheet,
  which: End,
  linkage: Linkage,
  body: Body,
  notes: string[],
  fit: FittedDamper | undefined,
): EndModel {
  const part = sheet.ends[which];
  const load = loadOn(body, which);
  const stroke = fullStroke(linkage);
  const usual = KINDS[sheet.kind][which].sag;
  const wanted = part.sagMeasured ?? part.sagWanted ?? usual;
  const least = Math.max(LEAST_SAG, (PAST_PORT * AIR[which].portTravel) / stroke);
  const sag = Math.max(least, wanted);
  if (sag > wanted)
    notes.push(
      `The ${which} sag of ${Math.round(100 * wanted)} % is too little to tell the spring by: it is counted as ${Math.round(100 * least)} %.`,
    );
  const sagShaft = sag * stroke;
  const shaftLoad = load * ratioAt(linkage, wheelTravel(linkage, sagShaft));
  const spring =
    part.spring.kind === 'air'
      ? airSpring(part, which, stroke, sagShaft, shaftLoad)
      : coilSpring(part, sagShaft, shaftLoad);
  const knobs = knobsOf(part, fit);
  if (part.sagMeasured !== undefined && part.spring.kind === 'coil' && part.spring.rate !== undefined) {
    const off = springForce(spring, sagShaft) / shaftLoad - 1;
    if (Math.abs(off) > 0.15)
      notes.push(
        `At the measured ${which} sag the coil pushes ${Math.round(Math.abs(off) * 100)} % ${off > 0 ? 'more' : 'less'} than the weight on it: the model sits at another sag.`,
      );
  }
  const average = averageEnd(sheet, which, linkage);
  const dampers = usualDampers(average);
  return {
    linkage,
    spring,
    stops: {
      bottomLength: STOPS.bottomLength * stroke,
      bottomForce: STOPS.bottomForce * average.shaftLoad,
      topLength: STOPS.topLength * stroke,
      topForce: STOPS.topForce * average.shaftLoad,
      loss: STOPS.loss,
    },
    compression: standing(
      fit?.compression ?? dampers.compression,
      part,
      knobs,
      'compression',
      fit?.compression !== undefined,
    ),
    rebound: standing(fit?.rebound ?? dampers.rebound, part, knobs, 'rebound', fit?.rebound !== undefined),
    friction: {
      coulomb: FRICTION[which] * average.shaftLoad,
      blend: FRICTION.blend,
      viscous: FRICTION.viscous[which],
    },
    tyre: tyreOf(part, which),
    unsprungMass: KINDS[sheet.kind].unsprung[which],
    pulledIn: pulledIn(sheet, which, linkage, body),
    knobs,
    shownPerWheel: which === 'front' ? 1 / linkage.c0 : 1,
  };
}

/** N at the wheel on an end's springs, standing still on level ground. */
export function loadOn(body: Pick<Body, 'mass' | 'toFront' | 'toRear'>, which: End): number {
  const share = which === 'front' ? body.toRear : body.toFront;
  return (body.mass * GRAVITY * share) / (body.toFront + body.toRear);
}

/** What a damper, a bumper and seals are made for: an average rider at the usual sag, whoever rides it. */
export interface AverageEnd {
  /** at that sag: wheel travel per shaft travel; force at the shaft, N; critical damping at the wheel, N·s/m */
  readonly ratio: number;
  readonly shaftLoad: number;
  readonly critical: number;
}

export function averageEnd(sheet: BikeSheet, which: End, linkage: Linkage): AverageEnd {
  const kind = KINDS[sheet.kind];
  const part = sheet.ends[which];
  const mass =
    (RIDER.mass + kind.bikeMass - kind.unsprung.front - kind.unsprung.rear) *
    (which === 'front' ? RIDER.frontShare : 1 - RIDER.frontShare);
  const stroke = fullStroke(linkage);
  const sagShaft = Math.max(kind[which].sag * stroke, PAST_PORT * AIR[which].portTravel);
  const ratio = ratioAt(linkage, wheelTravel(linkage, sagShaft));
  const shaftLoad = mass * GRAVITY * ratio;
  const bare: EndSheet = { travel: part.travel, spring: { kind: part.spring.kind }, adjusters: {} };
  const spring =
    part.spring.kind === 'air'
      ? airSpring(bare, which, stroke, sagShaft, shaftLoad)
      : coilSpring(bare, sagShaft, shaftLoad);
  const stiffness = springStiffness(spring, sagShaft) / ratio ** 2;
  return { ratio, shaftLoad, critical: 2 * Math.sqrt(stiffness * mass) };
}

/**
 * A fork's axle moves back as it moves up, so a pull backward at the ground presses it in by the cotangent of its angle,
 * the brake's as well as a bump's: the caliper sits on the legs. In the rear the brake turns the swingarm.
 */
function pulledIn(sheet: BikeSheet, which: End, linkage: Linkage, body: Body): EndModel['pulledIn'] {
  if (which === 'front') {
    const cotangent = Math.sqrt(1 - linkage.c0 ** 2) / linkage.c0;
    return { braking: cotangent, bump: cotangent, chain: 0 };
  }
  const { unsprung } = KINDS[sheet.kind];
  const height = (body.height * body.mass) / (body.mass + unsprung.front + unsprung.rear);
  const level = height / (body.toFront + body.toRear);
  return {
    braking: REAR_PULL.antiRise * level,
    bump: REAR_PULL.axlePath,
    chain: REAR_PULL.antiSquat * level,
  };
}

function airSpring(
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

function coilSpring(part: EndSheet, sagShaft: number, shaftLoad: number): SpringModel {
  const sheet = part.spring.kind === 'coil' ? part.spring : undefined;
  const preload = sheet?.preload ?? COIL_PRELOAD;
  return {
    kind: 'coil',
    preload,
    rate: sheet?.rate ?? shaftLoad / (sagShaft + preload),
    pitch: sheet?.preloadPerTurn ?? PRELOAD_PITCH,
  };
}

/** Both circuits in the middle of their range. */
export function usualDampers({ ratio, critical }: AverageEnd): {
  readonly compression: DamperCircuit;
  readonly rebound: DamperCircuit;
} {
  const force = (share: number, wheelSpeed: number): number => share * critical * wheelSpeed * ratio;
  const through = (shares: { readonly slow: number; readonly fast: number }): DamperCircuit => {
    const slow = { speed: DAMPING.slow / ratio, force: force(shares.slow, DAMPING.slow) };
    const fast = { speed: DAMPING.fast / ratio, force: force(shares.fast, DAMPING.fast) };
    return circuitThrough(slow, fast, DAMPING.opensAt * slow.force)!;
  };
  return { compression: through(DAMPING.compression), rebound: through(DAMPING.rebound) };
}

function knobsOf(part: EndSheet, fit: FittedDamper | undefined): EndModel['knobs'] {
  const knobs: Partial<Record<Circuit, Knob>> = {};
  for (const circuit of CIRCUITS) {
    const sheet = part.adjusters[circuit];
    if (sheet === undefined) continue;
    const range = rangeOf(circuit, sheet);
    knobs[circuit] = {
      range,
      now: sheet.now,
      ratio: fit?.ratios[circuit] ?? sheet.ratio ?? clickRatio(circuit, range),
    };
  }
  return knobs;
}

/** Where an average rider has a knob: the maker's starting clicks, else the middle of the range. 0 without a knob. */
export function usualClicks(part: EndSheet, path: Circuit): number {
  const knob = part.adjusters[path];
  return knob === undefined ? 0 : (knob.maker ?? Math.round(MIDDLE * rangeOf(path, knob)));
}

/**
 * The circuit where its knobs stand now. Defaults are worth what the maker's starting clicks (or the middle of the
 * range) are worth; a fit is given at 0 clicks.
 */
function standing(
  circuit: DamperCircuit,
  part: EndSheet,
  knobs: EndModel['knobs'],
  side: 'rebound' | 'compression',
  fitted: boolean,
): DamperCircuit {
  const factor = (path: Circuit): number => {
    const knob = knobs[path];
    if (knob === undefined) return 1;
    const usual = usualClicks(part, path);
    return knob.ratio ** ((knob.now ?? usual) - (fitted ? 0 : usual));
  };
  return turned(circuit, factor(`${side}.low`), factor(`${side}.high`));
}

function tyreOf(part: EndSheet, which: End): Tyre {
  const reference: Tyre = {
    shape: 'hertz',
    stiffness: TYRE.load / TYRE.deflection ** 1.5,
    pressure: TYRE.referencePressure,
    casing: TYRE.casing,
    loss: TYRE.loss,
  };
  return tyreAt(reference, part.tyre?.now ?? part.tyre?.wanted ?? TYRE.pressure[which]);
}
