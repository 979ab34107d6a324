/**
 * Every number the model needs and a bike sheet may not give. Unless a line names a source it is an ASSUMPTION: no paper
 * that could be read gives damper coefficients, motion ratios or riding-position load shares of mountain bikes.
 */
import type { Circuit } from '../bike/sheet.ts';

/**
 * Whole range of an adjuster, closed to open, multiplies its coefficient by this. From memory, no source: with both
 * rebound knobs closed an end takes about a second to come back, fully open it springs; what one click then does is what
 * the trade calls half of a change that can be felt.
 */
export const ADJUSTER_SPAN = { low: 6, high: 8 } as const;

/** What one click multiplies its coefficient by, when the sheet does not say. */
export function clickRatio(circuit: Circuit, range: number): number {
  return ADJUSTER_SPAN[circuit.endsWith('low') ? 'low' : 'high'] ** (1 / Math.max(1, range));
}

/** Where a knob stands on an average bike, as a share of its range from closed. Assumption. */
export const MIDDLE = 0.5;

export const RIDER = {
  /** rider with kit, kg; assumption (the measured rider of Moore et al.'s data set weighs 83.5 kg) */
  mass: 80,
  /** share of the sprung weight on the front wheel, standing on level pedals on flat ground. Assumption: the rider's
   * weight a little ahead of the bottom bracket, so that the hands carry 5 % of it, and the bike in the middle. Measured
   * is 0.331 seated (Moore et al. data set) and 0.335 (benchmark bicycle, Meijaard et al. 2007) */
  frontShare: 0.4,
  /** least and most that a measured sag may bend it to; assumption */
  frontShareLeast: 0.3,
  frontShareMost: 0.55,
  /** what rides with the frame: feet and half of the shins on the pedals, hands and half of the forearms on the bars, as
   * shares of the rider's mass (Winter, Biomechanics and Motor Control: foot 1.45 %, shin 4.65 %, hand 0.6 %, forearm
   * 1.6 %, each twice; from memory) */
  onPedals: 0.0755,
  onBars: 0.028,
  /** pedals ahead of the rear axle, as a share of the wheelbase; hands behind the front axle, m. Assumptions for a slack
   * head angle and a short stem; standing relaxed then puts about 5 % of the weight on the hands, as a coaching text has
   * it (Lopes & McCormack, second hand) */
  pedalsFromRear: 0.355,
  handsBehindAxle: 0.27,
  /** radius of gyration in pitch, m: 0.341, from the measured seated rider of 83.5 kg and 9.71 kg·m² (Moore et al.) */
  gyration: 0.341,
  /** Hz: the body standing on bent legs (Matsumoto & Griffin 1998, from memory). With 72 kg on the legs it makes
   * 21 kN/m; two legs hopping have 17.8 kN/m (Ferris & Farley 1997, abstract) */
  legsFrequency: 2.75,
  /** share of critical (Greene & McMahon 1979, abstract: standing on a spring, knees bent 0 to 75°) */
  legsDamping: 0.34,
  /** N/m and share of critical for the rider's own pitch. Assumption: fitted values of arms are in Wang & Hull 1997,
   * whose numbers could not be read */
  armsStiffness: 4000,
  armsDamping: 0.34,
  /** heights above the ground, m: the rider's centre of mass standing crouched, and where the rider braces against
   * slowing down, between hands and feet. Assumptions (measured upright and seated: 1.107, Moore et al.) */
  height: 1.15,
  braces: 0.75,
} as const;

/** The bike without its wheels and without the rider. Assumptions, but for the place of its weight. */
export const FRAME = {
  /** m */
  height: 0.55,
  gyration: 0.4,
  /** share of the wheelbase ahead of the rear axle: 0.507 measured on a mountain bike (Moore et al. data set) */
  place: 0.507,
  /** m */
  barHeight: 1.0,
  pedalHeight: 0.33,
  leastMass: 3, // kg
} as const;

