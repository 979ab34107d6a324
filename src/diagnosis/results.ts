/**
 * A ridden change is evidence too, and it changes the bike: belief after a trial (Breese & Heckerman 1996,
 * "Decision-theoretic troubleshooting", persistence).
 */
import { findSet, membersOf } from './hypotheses.ts';
import type { Model } from './model.ts';
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

export type Outcome = 'better' | 'same' | 'worse';

/** What a change does to the causes: share of each that it cures, and share by which it makes each appear. */
export interface ChangeEffect {
  /** share 0..1 a cause */
  readonly cures: Float64Array;
  /** how far it moves a setting toward a cause, 0..1 */
  readonly brings: Float64Array;
  /** chance that what it cures is cured for good: one step may be too small; absent = 1 */
  readonly lasts?: number;
}

/**
 * How far the change cures something in this set, and how far it spoils something, 0..1 each: the strongest of each.
 * A cause of the set pushed deeper counts in full; a setting that was right counts in part, and only where the change
 * cures nothing.
 */
export function reach(
  model: Model,
  effect: ChangeEffect,
  set: readonly number[],
): { cure: number; spoil: number } {
  let cure = 0;
  for (const c of set) cure = Math.max(cure, effect.cures[c]!);
  let spoil = 0;
  for (let c = 0; c < effect.brings.length; c++) {
    const push = effect.brings[c]!;
    if (push === 0) continue;
    const setting = model.rules.causes[c]!.setting;
    const off = set.find((x) => model.rules.causes[x]!.setting === setting);
    if (off === c) spoil = Math.max(spoil, push);
    else if (off === undefined && cure === 0)
      spoil = Math.max(spoil, push * model.rules.numbers.advice['upset-when-right']);
  }
  return { cure, spoil };
}

/** What was reported after a change: a word, or what the ratings of a trial came to. */
export interface Reported extends Partial<Measured> {
  readonly outcome: Outcome;
}

/** Where there are ratings they count, by how likely they are; a passing word counts by the pack's table. */
export function seenOf({ rules: { numbers } }: Model, { outcome, points, error }: Reported): Seen {
  if (points !== undefined && error !== undefined) return seenAs(numbers.trial, { points, error });
  const { helped, nothing, harmed } = numbers.results;
  return { helped: helped[outcome], nothing: nothing[outcome], harmed: harmed[outcome] };
}

/** P(outcome | set, change): between the three rows of the pack, by how much the change cures or spoils in this set. */
export function outcomeProbability(
  model: Model,
  effect: ChangeEffect,
  set: readonly number[],
  outcome: Outcome,
): number {
  return reported(reach(model, effect, set), seenOf(model, { outcome }));
}

function reported({ cure, spoil }: { readonly cure: number; readonly spoil: number }, seen: Seen): number {
  const help = cure * (1 - spoil);
  const harm = spoil * (1 - cure);
  return help * seen.helped + harm * seen.harmed + (1 - help - harm) * seen.nothing;
}

/** One trial seen from every set: how likely its report is, and which set the bike has afterwards. */
export interface TrialTable {
  /** P(report | set), up to a factor that is the same for all sets */
  readonly likelihood: Float64Array;
  /** the moves between sets, a line each: share of `from` that becomes `to`; what is not listed stays */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly share: Float64Array;
}

/**
 * Worked out once where the same trial is weighed again and again.
 * @param kept whether the change stayed on the bike; what it cured is then taken out of every set, in proportion
 */
export function tabulateTrial(
  model: Model,
  effect: ChangeEffect,
  report: Reported,
  kept: boolean,
): TrialTable {
  const { space } = model;
  const seen = seenOf(model, report);
  const likelihood = new Float64Array(space.size);
  const from: number[] = [];
  const to: number[] = [];
  const share: number[] = [];
  const gone = effect.cures.map((cured) => cured * (effect.lasts ?? 1));
  for (let h = 0; h < space.size; h++) {
    const set = membersOf(space, h);
    likelihood[h] = reported(reach(model, effect, set), seen);
    // Each cause it touches is gone with the share it cures for good, independently of the others.
    const touched = kept ? set.filter((c) => gone[c]! > 0) : [];
    for (let pattern = 0; touched.length > 0 && pattern < 1 << touched.length; pattern++) {
      let p = 1;
      const away = new Set<number>();
      touched.forEach((c, bit) => {
        const cured = (pattern >> bit) & 1;
        p *= cured ? gone[c]! : 1 - gone[c]!;
        if (cured) away.add(c);
      });
      from.push(h);
      to.push(
        findSet(
          space,
          set.filter((c) => !away.has(c)),
        ),
      );
      share.push(p);
    }
  }
  return tableOf(likelihood, from, to, share);
}

export function tableOf(
  likelihood: Float64Array,
  from: readonly number[],
  to: readonly number[],
  share: readonly number[],
): TrialTable {
  return {
    likelihood,
    from: Int32Array.from(from),
    to: Int32Array.from(to),
    share: Float64Array.from(share),
  };
}

/**
 * One trial of which nobody knows which of some changes it was, each as likely as the others: the report is as likely as
 * their mean, and each moves its share of the sets.
 */
export function eitherTable(tables: readonly TrialTable[]): TrialTable {
  if (tables.length === 1) return tables[0]!;
  const size = tables[0]!.likelihood.length;
  const likelihood = new Float64Array(size);
  for (const table of tables)
    for (let h = 0; h < size; h++) likelihood[h]! += table.likelihood[h]! / tables.length;
  const from: number[] = [];
  const to: number[] = [];
  const share: number[] = [];
  const moved = new Set(tables.flatMap((table) => [...table.from]));
  for (const table of tables) {
    const part = (h: number): number => table.likelihood[h]! / (tables.length * likelihood[h]!);
    const own = new Set(table.from);
    table.from.forEach((h, i) => {
      from.push(h);
      to.push(table.to[i]!);
      share.push(table.share[i]! * part(h));
    });
    // Where another of them moves this set and this one does not, its share stays.
    for (const h of moved) {
      if (own.has(h)) continue;
      from.push(h);
      to.push(h);
      share.push(part(h));
    }
  }
  return tableOf(likelihood, from, to, share);
}

/** Weights after a trial, normalised. */
export function afterTrial(weights: Float64Array, { likelihood, from, to, share }: TrialTable): Float64Array {
  const out = new Float64Array(weights.length);
  for (let h = 0; h < out.length; h++) out[h] = weights[h]! * likelihood[h]!;
  // A set that others come from may also be one that others become, so each is emptied once, before anything moves.
  for (let i = 0; i < from.length; i++) out[from[i]!] = 0;
  for (let i = 0; i < from.length; i++)
    out[to[i]!]! += weights[from[i]!]! * likelihood[from[i]!]! * share[i]!;
  let total = 0;
  for (const w of out) total += w;
  return out.map((w) => w / total);
}

/** The same backward: from what each set means after the trial, what it meant before, its report included. */
export function beforeTrial(later: Float64Array, { likelihood, from, to, share }: TrialTable): Float64Array {
  const out = later.slice();
  for (let i = 0; i < from.length; i++) out[from[i]!] = 0;
  for (let i = 0; i < from.length; i++) out[from[i]!]! += share[i]! * later[to[i]!]!;
  return out.map((x, h) => x * likelihood[h]!);
}
