/** One end of the model out of its part of the sheet: spring, dampers where their knobs stand, stops, friction, tyre. */
import type { BikeSheet, End, EndSheet } from '../../bike/sheet.ts';
import { AIR, FRICTION, REAR_PULL, RIDER, STOPS, TYRE } from '../defaults.ts';
import type { FittedDamper } from '../fit.ts';
import { KINDS } from '../usual-bikes.ts';
import { GRAVITY, type Body, type EndModel } from './bike.ts';
import { knobsOf, standing, usualDampers, type AverageEnd } from './dampers-from-sheet.ts';
import { fullStroke, ratioAt, wheelTravel, type Linkage } from './linkage.ts';
import { springForce, springStiffness } from './spring.ts';
import { airSpring, coilSpring } from './spring-from-sheet.ts';
import { tyreAt, type Tyre } from './tyre.ts';

/**
 * With less sag than this, as a share of the stroke or of the travel to where the chambers part, a negative air chamber
 * still pulls the spring into its stroke, and no load gives its area (judgement; no bike is ridden so high).
 */
const LEAST_SAG = 0.05;
const PAST_PORT = 1.5;

/** The least sag that tells of a spring, as a share of a stroke in m. */
export function leastSag(which: End, stroke: number): number {
  return Math.max(LEAST_SAG, (PAST_PORT * AIR[which].portTravel) / stroke);
}

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
  const least = leastSag(which, stroke);
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
