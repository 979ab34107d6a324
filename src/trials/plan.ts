/** From one change on one adjuster to a fair trial of it. */
import { capital, withStop } from '../form/text.ts';
import { reasonIn, type Reasons } from '../rulebase/reasons.ts';
import {
  limitsOf,
  standWords,
  tidy,
  wordsFor,
  type Arm,
  type Chances,
  type Change,
  type Expected,
  type Checked,
  type EarlierTrial,
  type Feeling,
  type Trial,
  type TrialProblem,
} from './trial.ts';

export interface PlanInput {
  readonly id: string;
  readonly bike?: string;
  /** the step that is advised */
  readonly change: Change;
  /** what the diagnosis expects of it; absent: nothing is expected */
  readonly chances?: Chances;
  readonly expected?: Expected;
  readonly feel?: string;
  /** what is rated after every run */
  readonly feelings: readonly Feeling[];
  /** what was said to bother beside what is rated in its own words */
  readonly others?: readonly string[] | undefined;
  readonly cautions?: readonly string[];
  /** the pack's sentences */
  readonly reasons?: Reasons;
  /** what else belongs on the sheet, such as what earlier trials said */
  readonly notes?: readonly string[];
  /** it brings what a gauge read off nearer to its target */
  readonly byGauge?: boolean;
  /** also the other direction, the same step or what fits short of the stop */
  readonly bothWays?: boolean;
  /** trials of this very step on the bike as it stands, oldest first: they count in its verdict, unless both ways are ridden */
  readonly before?: readonly Trial[];
  /** four runs in turn: without the step, with it, without, with */
  readonly short?: boolean;
}

/**
 * Plans the reference against the advised step.
 *
 * The other direction is ridden only on request: it shows a rider who likes whatever is new that he likes both. It
 * never goes to a stop or a limit, where an end may be wide open or locked.
 *
 * @returns all problems at once when no trial can be planned
 */
export function planTrial(input: PlanInput): Checked<Trial> {
  const problems = checkPlan(input);
  if (problems.length > 0) return { ok: false, problems };
  const { change } = input;
  const step: Arm = { name: change.to > change.from ? 'plus' : 'minus', set: change.to };
  const other = input.bothWays === true ? otherWay(change, step) : undefined;
  const byGauge = input.byGauge === true && other === undefined;
  const before = other === undefined ? (input.before ?? []) : [];
  // What these found is in today's diagnosis already: their ratings count once.
  const chances = before.find((one) => one.chances !== undefined)?.chances ?? input.chances;
  const others = input.others ?? [];
  const reference: Arm = { name: 'reference', set: change.from };
  const say = (
    note: 'by-gauge' | 'together' | 'one-mark' | 'other-way-short',
    values?: Record<string, string>,
  ): string => withStop(capital(reasonIn(input.reasons, `trial-${note}`, values)));
  return {
    ok: true,
    value: {
      trial: 1,
      id: input.id,
      ...(input.bike === undefined ? {} : { bike: input.bike }),
      change,
      arms: other === undefined ? [reference, step] : [reference, step, other],
      ...(chances === undefined ? {} : { chances }),
      ...(input.expected === undefined ? {} : { expected: input.expected }),
      ...(byGauge ? { byGauge: true as const } : {}),
      ...(input.short === true && other === undefined ? { short: true as const } : {}),
      feelings: input.feelings,
      ...(input.feel === undefined ? {} : { feel: input.feel }),
      cautions: input.cautions ?? [],
      ...(before.length === 0 ? {} : { before: before.map(asEarlier) }),
      notes: [
        ...(input.notes ?? []),
        ...(others.length === 0
          ? []
          : [say('one-mark', { others: others.map((one) => `"${one}"`).join(', ') })]),
        ...(byGauge ? [say('by-gauge')] : []),
        ...(before.length === 0 ? [] : [say('together', { trials: before.map((one) => one.id).join(', ') })]),
        ...(other === undefined || !isShorter(change, other)
          ? []
          : [say('other-way-short', { to: standWords(change, other.set) })]),
      ],
      ridden: [],
    },
  };
}

function asEarlier({ id, hidden, short, ridden }: Trial): EarlierTrial {
  return {
    id,
    ...(hidden === undefined ? {} : { hidden }),
    ...(short === undefined ? {} : { short }),
    ridden,
  };
}

/** The step the other way, or the most that stays short of the limit there; undefined when nothing does. */
function otherWay(change: Change, step: Arm): Arm | undefined {
  const { min, max } = limitsOf(change);
  const up = step.name === 'minus';
  const room = Math.abs((up ? max : min) - change.from);
  const size = Math.abs(change.to - change.from);
  const by = room > size + change.grain / 2 ? size : wholeGrains(room - change.grain, change.grain);
  if (!(by > 0)) return undefined;
  return { name: up ? 'plus' : 'minus', set: tidy(change.from + (up ? by : -by)) };
}

function isShorter({ from, to }: Change, { set }: Arm): boolean {
  return Math.abs(Math.abs(set - from) - Math.abs(to - from)) >= 1e-9;
}

function checkPlan({ id, change, feelings, bothWays }: PlanInput): TrialProblem[] {
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
      `The numbers of ${setting} make no sense.`,
      'Give from, to, the two limits and the smallest step as numbers, the lower limit first.',
    );
    return problems;
  }
  if (from < min || from > max) {
    add(
      'outside',
      'change.from',
      `${wordsFor(change)} is at ${from}, outside ${min} to ${max} ${unit}.`,
      'Count it again, or correct the range on the bike sheet.',
    );
  }
  if (to < min || to > max) {
    add(
      'outside',
      'change.to',
      `${to} is beyond the limit of the ${wordsFor(change)} (${min} to ${max} ${unit}).`,
      "Choose a smaller step, or another adjustment. Never go past a stop or the manufacturer's limits.",
    );
  }
  if (from === to)
    add(
      'no-step',
      'change.to',
      `That leaves the ${wordsFor(change)} where it is.`,
      'Name a step, for example +2.',
    );
  else if (!isWhole((to - from) / grain)) {
    add(
      'grain',
      'change.to',
      `You cannot set a step of ${tidy(Math.abs(to - from))} ${unit} on the ${wordsFor(change)}. It moves in steps of ${grain}.`,
      `Choose a multiple of ${grain}.`,
    );
  } else if (
    bothWays === true &&
    otherWay(change, { name: to > from ? 'plus' : 'minus', set: to }) === undefined
  )
    add(
      'other-way',
      'change.from',
      `The ${wordsFor(change)} has no room the other way: ${standWords(change, from)} is at the limit, or one step from it.`,
      'Try the advised step alone.',
    );
  const ids = feelings.map((feeling) => feeling.id);
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

function wholeGrains(room: number, grain: number): number {
  return Math.floor(room / grain + 1e-6) * grain;
}

function isWhole(x: number): boolean {
  return Math.abs(x - Math.round(x)) < 1e-6;
}
