/**
 * Where to begin on a bike: spring for the wanted sag, clicks for sensible damping, and how the two ends ride together.
 * A starting point only. What the maker's sheet says stands beside every number and wins where there is one.
 */
import { defined } from '../form/plain-data.ts';
import { sagOnRide } from '../bike/end-readings.ts';
import { ENDS, PLACES, type BikeSheet, type End, type EndSheet, type RoughPlace } from '../bike/sheet.ts';
import { GRAVITY } from './bike/bike.ts';
import { COIL_PRELOAD, DAMPING, RIDER } from './defaults.ts';
import { KINDS } from './usual-bikes.ts';
import { bikeFromSheet, type Fits } from './bike/from-sheet.ts';
import { standingOn } from './slope.ts';
import { clickStarts, criticalOf, type ClickStart, type DampingReached } from './start-clicks.ts';
import { springStart, type SpringStart } from './start-spring.ts';

export interface EndStart {
  readonly spring: SpringStart;
  readonly clicks: readonly ClickStart[];
  /** what a measured damper comes to at the model's clicks */
  readonly reached: readonly DampingReached[];
  /** critical damping of the mass on this end at its sag, N·s/m at the wheel */
  readonly critical: number;
  /** undamped ride frequency, Hz */
  readonly frequency: number;
}

export interface Start {
  /** the ends that have a suspension; what is said of another stands for nothing */
  readonly suspended: readonly End[];
  readonly ends: Readonly<Record<End, EndStart>>;
  /** front ÷ rear ride frequency */
  readonly balance: number;
  readonly together: 'balanced' | 'front-firmer' | 'rear-firmer';
  /** the sheet with everything where it begins; readings that belong to the old spring are taken off */
  readonly sheet: BikeSheet;
  /** every default that was used, in sentences */
  readonly assumptions: readonly string[];
}

/** Ride frequencies this near count as balanced. Assumption: the usual sags alone come to about 1.2 in this model. */
const BALANCED = 0.25;

/** @param fits what `fitDampers(sheet)` gave, when the sheet has measured damper curves */
export function startOf(given: BikeSheet, fits: Fits = {}): Start {
  const sheet = asRidden(given);
  const bike = bikeFromSheet(sheet, fits);
  const springs = { front: springStart(sheet, bike, 'front'), rear: springStart(sheet, bike, 'rear') };
  const modelled = bikeFromSheet(atWantedSag(sheet, springs), fits);
  const level = standingOn(modelled, 0);
  const end = (which: End): EndStart => {
    const critical = criticalOf(modelled, which, springs[which]);
    const mass = springs[which].load / GRAVITY;
    return {
      spring: springs[which],
      ...clickStarts(sheet, modelled, which, critical, springs[which].sag, fits[which]),
      critical,
      frequency: Math.sqrt(level[which].stiffness / mass) / (2 * Math.PI),
    };
  };
  const ends = { front: end('front'), rear: end('rear') };
  const balance = ends.front.frequency / ends.rear.frequency;
  const together =
    balance > 1 + BALANCED ? 'front-firmer' : balance < 1 / (1 + BALANCED) ? 'rear-firmer' : 'balanced';
  const suspended = ENDS.filter((which) => sheet.ends[which].rigid !== true);
  return {
    suspended,
    ends,
    balance,
    together,
    sheet: begun(given, ends, suspended),
    assumptions: assumptionsOf(sheet, ends, suspended),
  };
}

/** Without a sag that tells nothing of the ride: the springs are not worked out from it. */
function asRidden(sheet: BikeSheet): BikeSheet {
  const end = (which: End): EndSheet => {
    const { sagMeasured, ...part } = sheet.ends[which];
    return sagMeasured === undefined || sagOnRide(sheet.ends[which]) !== undefined ? sheet.ends[which] : part;
  };
  return { ...sheet, ends: { front: end('front'), rear: end('rear') } };
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

/** The sheet with everything where it begins; a coil stays fitted until another one is. */
function begun(
  sheet: BikeSheet,
  ends: Readonly<Record<End, EndStart>>,
  suspended: readonly End[],
): BikeSheet {
  const end = (which: End): EndSheet => {
    if (!suspended.includes(which)) return sheet.ends[which];
    const { spring, sagMeasured, travelUsed, adjusters, ...part } = sheet.ends[which];
    const { spring: start, clicks } = ends[which];
    const moved = start.now === undefined || Math.abs(start.begin / start.now - 1) > 1e-6;
    const knobs = Object.fromEntries(
      clicks.map(({ circuit, begin, range }) => {
        const { now, near, ...knob } = adjusters[circuit]!;
        // Of a knob that nobody counted only the place is known, and no count of where it stood before.
        return [
          circuit,
          knob.range === undefined ? { ...knob, near: placeOf(begin, range) } : { ...knob, now: begin },
        ];
      }),
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

/** Roughly where a knob is, of a range in clicks; one that is only assumed may be shorter than the maker's clicks. */
export function placeOf(clicks: number, range: number): RoughPlace {
  const share = Math.min(1, Math.max(0, clicks / range));
  return PLACES[Math.round(share * (PLACES.length - 1))]!;
}

function assumptionsOf(
  sheet: BikeSheet,
  ends: Readonly<Record<End, EndStart>>,
  suspended: readonly End[],
): string[] {
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
  if (suspended.includes('rear') && sheet.ends.rear.leverage === undefined)
    said.push('the leverage of the rear: a usual curve of its kind of bike');
  for (const end of suspended) {
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
    ...(suspended.length < ENDS.length
      ? []
      : [`ride frequencies within ${percent(BALANCED)} of each other count as balanced`]),
  );
  return said;
}