/** Radius of the wheel with its tyre, m; a 29-inch wheel (622 mm rim, 60 mm tyre), rounded. */
export const WHEEL_RADIUS = 0.37;

/**
 * What a pull at the ground does to the rear: shares of what keeps it level. From memory, no academic source: anti-rise
 * of 30 to 110 % and anti-squat of 80 to 130 % near sag. The axle's path is taken upright.
 */
export const REAR_PULL = { antiRise: 0.6, antiSquat: 1.0, axlePath: 0 } as const;

/**
 * Damping as a share of critical at the wheel, at two wheel speeds, in the middle of the range for an average rider. From
 * memory, no source: a fork's low-speed rebound makes some 100 N at 0.1 m/s and 400 N at 1.2 m/s, compression half of
 * that; rebound well above compression is common practice. The stack opens just below the slow speed. With the sag kept, the
 * spring grows with the load and critical damping too, so the same shares come to 1.9 times the damping at 110 kg of rider
 * than at 55: "about double", as the trade has it.
 */
export const DAMPING = {
  slow: 0.12, // m/s at the wheel
  fast: 1.2, // m/s at the wheel
  rebound: { slow: 0.55, fast: 0.36 },
  compression: { slow: 0.3, fast: 0.18 },
  /** preload of the stack as a share of the force at the slow speed. Assumption, chosen so that the cross-talk of the two
   * adjusters comes out in the order the trade tells: low-speed reaches fast movements more than the other way round */
  opensAt: 0.74,
} as const;

export const AIR = {
  /** n of p·Vⁿ for quick movements; to sag the gas is isothermal. Between 1.0 slow and 1.4 with no heat leaving */
  exponent: 1.3,
  front: {
    /** piston area, m² (about 29 mm bore); assumption, chosen so that usual pressures come out */
    area: 6.6e-4,
    /** negative piston ÷ positive piston; assumption (the shaft takes the difference) */
    negativeShare: 0.96,
    /** positive chamber without spacers, as a share of piston area × stroke; assumption */
    volume: 1.9,
    /** one spacer, as the same share; assumption (about 9 cm³ in a 170 mm fork) */
    spacer: 0.07,
    /** length of the negative chamber at full extension, m; assumption */
    negativeLength: 0.03,
    /** m; assumption */
    portTravel: 0.004,
  },
  rear: {
    area: 13e-4,
    negativeShare: 0.97,
    volume: 1.85,
    spacer: 0.08,
    negativeLength: 0.014,
    portTravel: 0.002,
  },
  spacers: 1,
  spacersMax: 5,
} as const;

/** Assumption: 1 mm is a light turn that only keeps the coil from rattling. */
export const COIL_PRELOAD = 0.001; // m
/** Pitch of a preload collar, m a turn; assumption, common on coil shocks. */
export const PRELOAD_PITCH = 0.001;

export const STOPS = {
  /** as shares of the stroke; forces as multiples of the end's load standing still, at the shaft. Assumptions */
  bottomLength: 0.1,
  bottomForce: 6,
  topLength: 0.03,
  topForce: 1.5,
  loss: 0.3, // s/m
} as const;

export const FRICTION = {
  /** share of the end's load standing still, at the shaft: a serviced fork binds more than a shock. From memory, no
   * source: a fork takes 30 to 50 N to begin to move, a shock three times that at its own, shorter shaft */
  front: 0.12,
  rear: 0.06,
  blend: 0.03, // m/s
  viscous: { front: 20, rear: 100 }, // N·s/m at the shaft
} as const;

export const TYRE = {
  /** deflection under `load` at `pressure`: 12 mm under 450 N gives 56 N/mm there. Assumption inside the measured band
   * of 31–147 N/mm (Rothhämel, BMD 2023, abstract; 20-inch tyres) */
  deflection: 0.012, // m
  load: 450, // N
  referencePressure: 160_000, // Pa
  casing: 0.2,
  loss: 0.15, // s/m
  pressure: { front: 155_000, rear: 175_000 }, // Pa
} as const;
