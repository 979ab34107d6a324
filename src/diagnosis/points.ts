/** What a measured difference between two settings says: how likely it is where the change helps, harms, or does nothing. */
import type { Numbers } from '../rulebase/numbers-schema.ts';

/** How much better a changed bike was rated than the reference, and how far off that may be. */
export interface Measured {
  /** points of the 1–7 scale, above 0 is better */
  readonly points: number;
  /** standard deviation of `points`, > 0 */
  readonly error: number;
}

/** What a change can really do to a bike. */
export const DEEDS = ['helped', 'nothing', 'harmed'] as const;
export type Deed = (typeof DEEDS)[number];

/** How likely a report is, whatever the change really did; only the ratios matter. */
export type Seen = Readonly<Record<Deed, number>>;

/**
 * The effect of each deed is a normal distribution (`numbers.trial.points`); what was measured scatters about the
 * effect by its error. With the chance `misled` the whole trial measured something else (the track dried, the rider
 * woke up) and says nothing: this bounds what one trial can prove. A change that helps or harms may do more of it
 * than usual: beyond one standard deviation its likelihood falls no further.
 */
export function seenAs(
  { points: shape, misled }: Pick<Numbers['trial'], 'points' | 'misled'>,
  measured: Measured,
): Seen {
  const plain = DEEDS.map((deed) => {
    const [mean, sd] = shape[deed];
    const points = deed === 'nothing' ? measured.points : notBeyond(measured.points, mean, sd);
    return normal(points, mean, Math.hypot(sd, measured.error));
  });
  // Any difference from the worst to the best, alike.
  const anything = 1 / (2 * SPAN);
  const [helped, nothing, harmed] = plain.map((p) => (1 - misled) * p + misled * anything);
  return { helped: helped!, nothing: nothing!, harmed: harmed! };
}

/** Not farther from nothing than one standard deviation beyond the mean. */
function notBeyond(points: number, mean: number, sd: number): number {
  return mean > 0 ? Math.min(points, mean + sd) : Math.max(points, mean - sd);
}

/** Of the 1–7 scale, points. */
const SPAN = 6;

function normal(x: number, mean: number, sd: number): number {
  return Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
}
