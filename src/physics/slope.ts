/** Steep ground: where the weight goes, and how much less damped the front then is with the same clicks. */
import { ENDS, type End } from '../bike/sheet.ts';
import { GRAVITY, type Bike } from './bike/bike.ts';
import { dragForce } from './ride/end-tables.ts';
import { restTravel, staticLoads } from './bike/equilibrium.ts';
import { ratioAt, shaftTravel } from './bike/linkage.ts';
import { springForce } from './bike/spring.ts';

export interface Standing {
  /** share of the sprung weight */
  readonly share: number;
  /** travel used standing still, mm as a mechanic reads it, and as a share of the wheel travel */
  readonly sag: number;
  readonly sagShare: number;
  /** N/m at the wheel of quick movements about that point, stops left out */
  readonly stiffness: number;
  /** rebound damping as a share of critical at a wheel speed of 0.3 m/s, for the mass standing on the end */
  readonly damping: number;
}

const READ_AT = 0.3; // m/s at the wheel

/** Both ends standing on a slope at held speed, degrees down. */
export function standingOn(bike: Bike, degrees: number): Readonly<Record<End, Standing>> {
  const slope = (degrees * Math.PI) / 180;
  const gravity = GRAVITY * Math.cos(slope);
  const braking = GRAVITY * Math.sin(slope);
  const loads = staticLoads(bike.body, gravity, braking);
  const total = loads.front + loads.rear;
  const of = (end: End): Standing => {
    const part = bike.ends[end];
    const { linkage } = part;
    const wheel = restTravel(bike, end, gravity, braking);
    const rest = shaftTravel(linkage, wheel);
    const force = (at: number): number =>
      springForce(part.spring, shaftTravel(linkage, at), rest) / ratioAt(linkage, at);
    const step = 1e-5;
    const stiffness = (force(wheel + step) - force(wheel - step)) / (2 * step);
    const mass = loads[end] / gravity;
    const ratio = ratioAt(linkage, wheel);
    const drag = -dragForce(part, -READ_AT / ratio) / ratio;
    return {
      share: loads[end] / total,
      sag: wheel * part.shownPerWheel * 1000,
      sagShare: wheel / part.linkage.travel,
      stiffness,
      damping: drag / READ_AT / (2 * Math.sqrt(stiffness * mass)),
    };
  };
  return Object.fromEntries(ENDS.map((end) => [end, of(end)])) as Record<End, Standing>;
}
