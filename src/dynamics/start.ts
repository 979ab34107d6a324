/**
 * Where to begin on a bike: spring for the wanted sag, clicks for sensible damping, and how the two ends ride together.
 * A starting point only. What the maker's sheet says stands beside every number and wins where there is one.
 */
import { defined } from '../bike/defined.ts';
import { CIRCUITS, ENDS, type BikeSheet, type Circuit, type End, type EndSheet } from '../bike/sheet.ts';
import { GRAVITY, type Bike } from './bike.ts';
import { circuitThrough, type DamperCircuit } from './damper.ts';
import { clickRatio, COIL_PRELOAD, DAMPING, KINDS, MIDDLE, RIDER } from './defaults.ts';
import { bikeFromSheet, type Fits } from './from-sheet.ts';
import { fullStroke, ratioAt, wheelTravel, type Linkage } from './linkage.ts';
import { standingOn } from './slope.ts';
import { springForce, springStiffness, type AirSpringModel } from './spring.ts';

/** What a number rests on: read off this bike, or a default of the program's. */
export type Basis = 'measured' | 'assumption';

export interface SpringStart {
  readonly kind: 'air' | 'coil';
  /** share of the stroke */
  readonly sag: number;
  readonly sagBasis: Basis;
  /** on the end's springs standing still, N at the wheel */
  readonly load: number;
  /** gauge Pa (air) or N/m (coil) that gives that sag */
  readonly model: number;
  /** the maker's starting pressure, Pa, where the sheet has it */
  readonly maker?: number;
  /** what to begin with: the maker's, else the model's, inside the maker's limits */
  readonly begin: number;
  readonly now?: number;
  readonly basis: Basis;
  /** the limit that the model's number is beyond */
  readonly limited?: 'min' | 'max';
}

export interface ClickStart {
  readonly circuit: Circuit;
  readonly range: number;
  /** clicks from closed */
  readonly model: number;
  readonly maker?: number;
  readonly begin: number;
  readonly now?: number;
  /** `measured`: from this damper's own curve */
  readonly basis: Basis;
  /** the stop keeps it from going further that way */
  readonly limited?: 'closed' | 'open';
}

export interface EndStart {
  readonly spring: SpringStart;
  readonly clicks: readonly ClickStart[];
  /** critical damping of the mass on this end at its sag, N·s/m at the wheel */
  readonly critical: number;
  /** undamped ride frequency, Hz */
  readonly frequency: number;
}

export interface Start {
  readonly ends: Readonly<Record<End, EndStart>>;
  /** front ÷ rear ride frequency */
  readonly balance: number;
  readonly together: 'balanced' | 'front-firmer' | 'rear-firmer';
  /** the sheet with everything where it begins; readings that belong to the old spring are taken off */
  readonly sheet: BikeSheet;
  /** every default that was used, in sentences */
  readonly assumptions: readonly string[];
}

/** Ride frequencies this near to each other count as balanced. Assumption; judgement. */
export const BALANCED = 0.15;

/** @param fits what `fitDampers(sheet)` gave, when the sheet has measured damper curves */
export function startOf(sheet: BikeSheet, fits: Fits = {}): Start {
  const bike = bikeFromSheet(sheet, fits);
  const springs = { front: springStart(sheet, bike, 'front'), rear: springStart(sheet, bike, 'rear') };
  const modelled = bikeFromSheet(atWantedSag(sheet, springs), fits);
  const level = standingOn(modelled, 0);
  const end = (which: End): EndStart => {
    const critical = criticalOf(modelled, which, springs[which]);
    const mass = springs[which].load / GRAVITY;
    return {
      spring: springs[which],
      clicks: clickStarts(sheet, modelled, which, critical, springs[which], fits),
      critical,
      frequency: Math.sqrt(level[which].stiffness / mass) / (2 * Math.PI),
    };
  };
  const ends = { front: end('front'), rear: end('rear') };
  const balance = ends.front.frequency / ends.rear.frequency;
  const together =
    balance > 1 + BALANCED ? 'front-firmer' : balance < 1 / (1 + BALANCED) ? 'rear-firmer' : 'balanced';
  return {
    ends,
    balance,
    together,
    sheet: begun(sheet, ends),
    assumptions: assumptionsOf(sheet, ends),
  };
}

