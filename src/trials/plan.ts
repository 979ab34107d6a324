/** From one change on one adjuster to a fair trial of it. */
import { settingWords } from '../bike/setting-words.ts';
import {
  limitsOf,
  tidy,
  type Arm,
  type Change,
  type Checked,
  type Feeling,
  type Trial,
  type TrialProblem,
} from './trial.ts';

export interface PlanInput {
  /** names the trial and, by its hash, decides which direction is ridden first */
  readonly id: string;
  readonly bike?: string;
  readonly change: Change;
  readonly feel?: string;
  readonly feelings?: readonly Feeling[];
  readonly cautions?: readonly string[];
}

/** What any rider can rate on any ground. A rule may bring its own instead. */
export const GENERAL_FEELINGS: readonly Feeling[] = [
  { id: 'overall', ask: 'The run as a whole', low: 'as bad as this track gets', high: 'as good as it gets' },
  { id: 'grip', ask: 'Grip', low: 'none when I needed it', high: 'always there' },
  { id: 'calm', ask: 'Calm under me', low: 'thrown about', high: 'composed' },
  { id: 'hands', ask: 'Hands and feet', low: 'beaten up', high: 'fresh' },
];

/**
 * Plans reference, one direction, reference, the other direction, reference.
 *
 * Both directions are ridden, because a rider who simply likes whatever is new will like both; only what is
 * better than the reference *and* better than the other direction counts. Where a stop is in the way the
 * step on that side is shortened to it; with no room at all the other direction is a sham: turned and turned back.
 *
 * @returns all problems at once when no trial can be planned
 */
export function planTrial(input: PlanInput): Checked<Trial> {
  const problems = checkPlan(input);
  if (problems.length > 0) return { ok: false, problems };
  const { change } = input;
  const step = Math.abs(change.to - change.from);
  const plus = side(change, 'plus', step);
  const minus = side(change, 'minus', step);
  const pair: [Arm, Arm] = plusFirst(input.id) ? [plus.arm, minus.arm] : [minus.arm, plus.arm];
  return {
    ok: true,
    value: {
      trial: 1,
      id: input.id,
      ...(input.bike === undefined ? {} : { bike: input.bike }),
      change,
      arms: [{ name: 'reference', set: change.from }, ...pair],
      feelings: input.feelings ?? GENERAL_FEELINGS,
      ...(input.feel === undefined ? {} : { feel: input.feel }),
      cautions: input.cautions ?? [],
      notes: [...plus.notes, ...minus.notes],
      ridden: [],
    },
  };
}

/** The arm on one side of the reference: the whole step, what fits before the stop, or a sham. */
function side(change: Change, name: 'plus' | 'minus', step: number): { arm: Arm; notes: string[] } {
  const sign = name === 'plus' ? 1 : -1;
  const { min, max } = limitsOf(change);
  const stop = name === 'plus' ? max : min;
  const room = wholeGrains(Math.abs(stop - change.from), change.grain);
  const word = name === 'plus' ? 'up' : 'down';
  if (room >= step - change.grain / 1e6)
    return { arm: { name, set: tidy(change.from + sign * step) }, notes: [] };
  if (room > 0) {
    const set = tidy(change.from + sign * room);
    return {
      arm: { name, set },
      notes: [
        `Going ${word} only ${room === 1 ? `1 ${change.unit.replace(/s$/, '')} fits` : `${tidy(room)} ${change.unit} fit`} before the limit at ${stop}, so that side is tried at ${set} instead of ${tidy(change.from + sign * step)}.`,
      ],
    };
  }
  return {
    arm: { name: 'sham', set: change.from },
    notes: [
      `The ${settingWords(change.setting)} already stands at its limit (${stop} ${change.unit}), so there is no step ${word}. In its place comes a sham: turn the adjuster and turn it back to ${change.from}. It shows how much of a difference is only the habit of liking a change; it works best when somebody else turns the adjuster.`,
    ],
  };
}

function checkPlan({ id, change, feelings }: PlanInput): TrialProblem[] {
  const problems: TrialProblem[] = [];
  const { from, to, grain, unit, setting } = change;
  const { min, max } = limitsOf(change);
  const add = (code: TrialProblem['code'], at: string, message: string, remedy: string): void => {
    problems.push({ code, at, message, remedy });
  };
  if (id.trim() === '')
    add('id', 'id', 'The trial has no name.', 'Give it one, for example the date and the adjuster.');
  if (!Number.isFinite(from) || !Number.isFinite(to) || !(grain > 0) || !(min <= max)) {
    add(
      'outside',
      'change',
      `The numbers of ${setting} make no range.`,
      'Give from, to, the two limits and the smallest step as numbers, the lower limit first.',
    );
    return problems;
  }
  if (from < min || from > max) {
    add(
      'outside',
      'change.from',
      `${setting} stands at ${from}, outside ${min} to ${max} ${unit}.`,
      'Count it again, or correct the range on the bike sheet.',
    );
  }
  if (to < min || to > max) {
    add(
      'outside',
      'change.to',
      `${to} is beyond the limit of ${setting} (${min} to ${max} ${unit}).`,
      "Never past a stop or the maker's limits: choose a smaller step, or the next rung.",
    );
  }
  if (from === to)
    add('no-step', 'change.to', `${setting} would not be changed.`, 'Name a step, for example +2.');
  else if (!isWhole((to - from) / grain)) {
    add(
      'grain',
      'change.to',
      `A step of ${tidy(Math.abs(to - from))} ${unit} cannot be set on ${setting}; it moves by ${grain}.`,
      `Choose a multiple of ${grain}.`,
    );
  }
  const ids = (feelings ?? GENERAL_FEELINGS).map((feeling) => feeling.id);
  if (ids.length === 0 || new Set(ids).size !== ids.length) {
    add(
      'feelings',
      'feelings',
      'The feelings to rate are missing, or one is named twice.',
      'Name each feeling once.',
    );
  }
  return problems;
}

/** FNV-1a, then mixed so that ids differing in their last letter alone still spread over both orders. */
function plusFirst(id: string): boolean {
  let hash = 0x811c9dc5;
  for (const char of id) hash = Math.imul(hash ^ char.codePointAt(0)!, 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  return ((hash ^ (hash >>> 13)) & 1) === 0;
}

function wholeGrains(room: number, grain: number): number {
  return Math.floor(room / grain + 1e-6) * grain;
}

function isWhole(x: number): boolean {
  return Math.abs(x - Math.round(x)) < 1e-6;
}