function springStart(sheet: BikeSheet, bike: Bike, which: End): SpringStart {
  const part = sheet.ends[which];
  const model = bike.ends[which];
  const sag = part.sagWanted ?? KINDS[sheet.kind][which].sag;
  const load = loadOn(bike, which);
  const shaft = sag * fullStroke(model.linkage);
  const force = load * ratioAt(model.linkage, wheelTravel(model.linkage, shaft));
  const base = {
    kind: part.spring.kind,
    sag,
    sagBasis: part.sagWanted === undefined ? ('assumption' as const) : ('measured' as const),
    load,
  };
  if (part.spring.kind === 'coil') {
    const { rate, preload = COIL_PRELOAD } = part.spring;
    const needed = coilRate(force, shaft, preload);
    const measured = rate !== undefined && part.sagMeasured !== undefined;
    return defined<SpringStart>({
      ...base,
      model: needed,
      maker: undefined,
      begin: needed,
      now: rate,
      basis: measured ? 'measured' : 'assumption',
      limited: undefined,
    });
  }
  const { pressure, pressureMaker, pressureMin = 0, pressureMax = Infinity } = part.spring;
  const needed = airPressure(model.spring as AirSpringModel, force, shaft);
  const inside = Math.min(pressureMax, Math.max(pressureMin, needed));
  return defined<SpringStart>({
    ...base,
    model: needed,
    maker: pressureMaker,
    begin: pressureMaker ?? inside,
    now: pressure,
    basis: pressure !== undefined && part.sagMeasured !== undefined ? 'measured' : 'assumption',
    limited: needed > pressureMax ? 'max' : needed < pressureMin ? 'min' : undefined,
  });
}

/** Rate in N/m of a coil that carries a force in N at a shaft travel and a preload, both m. */
export function coilRate(force: number, shaft: number, preload: number): number {
  return force / (shaft + preload);
}

/** Gauge pressure in Pa at which an air spring carries a force in N at a shaft travel in m: force is a line in it. */
export function airPressure(spring: AirSpringModel, force: number, shaft: number): number {
  const none = springForce({ ...spring, pressure: 0 }, shaft);
  const some = springForce({ ...spring, pressure: 1e5 }, shaft);
  return (1e5 * (force - none)) / (some - none);
}

/** N at the wheel on an end's springs, standing still on level ground. */
function loadOn({ body }: Bike, which: End): number {
  const arm = which === 'front' ? body.toRear : body.toFront;
  return (body.mass * GRAVITY * arm) / (body.toFront + body.toRear);
}

/** The bike as it stands once the sag is right: what frequency and critical damping are worked out on. */
function atWantedSag(sheet: BikeSheet, springs: Readonly<Record<End, SpringStart>>): BikeSheet {
  const end = (which: End): EndSheet => {
    const { spring, ...part } = sheet.ends[which];
    const { sag, model } = springs[which];
    return {
      ...part,
      sagMeasured: sag,
      spring: spring.kind === 'air' ? { ...spring, pressure: model } : { ...spring, rate: model },
    };
  };
  return { ...sheet, ends: { front: end('front'), rear: end('rear') } };
}

function criticalOf(bike: Bike, which: End, { sag, load }: SpringStart): number {
  const { spring, linkage } = bike.ends[which];
  const shaft = sag * fullStroke(linkage);
  const stiffness = springStiffness(spring, shaft) / ratioAtSag(linkage, sag) ** 2;
  return 2 * Math.sqrt((stiffness * load) / GRAVITY);
}

function ratioAtSag(linkage: Linkage, sag: number): number {
  return ratioAt(linkage, wheelTravel(linkage, sag * fullStroke(linkage)));
}

function clickStarts(
  sheet: BikeSheet,
  bike: Bike,
  which: End,
  critical: number,
  spring: SpringStart,
  fits: Fits,
): ClickStart[] {
  const ratio = ratioAtSag(bike.ends[which].linkage, spring.sag);
  return CIRCUITS.flatMap((circuit): ClickStart[] => {
    const knob = sheet.ends[which].adjusters[circuit];
    if (knob === undefined) return [];
    const [side, speed] = circuit.split('.') as ['rebound' | 'compression', 'low' | 'high'];
    const fit = fits[which]?.[side];
    const target = targetCircuit(side, critical, ratio);
    const { range, maker, now } = knob;
    const perClick = fits[which]?.ratios[circuit] ?? knob.ratio ?? clickRatio(circuit, range);
    const coefficient = speed === 'low' ? 'orifice' : 'stack';
    const exact =
      fit === undefined || target === undefined
        ? Math.round(MIDDLE * range) + clicksForMass(speed, massFactor(sheet, bike), perClick)
        : Math.log(target[coefficient] / fit[coefficient]) / Math.log(perClick);
    // A curve whose orifice or stack is nothing has no finite answer; the middle is then as good as any.
    const wanted = Number.isFinite(exact) ? Math.round(exact) : Math.round(MIDDLE * range);
    const model = Math.min(range, Math.max(0, wanted));
    return [
      defined<ClickStart>({
        circuit,
        range,
        model,
        maker,
        begin: maker ?? model,
        now,
        basis: fit === undefined ? 'assumption' : 'measured',
        limited: wanted < 0 ? 'closed' : wanted > range ? 'open' : undefined,
      }),
    ];
  });
}

/** The circuit that damps an end by the stated shares of critical at the stated wheel speeds. */
function targetCircuit(
  side: 'rebound' | 'compression',
  critical: number,
  ratio: number,
): DamperCircuit | undefined {
  const point = (share: number, wheel: number) => ({
    speed: wheel / ratio,
    force: share * critical * wheel * ratio,
  });
  const { slow, fast } = DAMPING[side];
  return circuitThrough(point(slow, DAMPING.slow), point(fast, DAMPING.fast));
}

/** Sprung mass against that with a usual rider on the same bike. */
function massFactor(sheet: BikeSheet, bike: Bike): number {
  return bike.body.mass / (bike.body.mass + RIDER.mass - (sheet.riderMass ?? RIDER.mass));
}

/**
 * Clicks, not rounded, from where a usual rider's damping is right to where it is for another mass: + is more open.
 *
 * At the same sag the stiffness goes with the load, so critical damping, 2√(k·m), goes with the mass: every force must
 * become r times as large. In v = α·√F + γ·F^1.5 that is α/√r and γ/r^1.5.
 * @param factor r; @param perClick what a click multiplies α (low) or γ (high) by
 */
export function clicksForMass(speed: 'low' | 'high', factor: number, perClick: number): number {
  return (-(speed === 'low' ? 0.5 : 1.5) * Math.log(factor)) / Math.log(perClick);
}

/** The sheet with everything where it begins; a coil stays fitted until another one is. */
function begun(sheet: BikeSheet, ends: Readonly<Record<End, EndStart>>): BikeSheet {
  const end = (which: End): EndSheet => {
    const { spring, sagMeasured, travelUsed, adjusters, ...part } = sheet.ends[which];
    const { spring: start, clicks } = ends[which];
    const moved = start.now === undefined || Math.abs(start.begin / start.now - 1) > 1e-6;
    const knobs = Object.fromEntries(
      clicks.map(({ circuit, begin }) => [circuit, { ...adjusters[circuit]!, now: begin }]),
    );
    return defined<EndSheet>({
      ...part,
      spring: spring.kind === 'air' ? { ...spring, pressure: start.begin } : { ...spring, rate: start.begin },
      sagMeasured: moved ? undefined : sagMeasured,
      travelUsed: moved ? undefined : travelUsed,
      sagWanted: start.sag,
      adjusters: knobs,
    } as { [K in keyof EndSheet]: EndSheet[K] | undefined });
  };
  return { ...sheet, ends: { front: end('front'), rear: end('rear') } };
}

function assumptionsOf(sheet: BikeSheet, ends: Readonly<Record<End, EndStart>>): string[] {
  const kind = KINDS[sheet.kind];
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const said: string[] = [];
  if (sheet.riderMass === undefined) said.push(`rider with kit ${RIDER.mass} kg`);
  if (sheet.bikeMass === undefined) said.push(`bike ${kind.bikeMass} kg`);
  said.push(`wheels and what moves with them ${kind.unsprung.front} kg front, ${kind.unsprung.rear} kg rear`);
  const coilSays = ENDS.some((end) => {
    const { spring, sagMeasured } = sheet.ends[end];
    return spring.kind === 'coil' && spring.rate !== undefined && sagMeasured !== undefined;
  });
  if (!coilSays)
    said.push(`${percent(RIDER.frontShare)} of the weight on the front, standing on level pedals`);
  if (sheet.geometry?.headAngle === undefined) said.push(`head angle ${kind.headAngle} degrees`);
  if (sheet.ends.rear.leverage === undefined)
    said.push('the leverage of the rear: a usual curve of its kind of bike');
  for (const end of ENDS) {
    const { spring, clicks } = ends[end];
    if (spring.sagBasis === 'assumption') said.push(`${end} sag wanted ${percent(spring.sag)}`);
    if (spring.basis === 'assumption' && spring.kind === 'air')
      said.push(
        `size of the ${end} air piston and chambers: usual ones, so its pressure may be far off; measure sag at a known pressure, and run this again`,
      );
    if (spring.kind === 'coil' && (sheet.ends[end].spring as { preload?: number }).preload === undefined)
      said.push(`${end} preload ${COIL_PRELOAD * 1000} mm`);
    if (clicks.some(({ basis }) => basis === 'assumption'))
      said.push(
        `${end} damper: its middle clicks are right for a rider of ${RIDER.mass} kg, and its range reaches as far as a usual one's`,
      );
  }
  const { rebound, compression, slow, fast } = DAMPING;
  said.push(
    `damping wanted, as shares of critical at wheel speeds of ${slow} and ${fast} m/s: rebound ${rebound.slow} and ${rebound.fast}, compression ${compression.slow} and ${compression.fast}`,
    `ride frequencies within ${percent(BALANCED)} of each other count as balanced`,
  );
  return said;
}
